import { host } from "../host/current";
import type { Schema } from "../schema";
import { readTable } from "./readTable";
import { checkRecords, type ReadOptions, type Records } from "./records";

/**
 * Reads a file of records and checks it against a schema.
 *
 * Returns the checked records: `rows`, `column(name)`, quantities in SI whatever unit the file's head names.
 * The file is a CSV file (UTF-8, commas, decimal points) or an XLSX workbook; `sheet` names the worksheet where
 * a workbook has several. A file laid out otherwise is read with options: `columns` says what it calls a column and how
 * it writes it (head, unit, words, days), `ignore` which heads are not wanted, `missing` which entries stand for none,
 * `separator` and `decimalComma` how a CSV file is written, `headLine` which line holds the names of the columns where a
 * title stands above them. Optional columns may be absent. Throws a RecordsError that lists every entry that is not allowed, with file, line,
 * column, value and remedy; nothing is dropped silently. With `setAside: true` the records at fault are left out and
 * listed in `records.setAside` instead: show that list.
 *
 * @example
 * (await readRecords("daily-flow.csv", dailyFlow)).column("discharge")
 */
export async function readRecords<const S extends Schema>(
  name: string,
  schema: S,
  options: ReadOptions<S> = {},
): Promise<Records<S>> {
  const { place, bytes } = await host.readFile(name);
  return checkRecords(await readTable(bytes, place, options), schema, options);
}
