import type { RowOf, Schema } from "../../schema";
import type { Records } from "../records";
import { type Aggregated, aggregateColumns, groupRows, type Plan } from "./aggregate";
import { type Columns, columnNamed, columnsOfRows, numbersIn, sortedRows, type Value } from "./columns";
import { type FrameEngine, frameEngine } from "./engine";
import { joinColumns } from "./join";

/** One line of `describe`: the figures of one column of numbers. */
export interface Description {
  readonly column: string;
  readonly count: number;
  readonly mean: number | undefined;
  readonly std: number | undefined;
  readonly min: number | undefined;
  readonly median: number | undefined;
  readonly max: number | undefined;
}

/** Rows of a frame that share the entries of some columns. */
export interface Groups<Row extends object, K extends keyof Row & string> {
  /**
   * Figures of each group's columns: one row a group, in the order in which the groups appear.
   *
   * Returns a frame with the groups' columns and one column a figure, `meanTotalLength` for the mean of
   * totalLength. Missing entries are left out of the figures; a figure that a group can't have is undefined (the
   * mean of none, the standard deviation of one), its count is 0 and its sum is 0. Numbers stay in double
   * precision. The figures are "count", "mean", "std" (of a sample), "min", "median", "max" and "sum".
   *
   * @example
   * fish.groupBy("species").aggregate({ totalLength: ["count", "mean", "std"] })
   */
  aggregate<const P extends Plan<Row>>(plan: P): Frame<Aggregated<Row, K, P>>;
}

/**
 * Rows with named columns, to group, describe, join and show. Made by `frame`; never changed.
 *
 * Every method checks the names of the columns that it is given and throws an Error that lists those there are.
 */
export interface Frame<Row extends object> {
  readonly columnNames: readonly (keyof Row & string)[];
  /** How many rows there are. */
  readonly count: number;
  readonly rows: readonly Row[];
  /** One column from top to bottom. */
  column<N extends keyof Row & string>(name: N): readonly Row[N][];
  /** Count, mean, standard deviation (of a sample), least, middle and greatest of every column of numbers. */
  describe(): Frame<Description>;
  /** Puts rows with the same entries in these columns together; a missing entry counts as an entry. */
  groupBy<K extends keyof Row & string>(...names: readonly [K, ...K[]]): Groups<Row, K>;
  /**
   * Looks up the columns of another frame by the columns that both share.
   *
   * Returns all rows of this frame in their order; what the other frame does not have stays undefined. Throws an
   * Error if a key stands in the other frame twice, or if both have another column of the same name.
   */
  join<Other extends object, K extends keyof Row & keyof Other & string>(
    other: Frame<Other>,
    ...on: readonly [K, ...K[]]
  ): Frame<Row & Partial<Omit<Other, K>>>;
  /** The rows in the order of a column; missing entries come last, equal ones stay in their order. */
  sortBy(name: keyof Row & string, order?: "ascending" | "descending"): Frame<Row>;
  /** The rows for which a condition holds. */
  filter(condition: (row: Row) => boolean): Frame<Row>;
}

/**
 * Makes a frame of records or of rows, to group, describe, join and show them.
 *
 * Quantities are in SI, as in the records. Entries may be numbers, texts, true or false; undefined, null and NaN
 * are missing ones. Loads danfojs-node when first used and throws an Error that says what to add if it is not
 * installed.
 *
 * @example
 * (await frame(fish)).groupBy("species").aggregate({ totalLength: ["mean"] }).rows
 */
export async function frame<S extends Schema>(source: Records<S>): Promise<Frame<RowOf<S>>>;
export async function frame<Row extends object>(source: readonly Row[]): Promise<Frame<Row>>;
// The types of the rows are those of the two signatures above.
export async function frame(source: Records<Schema> | readonly object[]): Promise<unknown> {
  const engine = await frameEngine();
  if (isRows(source)) return frameOf(engine, columnsOfRows(source), source.length);
  const columns = source.columnNames.map((name): [string, readonly Value[]] => [name, source.column(name)]);
  return frameOf(engine, new Map(columns), source.count);
}

function isRows(source: Records<Schema> | readonly object[]): source is readonly object[] {
  return Array.isArray(source);
}

/** A row whose columns are known at run time only. */
type AnyRow = Readonly<Record<string, Value>>;

/** The columns behind a frame, for joining it with another. */
const columnsBehind = new WeakMap<object, Columns>();

function frameOf(engine: FrameEngine, columns: Columns, count: number): Frame<AnyRow> {
  const columnNames = [...columns.keys()];
  let rows: readonly AnyRow[] | undefined;
  const take = (chosen: readonly number[]): Frame<AnyRow> => {
    const taken = [...columns].map(([name, column]): [string, readonly Value[]] => [
      name,
      chosen.map((row) => column[row]),
    ]);
    return frameOf(engine, new Map(taken), chosen.length);
  };
  const self: Frame<AnyRow> = {
    columnNames,
    count,
    get rows() {
      rows ??= Array.from({ length: count }, (_, row) =>
        Object.fromEntries([...columns].map(([name, column]) => [name, column[row]])),
      );
      return rows;
    },
    column: (name) => columnNamed(columns, name),
    describe() {
      const described = describeColumns(engine, columns);
      // The columns are those of a Description, put together below.
      return frameOf(engine, columnsOfRows(described), described.length) as unknown as Frame<Description>;
    },
    groupBy(...names) {
      const grouping = groupRows(columns, names, count);
      return {
        aggregate(plan) {
          const figures = aggregateColumns(engine, columns, grouping, plan);
          // The new columns' names follow from the plan, which is known to the caller only.
          return frameOf(engine, figures, grouping.first.length) as unknown as Frame<
            Aggregated<AnyRow, string, typeof plan>
          >;
        },
      };
    },
    join(other, ...on) {
      const theirs = columnsBehind.get(other);
      if (theirs === undefined) throw new Error("join takes a frame; make one with await frame(rows).");
      const joined = joinColumns({ columns, count }, { columns: theirs, count: other.count }, on);
      // The other frame's columns are known to the caller only.
      return frameOf(engine, joined, count) as unknown as ReturnType<typeof self.join<typeof other, never>>;
    },
    sortBy: (name, order = "ascending") => take(sortedRows(columnNamed(columns, name), order)),
    filter: (condition) => {
      const chosen: number[] = [];
      self.rows.forEach((row, i) => {
        if (condition(row)) chosen.push(i);
      });
      return take(chosen);
    },
  };
  columnsBehind.set(self, columns);
  return self;
}

function describeColumns(engine: FrameEngine, columns: Columns): Description[] {
  const described: Description[] = [];
  for (const [name, column] of columns) {
    const present = column.filter((entry) => entry !== undefined);
    if (present.length > 0 && typeof present[0] !== "number") continue;
    const values = numbersIn(column, name, "describe");
    if (values.length === 0) {
      const none = undefined;
      described.push({ column: name, count: 0, mean: none, std: none, min: none, median: none, max: none });
    } else described.push({ column: name, ...engine.describe(values) });
  }
  if (described.length === 0) {
    throw new Error(`describe: none of the columns ${[...columns.keys()].join(", ")} holds numbers.`);
  }
  return described;
}
