import type { RowOf, Schema } from "../schema";
import { checkColumn, type Entry } from "./column";
import { matchHeader } from "./header";
import type { Layout } from "./layout";
import { Offence, RecordsError } from "./offence";
import { checkRules } from "./rules";
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
  /** The faults of the records that were left out, line by line; empty unless `readRecords` was asked to set them aside. */
  readonly setAside: readonly SetAside[];
  /** One column from top to bottom. Throws an Error that lists the columns if there is none of that name. */
  column<N extends keyof S["columns"] & string>(name: N): readonly RowOf<S>[N][];
}

/** How to read a file: its layout where that differs from the schema's, and what to do with records at fault. */
export interface ReadOptions<S extends Schema = Schema> extends Layout<S> {
  /** The worksheet of a workbook that has several. */
  readonly sheet?: string;
  /** The line, or the row of a worksheet, in which the names of the columns stand, where it is not the first: 3. */
  readonly headLine?: number;
  /** Leave records at fault out and list their faults in `records.setAside`, instead of refusing the file. */
  readonly setAside?: boolean;
}

/** A record that was set aside, and why: one entry for each fault. */
export interface SetAside {
  readonly line: number;
  readonly column: string | undefined;
  /** The entry as it stands in the file. */
  readonly value: string | undefined;
  /** What is wrong and the remedy. */
  readonly fault: string;
  readonly allowed: string;
}

/**
 * Checks a table against a schema and its rules.
 *
 * Returns the records with quantities in SI. Throws a RecordsError with every offence: where it stands, the
 * value, what is allowed and the remedy. With `setAside`, records at fault are left out instead and every fault is
 * listed in `records.setAside`; a file whose form or head is wrong, or without a sound record, throws all the same.
 * Nothing is dropped silently and nothing is changed on the way.
 */
export function checkRecords<const S extends Schema>(
  table: Table,
  schema: S,
  options: ReadOptions<S> = {},
): Records<S> {
  if (table.heads.length === 0) throw new RecordsError(schema.title, table.offences);
  const header = matchHeader(table, schema, options);
  if (!header.readable) throw new RecordsError(schema.title, header.offences);

  const columns = new Map<string, readonly Entry[]>();
  const offences: Offence[] = [...table.offences, ...header.offences];
  const faulty = new Set(table.offences.map(({ line, column }) => `${line} ${column}`));
  const faultyEntries = new Map<string, Set<number>>();
  for (const found of header.found) {
    const checked = checkColumn(table, found);
    columns.set(found.name, checked.entries);
    for (const offence of checked.offences) {
      // A cell that holds a formula's error is not missing as well.
      if (faulty.size === 0 || !faulty.has(`${offence.line} ${offence.column}`)) offences.push(offence);
    }
    if (checked.offences.length > 0)
      faultyEntries.set(found.name, new Set(checked.offences.map(({ line = 0 }) => line)));
  }
  for (const name of Object.keys(schema.columns)) {
    // A column that the file may leave out, and does.
    if (!columns.has(name))
      columns.set(
        name,
        table.lines.map(() => undefined),
      );
  }
  if (table.lines.length === 0 && offences.length === 0) {
    offences.push(
      new Offence({ file: table.place }, "at least one record below the names of the columns", () => {
        return "the file has no records.";
      }),
    );
  }
  const { rules = [] } = schema;
  if (rules.length > 0 && header.offences.length === 0) {
    const rows = rowsOf(Object.keys(schema.columns), columns, table.lines.length);
    offences.push(...checkRules(table, rules, rows, header.found, faultyEntries));
  }
  if (offences.length === 0) return recordsOf(schema, table, columns, []);

  const away = new Set(offences.map(({ line }) => line));
  const sound = table.lines.flatMap((line, index) => (away.has(line) ? [] : [index]));
  if (!options.setAside || header.offences.length > 0 || sound.length === 0)
    throw new RecordsError(schema.title, offences);
  const kept = new Map([...columns].map(([name, entries]) => [name, sound.map((index) => entries[index])]));
  const lines = sound.map((index) => table.lines[index]);
  return recordsOf(schema, { ...table, lines }, kept, offences);
}

function recordsOf<S extends Schema>(
  schema: S,
  { place, lines }: Table,
  columns: ReadonlyMap<string, readonly Entry[]>,
  offences: readonly Offence[],
): Records<S> {
  const columnNames = Object.keys(schema.columns);
  let rows: readonly Record<string, Entry>[] | undefined;
  const records: Records<Schema> = {
    schema,
    place,
    count: lines.length,
    columnNames,
    setAside: offences
      .toSorted((a, b) => (a.line ?? 0) - (b.line ?? 0))
      .map(({ line = 0, column, value, fault, allowed }) => ({ line, column, value, fault, allowed })),
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
