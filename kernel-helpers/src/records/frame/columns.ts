import { nearest } from "../nearest";
import { quote } from "../offence";

/** An entry of a frame; undefined where it is missing. */
export type Value = number | string | boolean | undefined;

export type Columns = ReadonlyMap<string, readonly Value[]>;

/** A column by its name. Throws an Error that lists the columns if there is none of that name. */
export function columnNamed(columns: Columns, name: string): readonly Value[] {
  const column = columns.get(name);
  if (column !== undefined) return column;
  const names = [...columns.keys()];
  const near = nearest(name, names);
  throw new Error(
    `the frame has no column ${quote(name)}; ${near === undefined ? "" : `did you mean ${quote(near)}? `}` +
      `Its columns are ${names.join(", ")}.`,
  );
}

/** The columns of rows; a column that only some rows have is missing in the others. */
export function columnsOfRows(rows: readonly object[]): Columns {
  if (rows.length === 0) throw new Error("frame was given no rows; it takes one row or more.");
  const columns = new Map<string, Value[]>();
  rows.forEach((row, i) => {
    for (const [name, entry] of Object.entries(row)) {
      let column = columns.get(name);
      if (column === undefined) {
        column = rows.map(() => undefined);
        columns.set(name, column);
      }
      column[i] = valueOf(entry, name, i);
    }
  });
  return columns;
}

function valueOf(entry: unknown, name: string, row: number): Value {
  if (entry === undefined || entry === null || Number.isNaN(entry)) return undefined;
  if (typeof entry === "number" || typeof entry === "string" || typeof entry === "boolean") return entry;
  const kind = entry instanceof Date ? "a Date" : Array.isArray(entry) ? "a list" : `a ${typeof entry}`;
  throw new Error(
    `frame: ${name} of row ${row + 1} is ${kind}; it must be a number, a text, true or false; write a day as "2026-03-01".`,
  );
}

/** Throws an Error where an entry of a column is no number; a missing one may be. */
export function checkNumbers(column: readonly Value[], name: string, what: string): void {
  const row = column.findIndex((entry) => entry !== undefined && typeof entry !== "number");
  if (row < 0) return;
  const entry = column[row];
  const shown = typeof entry === "string" ? quote(entry) : String(entry);
  throw new Error(`${what}: ${name} of row ${row + 1} is ${shown}; it must be a number.`);
}

/** The numbers of a column; missing entries are left out. Throws an Error where an entry is no number. */
export function numbersIn(column: readonly Value[], name: string, what: string): readonly number[] {
  checkNumbers(column, name, what);
  return column.filter((entry) => typeof entry === "number");
}

/** The same key for the same entries, and no other: 1 and "1" differ, and so do ("a-b", "c") and ("a", "b-c"). */
export function keyOf(columns: readonly (readonly Value[])[], row: number): string {
  return JSON.stringify(columns.map((column) => numberAsText(column[row])));
}

/** JSON knows no infinity; a missing entry becomes null. */
function numberAsText(entry: Value): Value | { readonly number: string } {
  return typeof entry === "number" ? { number: String(entry) } : entry;
}

/** The order of rows by a column; missing entries last, equal ones as they were. */
export function sortedRows(column: readonly Value[], order: "ascending" | "descending"): number[] {
  const sign = order === "ascending" ? 1 : -1;
  const rows = column.map((_, row) => row);
  return rows.toSorted((a, b) => {
    const [first, second] = [column[a], column[b]];
    if (first === undefined || second === undefined) {
      return Number(first === undefined) - Number(second === undefined);
    }
    return first === second ? 0 : first < second ? -sign : sign;
  });
}
