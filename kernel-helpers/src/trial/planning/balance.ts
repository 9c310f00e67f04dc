import { refuse } from "../../statistics/checks";
import { type Factors, type Level, levelOf, type PlannedRun } from "./plannedRun";

/** How evenly the levels of a factor lie in the blocks of a kind. */
export interface Balance {
  readonly block: "batch" | "day";
  readonly factor: string;
  readonly blocks: number;
  /** The largest difference, in any block, between the runs of its most and its least frequent level. */
  readonly largestDifference: number;
  /** 0 where every block could hold all levels alike, 1 where its number of runs does not divide. */
  readonly smallestPossible: number;
  readonly even: boolean;
}

/** How the levels of a factor lie in the order of the day. */
export interface OrderBalance {
  readonly factor: string;
  /** Level that comes earliest on average, and latest. */
  readonly earliest: Level;
  readonly latest: Level;
  /** Difference of their mean places; large ones mix the level up with the hour. */
  readonly difference: number;
}

const blockKinds = ["batch", "day"] as const;

/** A run of a plan, or one that was made: its batch, its day and its levels. */
export type RunInBlocks<F extends Factors = Factors> = {
  readonly batch: string;
  /** Number or date. */
  readonly day: number | string;
  /** Which control it is, if it is one. */
  readonly control?: string | undefined;
} & { readonly [K in keyof F]?: Level | undefined };

/**
 * How evenly levels lie in batches and days, for any list of runs: a plan's, or those that were really made.
 *
 * Returns one row a kind of block and factor: the largest difference between two levels in any block, the smallest that
 * numbers of runs allow, and whether the two agree. Controls are left out. Valid for any order of the runs. Throws a
 * RangeError for a level that the factor doesn't have.
 *
 * @example
 * trial.balance({ cue: ["none", "light"] }, [
 *   { batch: "roach-1", day: "2023-04-03", cue: "none" }, { batch: "roach-1", day: "2023-04-03", cue: "none" },
 * ])[1].largestDifference // => 2
 */
export function balance<const F extends Factors>(
  factors: F,
  runs: readonly RunInBlocks<F>[],
): readonly Balance[] {
  const counted: readonly RunInBlocks[] = runs.filter((run) => run.control === undefined);
  checkLevels(factors, counted);
  return blockKinds.flatMap((block) => {
    const groups = [...new Set(counted.map((run) => run[block]))].map((value) =>
      counted.filter((run) => run[block] === value),
    );
    return Object.entries(factors).map(([factor, levels]) => {
      const largestDifference = Math.max(0, ...groups.map((group) => difference(group, factor, levels)));
      const smallestPossible = groups.some((group) => group.length % levels.length !== 0) ? 1 : 0;
      return {
        block,
        factor,
        blocks: groups.length,
        largestDifference,
        smallestPossible,
        even: largestDifference <= smallestPossible,
      };
    });
  });
}

/** A level that is not among those of its factor would not be counted anywhere. */
function checkLevels(factors: Factors, runs: readonly RunInBlocks[]): void {
  runs.forEach((run, at) => {
    for (const [factor, levels] of Object.entries(factors)) {
      const level = levelOf(run, factor);
      if (level === undefined || !levels.includes(level))
        refuse(
          "trial.balance",
          `runs[${at}].${factor} is ${String(level)}; the levels of ${factor} are ${levels.join(", ")}`,
        );
    }
  });
}

function difference(group: readonly RunInBlocks[], factor: string, levels: readonly Level[]): number {
  const counts = levels.map((level) => group.filter((run) => levelOf(run, factor) === level).length);
  return Math.max(...counts) - Math.min(...counts);
}

/** Mean places of each factor's levels in the order of the day. */
export function orderBalance(factors: Factors, runs: readonly PlannedRun[]): readonly OrderBalance[] {
  return Object.entries(factors).map(([factor, levels]) => {
    const places = levels
      .map((level) => {
        const own = runs.filter((run) => run.control === undefined && levelOf(run, factor) === level);
        return { level, mean: own.reduce((sum, run) => sum + run.place, 0) / own.length };
      })
      .toSorted((a, b) => a.mean - b.mean);
    const [first, last] = [places[0], places[places.length - 1]];
    return { factor, earliest: first.level, latest: last.level, difference: last.mean - first.mean };
  });
}
