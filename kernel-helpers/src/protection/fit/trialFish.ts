import { checkNumber, checkWhole, refuse } from "../../statistics/checks";

/** Fish of a trial that met the rack: one fish, or several of one relative width. */
export interface TrialFish {
  /** Body width, or height for fish that don't turn on their side, over clear spacing. */
  readonly relativeWidth: number;
  /** Whether the rack held the fish back; with `fish`, how many of them it held back. */
  readonly held: boolean | number;
  /** How many fish the row stands for, where `held` is a number. */
  readonly fish?: number;
  /** What swam together: the run. Fish of one run are not independent. */
  readonly cluster?: string;
}

/** Fish of one relative width, the rows of a likelihood. */
export interface WidthCounts {
  readonly widths: readonly number[];
  readonly held: readonly number[];
  readonly fish: readonly number[];
}

/** A row as a count. */
export interface CountedFish {
  readonly relativeWidth: number;
  readonly held: number;
  readonly fish: number;
  readonly cluster: string | undefined;
}

/** Turns rows into counts; throws a RangeError for a row that is none, and where only some rows name their run. */
export function countedFish(where: string, fish: readonly TrialFish[]): readonly CountedFish[] {
  if (fish.length === 0) refuse(where, "fish is empty; give the fish of a trial");
  const counted = fish.map((one, row) => {
    checkNumber(where, `fish[${row}].relativeWidth`, one.relativeWidth, { atLeast: 0 });
    if (typeof one.held === "boolean") {
      if (one.fish !== undefined)
        refuse(where, `fish[${row}] has a number of fish, so that held must be a number too`);
      return countOf(one, one.held ? 1 : 0, 1);
    }
    if (one.fish === undefined)
      refuse(where, `fish[${row}].held is ${String(one.held)}; it must be true or false, or come with fish`);
    checkWhole(where, `fish[${row}].fish`, one.fish, 0);
    checkWhole(where, `fish[${row}].held`, one.held, 0, one.fish);
    return countOf(one, one.held, one.fish);
  });
  const named = counted.filter(({ cluster }) => cluster !== undefined).length;
  if (named > 0 && named < counted.length)
    refuse(where, `${named} of ${counted.length} rows name their cluster; name it in every row or in none`);
  return counted;
}

const countOf = ({ relativeWidth, cluster }: TrialFish, held: number, fish: number): CountedFish => ({
  relativeWidth,
  held,
  fish,
  cluster,
});

/** Counts by relative width, in rising order, widths from `alikeFrom` on together; rows without fish fall away. */
export function byWidth(rows: readonly CountedFish[], alikeFrom = Infinity): WidthCounts {
  const counts = new Map<number, [held: number, fish: number]>();
  for (const { relativeWidth: measured, held, fish } of rows) {
    if (fish === 0) continue;
    const relativeWidth = Math.min(measured, alikeFrom);
    const known = counts.get(relativeWidth);
    if (known === undefined) counts.set(relativeWidth, [held, fish]);
    else {
      known[0] += held;
      known[1] += fish;
    }
  }
  const ordered = [...counts].toSorted(([a], [b]) => a - b);
  return {
    widths: ordered.map(([width]) => width),
    held: ordered.map(([, [held]]) => held),
    fish: ordered.map(([, [, fish]]) => fish),
  };
}

/** Rows by the cluster they belong to; undefined where none is named. */
export function byCluster(rows: readonly CountedFish[]): readonly (readonly CountedFish[])[] | undefined {
  const clusters = new Map<string, CountedFish[]>();
  for (const row of rows) {
    if (row.cluster === undefined) return undefined;
    const known = clusters.get(row.cluster);
    if (known === undefined) clusters.set(row.cluster, [row]);
    else known.push(row);
  }
  return [...clusters.values()];
}
