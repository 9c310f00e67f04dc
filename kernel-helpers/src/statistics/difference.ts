import { checkLevel } from "./checks";
import { checkCount, type Count, type Interval } from "./proportion";
import { wilson } from "./proportionMethods";

/** The difference of two shares: the first less the second. */
export type DifferenceInterval = Interval<"Newcombe's hybrid score">;

/** Newcombe's hybrid of two Wilson intervals; the counts need not be whole. */
export function hybridScore(first: Count, second: Count, level: number): DifferenceInterval {
  const [one, other] = [scored(first, level), scored(second, level)];
  const estimate = one.share - other.share;
  return {
    estimate,
    lower: estimate - Math.hypot(one.share - one.lower, other.upper - other.share),
    upper: estimate + Math.hypot(one.upper - one.share, other.share - other.lower),
    level,
    method: "Newcombe's hybrid score",
  };
}

const scored = ({ successes, trials }: Count, level: number) => ({
  share: successes / trials,
  ...wilson(successes, trials, level),
});

/**
 * Interval of the difference between two proportions of independent trials (Newcombe 1998, hybrid score).
 *
 * Returns the first share less the second, −1..1, and its interval. Valid for independent trials in two separate groups;
 * runs of several fish go to clusteredDifference. Throws a RangeError for counts that are not whole, more successes than
 * trials and a level outside 0..1.
 *
 * @example
 * statistics.differenceInterval({ first: { successes: 56, trials: 70 },
 *   second: { successes: 48, trials: 80 } }).lower // => 0.0524
 */
export function differenceInterval(options: {
  readonly first: Count;
  readonly second: Count;
  readonly level?: number;
}): DifferenceInterval {
  const where = "statistics.differenceInterval";
  const { first, second, level = 0.95 } = options;
  checkCount(where, "first", first);
  checkCount(where, "second", second);
  checkLevel(where, level);
  return hybridScore(first, second, level);
}
