import type { RowOf, Schema } from "../schema";
import { checkColumn, type Entry } from "./column";
import { matchHeader } from "./header";
import { Offence, RecordsError } from "./offence";
import type { Table } from "./table";

/** Checked records: every row fits the schema, quantities are in SI. */
export interface Records<S extends Schema> {
  readonly schema: S;
  /** The file's place, as the reader would write it. */
  readonly place: string;
  /** How many records there are. */
  readonly count: number;
  /** The schema's columns, in its order. */
  readonly columnNames: readonly (keyof S["columns"] & string)[];
  /** One object a record, made when first asked for. */
  readonly rows: readonly RowOf<S>[];
  /** One column from top to bottom. Throws an Error that lists the columns if there is none of that name. */
  column<N extends keyof S["columns"] & string>(name: N): readonly RowOf<S>[N][];
}

/**
 * Checks a table against a schema.
 *
 * Returns the records with quantities in SI. Throws a RecordsError with every offence: where it stands, the
 * value, what is allowed and the remedy. Nothing is dropped and nothing is changed on the way.
 */
export function checkRecords<const S extends Schema>(table: Table, schema: S): Records<S> {
  if (table.heads.length === 0) throw new RecordsError(schema.title, table.offences);
  const header = matchHeader(table, schema);
  if (!header.readable) throw new RecordsError(schema.title, header.offences);

  const columns = new Map<string, readonly Entry[]>();
  const offences: Offence[] = [...table.offences, ...header.offences];
  const faulty = new Set(table.offences.map(({ line, column }) => `${line} ${column}`));
  for (const found of header.found) {
    const checked = checkColumn(table, found);
    columns.set(found.name, checked.entries);
    for (const offence of checked.offences) {
      // A cell that holds a formula's error is not missing as well.
      if (faulty.size === 0 || !faulty.has(`${offence.line} ${offence.column}`)) offences.push(offence);
    }
  }
  if (table.lines.length === 0 && offences.length === 0) {
    offences.push(
      new Offence({ file: table.place }, "at least one record below the names of the columns", () => {
        return "the file has no records.";
      }),
    );
  }
  if (offences.length > 0) throw new RecordsError(schema.title, offences);
  return recordsOf(schema, table, columns);
}

function recordsOf<S extends Schema>(
  schema: S,
  { place, lines }: Table,
  columns: ReadonlyMap<string, readonly Entry[]>,
): Records<S> {
  const columnNames = Object.keys(schema.columns);
  let rows: readonly Record<string, Entry>[] | undefined;
  const records: Records<Schema> = {
    schema,
    place,
    count: lines.length,
    columnNames,
    get rows() {
      rows ??= rowsOf(columnNames, columns, lines.length);
      return rows as Records<Schema>["rows"]; // every entry was checked against its column
    },
    column(name) {
      const entries = columns.get(name);
      if (entries === undefined) {
        throw new Error(
          `"${schema.title}" (${place}) has no column "${name}"; its columns are ${columnNames.join(", ")}.`,
        );
      }
      return entries as ReturnType<Records<Schema>["column"]>; // every entry was checked against its column
    },
  };
  return records as unknown as Records<S>; // the schema's literal types are known to the caller only
}

function rowsOf(
  names: readonly string[],
  columns: ReadonlyMap<string, readonly Entry[]>,
  count: number,
): Record<string, Entry>[] {
  const lists = names.map((name) => columns.get(name) ?? []);
  const rows: Record<string, Entry>[] = [];
  for (let i = 0; i < count; i++) {
    const row: Record<string, Entry> = {};
    for (let c = 0; c < names.length; c++) row[names[c]] = lists[c][i];
    rows.push(row);
  }
  return rows;
}
