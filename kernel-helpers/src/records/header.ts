import { words } from "../formula/input";
import { type UnitName, units } from "../quantity/unit";
import type { Column, Schema } from "../schema";
import { checkLayout, type Layout, layoutOf } from "./layout";
import { nearest } from "./nearest";
import { Offence, quote } from "./offence";
import type { Table } from "./table";
import { dimensionSpelled, keyboardSpelling, spellingsOf, unitSpelled } from "../quantity/spelling";

/** A schema's column as it stands in a file. */
export interface FoundColumn {
  readonly name: string;
  readonly column: Column;
  /** Its place among the file's columns. */
  readonly index: number;
  /** Its head in the file. */
  readonly head: string;
  /** The unit that the file's numbers have; a quantity's column has one. */
  readonly unit: UnitName | undefined;
  /** An entry of the file as the schema would write it. */
  readonly spell: (entry: string) => string;
  /** Why an entry can't be told to mean one thing, and the remedy; undefined for plain ones. */
  readonly doubt?: (entry: string) => string | undefined;
}

/** Finds a schema's columns among the heads of a table; what does not fit is an offence. */
export function matchHeader(
  table: Table,
  schema: Schema,
  layout: Layout = {},
): {
  readonly found: readonly FoundColumn[];
  readonly offences: readonly Offence[];
  readonly readable: boolean;
} {
  const { place, heads, headLine } = table;
  const names = Object.keys(schema.columns);
  const wanted = `the columns ${names.map((name) => headOf(name, schema.columns[name])).join(", ")}`;
  checkLayout(schema, layout);
  const layouts = new Map(names.map((name) => [name, layoutOf(schema, name, layout)]));
  const nameOf = new Map(
    [...layouts].flatMap(([name, { head }]) => (head === undefined ? [] : [[head.trim(), name] as const])),
  );
  const ignored = new Set((layout.ignore ?? []).map((head) => head.trim()));
  const separator = wrongSeparator(heads, [...names, ...nameOf.keys()]);
  if (separator !== undefined) {
    const offence = new Offence(
      { file: place, line: headLine, value: heads[0] },
      `${wanted}, apart by commas`,
      () => separator,
    );
    return { found: [], offences: [offence], readable: false };
  }

  const below = headsBelow(table, new Set([...names, ...nameOf.keys()]));
  if (below !== undefined) {
    const offence = new Offence({ file: place, line: headLine, value: heads[0] }, wanted, () => {
      return `the names of the columns stand in line ${below}; take out what stands above, or read the file with headLine: ${below}.`;
    });
    return { found: [], offences: [offence], readable: false };
  }

  const found: FoundColumn[] = [];
  const offences: Offence[] = [];
  const refuse = (head: string | undefined, allowed: string, explain: () => string): void => {
    offences.push(new Offence({ file: place, line: headLine, column: head, value: head }, allowed, explain));
  };
  const seen = new Set<string>();
  const unknown: { readonly head: string; readonly name: string }[] = [];
  heads.forEach((head, index) => {
    if (ignored.has(head.trim()) || isBlank(table, index)) return;
    const bracketed = split(head);
    const name = nameOf.get(head.trim()) ?? bracketed.name;
    const unit = layouts.get(name)?.unit ?? bracketed.unit;
    if (name === "") {
      refuse(undefined, wanted, () => `column ${index + 1} has no name; name it or take it out.`);
    } else if (seen.has(name)) {
      refuse(head, "each column once", () => `${quote(name)} stands more than once; take one of them out.`);
    } else if (Object.hasOwn(schema.columns, name)) {
      const column = schema.columns[name];
      const fault = unitFault(name, column, unit);
      if (fault !== undefined) refuse(head, headOf(name, column), () => fault);
      else {
        const spelled =
          column.kind === "quantity" && unit !== undefined ? unitOf(unit, column.unit) : undefined;
        const spell = layouts.get(name)?.spell ?? ((entry: string): string => entry);
        const doubt = layouts.get(name)?.doubt;
        found.push({ name, column, index, head, unit: spelled, spell, doubt });
      }
    } else unknown.push({ head, name });
    seen.add(name);
  });

  const standing = new Set(heads.map((head) => head.trim()));
  for (const head of [...nameOf.keys(), ...ignored]) {
    if (standing.has(head)) continue;
    refuse(undefined, `one of the file's heads: ${heads.map((one) => one.trim()).join(", ")}`, () => {
      const name = nameOf.get(head);
      return `there is no head ${quote(head)}, which ${name === undefined ? "ignore" : `columns gives for ${name}`} names.`;
    });
  }
  const missing = names.filter((name) => !seen.has(name));
  for (const { head, name } of unknown) {
    const near = nearest(name, missing);
    if (schema.others && near === undefined) continue;
    refuse(head, wanted, () =>
      near === undefined
        ? "the column is not in the schema; take it out, name it in ignore, or say in columns which one it is."
        : `the column is not in the schema; did you mean ${near}?`,
    );
  }
  for (const name of missing) {
    // A column whose entries may all be empty may be left out.
    if (schema.columns[name].optional || layouts.get(name)?.head !== undefined) continue;
    offences.push(
      new Offence(
        { file: place, line: headLine },
        wanted,
        () => `the column ${headOf(name, schema.columns[name])} is missing.`,
      ),
    );
  }
  return { found, offences, readable: true };
}

/** Whether a column has no name and no entry: what commas at the end of every line leave. */
function isBlank({ heads, columns }: Table, index: number): boolean {
  const { length } = columns[index];
  if (heads[index].trim() !== "" || length === 0) return false;
  for (let row = 0; row < length; row++) if ((columns[index].at(row) ?? "").trim() !== "") return false;
  return true;
}

/** A head's name and the unit in brackets behind it; round ones count where they hold a unit that is known. */
function split(head: string): { readonly name: string; readonly unit: string | undefined } {
  const text = head.trim();
  const [, name, unit] = /^([^[\]]*?)\s*\[\s*([^[\]]*?)\s*\]$/.exec(text) ?? [];
  if (unit !== undefined) return { name, unit };
  const [, before, round] = /^([^()]*?)\s*\(\s*([^()]*?)\s*\)$/.exec(text) ?? [];
  if (round !== undefined && dimensionSpelled(round) !== undefined) return { name: before, unit: round };
  return { name: text, unit: undefined };
}

/** How far below a title the names of the columns are looked for. */
const longestTitle = 30;

/** The line further down that holds names of columns where the line of heads holds none; undefined if there is none. */
function headsBelow(
  { heads, headLine, columns, lines, offences }: Table,
  known: ReadonlySet<string>,
): number | undefined {
  const isKnown = (cell: string): boolean => known.has(cell.trim()) || known.has(split(cell).name);
  if (heads.some(isKnown)) return undefined;
  const kept = lines
    .slice(0, longestTitle)
    .map((line, row) => ({ line, cells: columns.map((column) => column.at(row) ?? "") }));
  // Under a short title the line of the names is one of another length.
  const refused = offences
    .slice(0, longestTitle)
    .map(({ line = 0, value = "" }) => ({ line, cells: [value] }));
  return [...kept, ...refused]
    .filter(({ line }) => line - headLine <= longestTitle)
    .map(({ line, cells }) => ({ line, cells: cells.length > 1 ? cells : cells.join("").split(/[,;\t|]/) }))
    .toSorted((a, b) => a.line - b.line)
    .find(({ cells }) => cells.filter(isKnown).length > 1)?.line;
}

/** A column as a file heads it, its unit in brackets. */
export function headOf(name: string, column: Column): string {
  return column.kind === "quantity" ? `${name} [${keyboardSpelling(column.unit)}]` : name;
}

function unitOf(spelling: string, unit: UnitName): UnitName | undefined {
  return unitSpelled(spelling, units[unit].dimension);
}

function unitFault(name: string, column: Column, unit: string | undefined): string | undefined {
  if (column.kind !== "quantity") {
    const none = unit === undefined || (column.kind === "number" && (unit === "-" || unit === "1"));
    if (none) return undefined;
    const remedy = unit === "%" ? "write shares as numbers from 0 to 1" : "take the unit out";
    return `${quote(`[${unit}]`)} is a unit, but ${name} has none; ${remedy}.`;
  }
  const { dimension } = units[column.unit];
  const may = `write ${headOf(name, column)}; the units may be ${spellingsOf(dimension)}.`;
  if (unit === undefined) return `the head names no unit; ${may}`;
  if (unitSpelled(unit, dimension) !== undefined) return undefined;
  const other = dimensionSpelled(unit);
  const what = other === undefined ? "no unit that is known here" : `a unit of ${words(other)}`;
  return `${quote(`[${unit}]`)} is ${what}, but ${name} is of ${words(dimension)}; ${may}`;
}

function wrongSeparator(heads: readonly string[], names: readonly string[]): string | undefined {
  const [head] = heads;
  if (/^sep=/i.test(head)) {
    return `the first line is ${quote(head)}; take it out, so that the names of the columns come first.`;
  }
  const separators = [
    [";", "semicolons"],
    ["\t", "tabs"],
    ["|", "upright strokes"],
  ] as const;
  for (const [separator, called] of separators) {
    const parts = head.split(separator).map((part) => split(part).name);
    const known = parts.filter((part) => names.includes(part)).length;
    if (parts.length > 1 && (heads.length === 1 || known > 1)) {
      const option = `separator: ${JSON.stringify(separator)}`;
      return `the columns are apart by ${called}; save the file with commas between the columns and points in the numbers, or read it with ${option}.`;
    }
  }
  return undefined;
}
