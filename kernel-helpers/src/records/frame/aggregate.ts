import { quote } from "../offence";
import { type Columns, checkNumbers, columnNamed, type Value } from "./columns";
import { type Aggregation, aggregations, type FrameEngine } from "./engine";

/** Which figures of which columns: `{ totalLength: ["count", "mean"] }`. */
export type Plan<Row extends object> = { readonly [N in keyof Row & string]?: readonly Aggregation[] };

type Figures<P> = P extends readonly Aggregation[] ? P[number] : never;

/** A row of figures: the groups' columns, and `meanTotalLength` for the mean of totalLength. */
export type Aggregated<Row extends object, K extends keyof Row, P extends Plan<Row>> = Pick<Row, K> & {
  readonly [N in keyof P & string as "count" extends Figures<P[N]> ? `count${Capitalize<N>}` : never]: number;
} & {
  readonly [N in keyof P & keyof Row & string as `${Exclude<Figures<P[N]>, "count">}${Capitalize<N>}`]:
    NonNullable<Row[N]> | undefined;
};

/** The groups of rows: the first row of each, and the group of each row. */
export interface Grouping {
  readonly names: readonly string[];
  readonly first: readonly number[];
  readonly groupOf: readonly number[];
}

/** Numbers the groups in the order in which they appear. */
export function groupRows(columns: Columns, names: readonly string[], count: number): Grouping {
  if (names.length === 0) throw new Error("groupBy was given no column; it takes one or more.");
  const keys = names.map((name) => columnNamed(columns, name));
  let groupOf: readonly number[] = Array.from({ length: count }, () => 0);
  for (const column of keys) groupOf = refined(groupOf, column);
  const first: number[] = [];
  groupOf.forEach((group, row) => {
    if (group === first.length) first.push(row);
  });
  return { names, first, groupOf };
}

/** Parts groups by the entries of one more column. Entries are told apart by value and kind; a missing one is an entry. */
function refined(groupOf: readonly number[], column: readonly Value[]): number[] {
  const numbers = new Map<number, Map<Value, number>>();
  let next = 0;
  return groupOf.map((group, row) => {
    let inGroup = numbers.get(group);
    if (inGroup === undefined) numbers.set(group, (inGroup = new Map()));
    let number = inGroup.get(column[row]);
    if (number === undefined) inGroup.set(column[row], (number = next++));
    return number;
  });
}

/** The columns of a frame of figures, one row a group. */
export function aggregateColumns(
  engine: FrameEngine,
  columns: Columns,
  grouping: Grouping,
  plan: Readonly<Record<string, readonly Aggregation[] | undefined>>,
): Columns {
  const { names, first } = grouping;
  const result = new Map<string, readonly Value[]>(
    names.map((name) => [name, first.map((row) => columnNamed(columns, name)[row])]),
  );
  for (const [name, wanted = []] of Object.entries(plan)) {
    checkWanted(name, wanted);
    const figures = figuresOf(engine, columnNamed(columns, name), name, wanted, grouping);
    for (const aggregation of wanted) {
      const title = `${aggregation}${name.charAt(0).toUpperCase()}${name.slice(1)}`;
      if (result.has(title))
        throw new Error(`aggregate: there would be two columns ${title}; rename one first.`);
      result.set(
        title,
        first.map((_, group) => {
          const figure = figures.get(group)?.[aggregation];
          // A group without entries counts none, and they sum to nothing.
          if (figure === undefined) return aggregation === "count" || aggregation === "sum" ? 0 : undefined;
          return Number.isNaN(figure) ? undefined : figure;
        }),
      );
    }
  }
  return result;
}

function checkWanted(name: string, wanted: readonly string[]): void {
  const known: readonly string[] = aggregations;
  if (wanted.length === 0)
    throw new Error(`aggregate: ${name} has no figure; name one of ${known.join(", ")}.`);
  for (const aggregation of wanted) {
    if (!known.includes(aggregation)) {
      throw new Error(
        `aggregate: ${quote(aggregation)} of ${name} is not known; it must be one of ${known.join(", ")}.`,
      );
    }
  }
}

/** How many values the library gets at a time, unless one group alone has more: its tables take a hundred bytes a value. */
const batchSize = 10_000;

function figuresOf(
  engine: FrameEngine,
  column: readonly Value[],
  name: string,
  wanted: readonly Aggregation[],
  { first, groupOf }: Grouping,
): ReturnType<FrameEngine["aggregate"]> {
  // Anything can be counted; the other figures take numbers.
  const counted = wanted.every((aggregation) => aggregation === "count");
  if (!counted) checkNumbers(column, name, "aggregate");
  const { order, starts } = rowsByGroup(groupOf, first.length);
  const figures = new Map<number, Readonly<Partial<Record<Aggregation, number>>>>();
  for (let from = 0, to = 0; from < first.length; from = to) {
    do to++;
    while (to < first.length && starts[to + 1] - starts[from] <= batchSize);
    const groups: number[] = [];
    const values: number[] = [];
    for (const row of order.subarray(starts[from], starts[to])) {
      const entry = column[row];
      if (entry === undefined) continue;
      groups.push(groupOf[row]);
      values.push(typeof entry === "number" ? entry : 1);
    }
    for (const [group, found] of engine.aggregate(groups, values, wanted)) figures.set(group, found);
  }
  return figures;
}

/** The rows of group 0, then those of group 1 …; `starts` says where each group begins, and at last where all end. */
function rowsByGroup(
  groupOf: readonly number[],
  groups: number,
): { readonly order: Uint32Array; readonly starts: Uint32Array } {
  const starts = new Uint32Array(groups + 1);
  for (const group of groupOf) starts[group + 1]++;
  for (let group = 0; group < groups; group++) starts[group + 1] += starts[group];
  const next = starts.slice();
  const order = new Uint32Array(groupOf.length);
  groupOf.forEach((group, row) => (order[next[group]++] = row));
  return { order, starts };
}
