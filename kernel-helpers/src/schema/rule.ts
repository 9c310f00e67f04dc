import type { RowOf, Schema } from "./column";

/** One record as a rule sees it: quantities in SI. */
export type AnyRow = Readonly<Record<string, number | string | undefined>>;

interface RuleFrame<Row> {
  /** The column at whose entry a fault is shown, then the others that the rule reads. */
  readonly columns: readonly [keyof Row & string, ...(keyof Row & string)[]];
  /** What is allowed, in words. */
  readonly allowed: string;
}

/** What must hold between the entries of one record. */
export interface RowRule<Row> extends RuleFrame<Row> {
  /** Returns what is wrong and the remedy, or undefined. Runs only where all its columns are in order. */
  fault(row: Row): string | undefined;
}

/** What must hold between records. */
export interface RowsRule<Row> extends RuleFrame<Row> {
  /**
   * Returns the faulty records by their place in `rows`, with what is wrong and the remedy. `rows` holds only the records
   * whose columns are in order; `lineOf` gives a record's line in the file.
   */
  faults(rows: readonly Row[], lineOf: (index: number) => number): readonly RowFault[];
}

/** A record at fault. */
export interface RowFault {
  readonly index: number;
  readonly fault: string;
}

export type Rule<Row> = RowRule<Row> | RowsRule<Row>;

/**
 * Adds rules across columns or records to a schema.
 *
 * `readRecords` shows every breach with file, line, column, value and remedy, like any other entry that is not allowed.
 *
 * @example
 * withRules(caughtSchema, [{ columns: ["dead", "caught"], allowed: "no more than were caught",
 *   fault: ({ dead, caught }) => dead > caught ? `${dead} dead of ${caught} caught; check both counts.` : undefined }])
 */
export function withRules<const S extends Schema>(schema: S, rules: readonly Rule<RowOf<S>>[]): S {
  return { ...schema, rules: [...(schema.rules ?? []), ...rules] };
}

/**
 * The rule that no two records agree in all of these columns.
 *
 * @example
 * withRules(schema, [uniqueTogether("night", "net", "species")])
 */
export function uniqueTogether<N extends string>(
  first: N,
  ...others: readonly N[]
): RowsRule<Record<N, unknown>> {
  const columns = [first, ...others] as const;
  return {
    columns: [...columns],
    allowed: `in no two records the same ${columns.join(", ")}`,
    faults(rows, lineOf) {
      const seen = new Map<string, number>();
      return rows.flatMap((row, index) => {
        const key = JSON.stringify(columns.map((name) => row[name]));
        const earlier = seen.get(key);
        if (earlier === undefined) seen.set(key, index);
        return earlier === undefined
          ? []
          : [
              {
                index,
                fault: `line ${lineOf(earlier)} has the same ${columns.join(", ")}; take one of them out.`,
              },
            ];
      });
    },
  };
}

/**
 * The rules that all records with the same entry in one column agree in others: a run has one species.
 *
 * The first record of a group sets what the others are held against.
 *
 * @example
 * withRules(schema, sameWithin("runId", ["species", "date"]))
 */
export function sameWithin<N extends string>(by: N, columns: readonly N[]): RowsRule<Record<N, unknown>>[] {
  return columns.map((column) => ({
    columns: [column, by],
    allowed: `one ${column} for each ${by}`,
    faults(rows, lineOf) {
      const first = new Map<unknown, number>();
      return rows.flatMap((row, index) => {
        const earlier = first.get(row[by]);
        if (earlier === undefined) first.set(row[by], index);
        return earlier === undefined || rows[earlier][column] === row[column]
          ? []
          : [
              {
                index,
                fault: `${by} ${String(row[by])} has another ${column} in line ${lineOf(earlier)}; correct one of them, or give the records another ${by}.`,
              },
            ];
      });
    },
  }));
}
