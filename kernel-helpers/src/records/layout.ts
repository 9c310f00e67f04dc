import type { Schema } from "../schema";
import { quote } from "./offence";

/** How a file writes one column, where it differs from the schema. */
export interface ColumnLayout {
  /** The column's head in the file, as it stands there. */
  readonly head?: string;
  /** The unit of the file's numbers, where the head names none: "cm". */
  readonly unit?: string;
  /** The file's words and what the schema calls them: `{ "through the rack": "rackPassed" }`. */
  readonly words?: Readonly<Record<string, string>>;
  /** How the file writes days, such as "dd.mm.yyyy" or "mm/dd/yy"; yy stands for the years 2000 to 2099. */
  readonly days?: string;
}

/** How somebody's file is laid out: what to expect where it differs from the schema's own form. */
export interface Layout<S extends Schema = Schema> {
  /** By the schema's name of a column: its head in the file, or more about it. */
  readonly columns?: { readonly [N in keyof S["columns"] & string]?: string | ColumnLayout };
  /** Heads of the file that the schema does not want. */
  readonly ignore?: readonly string[];
  /** Entries that stand for a missing one: "-", "n/a". */
  readonly missing?: readonly string[];
  /** What stands between the columns of a CSV file. */
  readonly separator?: "," | ";" | "\t" | "|";
  /** Whether the file writes 12,5 for 12.5. */
  readonly decimalComma?: boolean;
}

/** A column's layout with every question answered. */
export interface PlainLayout {
  readonly head: string | undefined;
  readonly unit: string | undefined;
  /** The entry as the schema would write it; the same where the layout says nothing about it. */
  readonly spell: (entry: string) => string;
  /** Why an entry can't be told to mean one thing, and the remedy; undefined for plain ones. */
  readonly doubt: ((entry: string) => string | undefined) | undefined;
}

/** Works out how one column is written. Throws an Error with a sentence for a layout that no file can have. */
export function layoutOf(schema: Schema, name: string, layout: Layout): PlainLayout {
  const given = layout.columns?.[name];
  const { head, unit, words, days }: ColumnLayout =
    typeof given === "string" ? { head: given } : (given ?? {});
  const { kind } = schema.columns[name];
  if (words !== undefined && kind !== "choice" && kind !== "text")
    refuse(name, `has words, but holds a ${kind}`);
  if (days !== undefined && kind !== "day") refuse(name, `has days, but holds a ${kind}`);
  if (unit !== undefined && kind !== "quantity") refuse(name, `has unit "${unit}", but holds a ${kind}`);
  const missing = new Set((layout.missing ?? []).map((entry) => entry.trim()));
  const steps: ((entry: string) => string)[] = [];
  if (missing.size > 0) steps.push((entry) => (missing.has(entry.trim()) ? "" : entry));
  const withCommas = layout.decimalComma === true && (kind === "quantity" || kind === "number");
  if (withCommas) steps.push(pointForComma);
  if (words !== undefined) {
    const known = new Map(Object.entries(words).map(([theirs, ours]) => [theirs.trim(), ours]));
    steps.push((entry) => known.get(entry.trim()) ?? entry);
  }
  if (days !== undefined) steps.push(daySpeller(name, days));
  return {
    head,
    unit,
    spell: (entry) => steps.reduce((text, step) => step(text), entry),
    doubt: withCommas ? pointInDoubt : undefined,
  };
}

/** Refuses names in a layout that the schema does not have. */
export function checkLayout(schema: Schema, layout: Layout): void {
  const names = Object.keys(schema.columns);
  for (const name of Object.keys(layout.columns ?? {})) {
    if (!names.includes(name))
      throw new Error(
        `readRecords, "${schema.title}": columns names "${name}", which is not in the schema; its columns are ${names.join(", ")}.`,
      );
  }
}

function refuse(name: string, fault: string): never {
  throw new Error(`readRecords: the layout of column ${name} ${fault}; take it out.`);
}

/** Where decimals have commas, the point of "1.234" may part thousands: too much to guess. */
function pointInDoubt(entry: string): string | undefined {
  const text = entry.trim();
  if (!/^[+-]?[1-9]\d{0,2}\.\d{3}$/.test(text)) return undefined;
  return `${quote(entry)} has a point, and the file's decimals have commas; write ${text.replace(".", "")} if it parts thousands and ${text.replace(".", ",")} if it parts decimals.`;
}

/** Only a plain decimal comma; "1.234,5" stays as it is and is refused as a number. */
function pointForComma(entry: string): string {
  return /^\s*[+-]?\d*,\d+(?:[eE][+-]?\d+)?\s*$/.test(entry) ? entry.replace(",", ".") : entry;
}

function daySpeller(name: string, days: string): (entry: string) => string {
  const parts = /^(yyyy|yy|mm?|dd?)([^a-z0-9])(yyyy|yy|mm?|dd?)([^a-z0-9])(yyyy|yy|mm?|dd?)$/.exec(days);
  const order = parts === null ? [] : [parts[1][0], parts[3][0], parts[5][0]];
  if (parts === null || new Set(order).size !== 3)
    return refuse(name, `has days "${days}"; write the order with d, m and y, such as "dd.mm.yyyy"`);
  const [, , between, , before] = parts;
  const century = days.includes("yyyy") ? "" : "20";
  return (entry) => {
    const text = entry.trim();
    const end = text.indexOf(between);
    const beyond = text.indexOf(before, end + 1);
    const numbers = [text.slice(0, end), text.slice(end + 1, beyond), text.slice(beyond + 1)];
    const [year, month, day] = ["y", "m", "d"].map((part) => numbers[order.indexOf(part)]);
    // What is written in another order stays as it stands: a day of the schema's own form is plain, any other is refused.
    const fits =
      (century === "" ? /^\d{4}$/ : /^\d{2}$/).test(year) && /^\d{1,2}$/.test(month) && /^\d{1,2}$/.test(day);
    return fits ? `${century}${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}` : entry;
  };
}
