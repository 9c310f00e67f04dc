import type { AnyRow, Rule } from "../schema/rule";
import type { FoundColumn } from "./header";
import { Offence } from "./offence";
import type { Table } from "./table";

/** Entries in the lines that were found at fault, column by column. */
export type FaultyEntries = ReadonlyMap<string, ReadonlySet<number>>;

/**
 * Holds records against the rules of their schema.
 *
 * A rule sees only the records whose entries in its columns are in order: one fault is not told twice.
 */
export function checkRules(
  { place, columns, lines }: Table,
  rules: readonly Rule<AnyRow>[],
  rows: readonly AnyRow[],
  found: readonly FoundColumn[],
  faulty: FaultyEntries,
): Offence[] {
  return rules.flatMap((rule) => {
    const places = indexesInOrder(rule, lines, faulty);
    const shown = found.find(({ name }) => name === rule.columns[0]);
    return faultsOf(
      rule,
      places.map((at) => rows[at]),
      (index) => lines[places[index]],
    ).map(({ index, fault }) => {
      const at = places[index];
      const value = shown === undefined ? undefined : columns[shown.index].at(at);
      return new Offence(
        { file: place, line: lines[at], column: shown?.head, value },
        rule.allowed,
        () => fault,
      );
    });
  });
}

function indexesInOrder(rule: Rule<AnyRow>, lines: readonly number[], faulty: FaultyEntries): number[] {
  const faults = rule.columns.flatMap((name) => faulty.get(name) ?? []);
  const indexes = lines.map((_, index) => index);
  return faults.length === 0
    ? indexes
    : indexes.filter((index) => !faults.some((inLines) => inLines.has(lines[index])));
}

function faultsOf(
  rule: Rule<AnyRow>,
  rows: readonly AnyRow[],
  lineOf: (index: number) => number,
): readonly { readonly index: number; readonly fault: string }[] {
  if ("faults" in rule) return rule.faults(rows, lineOf);
  return rows.flatMap((row, index) => {
    const fault = rule.fault(row);
    return fault === undefined ? [] : [{ index, fault }];
  });
}
