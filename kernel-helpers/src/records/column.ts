import { u } from "../quantity/u";
import { unitSpelled } from "../quantity/spelling";
import { type UnitName, units } from "../quantity/unit";
import { allowedIn, type Column, type Limits } from "../schema";
import { dayFault, parseDay } from "./day";
import type { FoundColumn } from "./header";
import { nearest } from "./nearest";
import { numberFault, parseNumber } from "./number";
import { Offence, quote } from "./offence";
import type { Cells, Table } from "./table";

/** An entry as it is used: a quantity in SI or a number, a word, a day; undefined where an optional one is missing. */
export type Entry = number | string | undefined;

/** Reads one entry; undefined if it is not allowed. */
type Reader = (entry: string) => number | string | undefined;

/** Checks a column from top to bottom. Returns its entries, of use only if there are no offences. */
export function checkColumn(
  { place, columns, lines }: Table,
  found: FoundColumn,
): { readonly entries: readonly Entry[]; readonly offences: readonly Offence[] } {
  const { column, index, head, spell, doubt } = found;
  const allowed = allowedIn(column);
  const read = readerOf(found);
  const cells = columns[index];
  const offences: Offence[] = [];
  // At its full length at once: growing to a million entries would leave twice as much behind.
  const entries: Entry[] = [];
  entries.length = cells.length;
  for (let i = 0; i < cells.length; i++) {
    const value = cells.at(i) ?? "";
    const spelled = spell(value);
    const unsure = doubt?.(value);
    const entry = unsure === undefined ? read(spelled) : undefined;
    entries[i] = entry;
    if (entry !== undefined) continue;
    const missing = spelled.trim() === "";
    if (missing && column.optional) continue;
    const explain = missing
      ? (): string => "the entry is missing."
      : (): string => unsure ?? faultOf(found, spelled);
    offences.push(new Offence({ file: place, line: lines[i], column: head, value }, allowed, explain));
  }
  if (column.unique) offences.push(...doubledEntries(place, head, allowed, cells, entries, lines));
  return { entries, offences };
}

function readerOf({ column, unit }: FoundColumn): Reader {
  switch (column.kind) {
    case "quantity": {
      const toSI = constructor(unit ?? column.unit);
      const within = withinLimits(column, constructor(column.unit));
      return (entry) => {
        const number = parseNumber(entry);
        if (Number.isNaN(number)) return undefined;
        const quantity = toSI(number);
        return within(quantity) ? quantity : undefined;
      };
    }
    case "number": {
      const within = withinLimits(column, (limit) => limit);
      const { whole } = column;
      return (entry) => {
        const number = parseNumber(entry);
        // NaN is not within any limits.
        return within(number) && (!whole || Number.isInteger(number)) ? number : undefined;
      };
    }
    case "choice": {
      // The word of the schema, not the file's: one text serves all records.
      const words = new Map(column.oneOf.map((word) => [word, word]));
      return (entry) => words.get(entry);
    }
    case "day":
      return parseDay;
    case "text": {
      const once = sharedTexts();
      return (entry) => (entry.trim() === "" ? undefined : once(entry));
    }
  }
}

/** Texts that come again are kept once; where they are all different, keeping track of them would cost more than it saves. */
function sharedTexts(): (text: string) => string {
  const known = new Map<string, string>();
  const most = 10_000;
  return (text) => {
    const same = known.get(text);
    if (same === undefined && known.size < most) known.set(text, text);
    return same ?? text;
  };
}

/** What makes an SI number of a number in a unit; brands exist for the compiler only. */
function constructor(unit: UnitName): (value: number) => number {
  return u[unit];
}

function withinLimits(
  { above, atLeast, below, atMost }: Limits,
  toSI: (limit: number) => number,
): (value: number) => boolean {
  const over = above === undefined ? -Infinity : toSI(above);
  const from = atLeast === undefined ? -Infinity : toSI(atLeast);
  const under = below === undefined ? Infinity : toSI(below);
  const to = atMost === undefined ? Infinity : toSI(atMost);
  return (value) => value > over && value >= from && value < under && value <= to;
}

/** Why an entry that is there is not allowed, and the remedy. */
function faultOf({ column, unit }: FoundColumn, value: string): string {
  switch (column.kind) {
    case "quantity":
    case "number": {
      const number = parseNumber(value);
      if (Number.isNaN(number))
        return (unit === undefined ? undefined : otherUnitFault(value, unit)) ?? numberFault(value);
      if (column.kind === "number" && column.whole && !Number.isInteger(number)) {
        return `${quote(value)} is not whole.`;
      }
      const symbol = unit === undefined ? "" : ` ${units[unit].symbol}`;
      return `${quote(value)}${symbol} is outside the limits.`;
    }
    case "choice":
      return choiceFault(column, value);
    case "day":
      return dayFault(value);
    case "text":
      return `${quote(value)} is no text.`;
  }
}

/** Why an entry with another unit than its column's is refused, and the number that it would be there. */
function otherUnitFault(entry: string, unit: UnitName): string | undefined {
  const [, digits = "", behind = ""] = /^([^\s\p{L}]+)\s*(\p{L}.*)$/u.exec(entry.trim()) ?? [];
  const number = parseNumber(digits);
  const { dimension, symbol } = units[unit];
  const other = unitSpelled(behind, dimension);
  if (Number.isNaN(number) || other === undefined || other === unit) return undefined;
  const converted = Number(((number * units[other].inSI) / units[unit].inSI).toPrecision(12));
  return `${quote(entry)} has a unit of its own, and the column is in ${symbol}; write ${converted}.`;
}

function choiceFault({ oneOf }: Extract<Column, { kind: "choice" }>, value: string): string {
  const near = nearest(value, oneOf);
  return near === undefined
    ? `${quote(value)} is not in the list.`
    : `${quote(value)} is not in the list; did you mean ${quote(near)}?`;
}

function doubledEntries(
  file: string,
  column: string,
  allowed: string,
  cells: Cells,
  entries: readonly Entry[],
  lines: readonly number[],
): Offence[] {
  const first = new Map<Entry, number>();
  const offences: Offence[] = [];
  for (let i = 0; i < entries.length; i++) {
    const entry = entries[i];
    if (entry === undefined) continue;
    const earlier = first.get(entry);
    if (earlier === undefined) first.set(entry, i);
    else {
      const value = cells.at(i) ?? "";
      const line = lines[earlier];
      offences.push(
        new Offence({ file, line: lines[i], column, value }, allowed, () => {
          return `${quote(value)} stands already in line ${line}.`;
        }),
      );
    }
  }
  return offences;
}
