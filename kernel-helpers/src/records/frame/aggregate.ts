import { quote } from "../offence";
import { type Columns, columnNamed, keyOf, numbersIn, type Value } from "./columns";
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
  const groups = new Map<string, number>();
  const first: number[] = [];
  const groupOf: number[] = [];
  for (let row = 0; row < count; row++) {
    const key = keyOf(keys, row);
    let group = groups.get(key);
    if (group === undefined) {
      group = groups.size;
      groups.set(key, group);
      first.push(row);
    }
    groupOf.push(group);
  }
  return { names, first, groupOf };
}

/** The columns of a frame of figures, one row a group. */
export function aggregateColumns(
  engine: FrameEngine,
  columns: Columns,
  { names, first, groupOf }: Grouping,
  plan: Readonly<Record<string, readonly Aggregation[] | undefined>>,
): Columns {
  const result = new Map<string, readonly Value[]>(
    names.map((name) => [name, first.map((row) => columnNamed(columns, name)[row])]),
  );
  for (const [name, wanted = []] of Object.entries(plan)) {
    checkWanted(name, wanted);
    const figures = figuresOf(engine, columnNamed(columns, name), name, wanted, groupOf);
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

function figuresOf(
  engine: FrameEngine,
  column: readonly Value[],
  name: string,
  wanted: readonly Aggregation[],
  groupOf: readonly number[],
): ReturnType<FrameEngine["aggregate"]> {
  // Anything can be counted; the other figures take numbers.
  const counted = wanted.every((aggregation) => aggregation === "count");
  const ones = counted ? column.map((entry) => (entry === undefined ? undefined : 1)) : column;
  const { rows, values } = numbersIn(ones, name, "aggregate");
  return engine.aggregate(
    rows.map((row) => groupOf[row]),
    values,
    wanted,
  );
}
