import { checkLevel, checkNumber, checkWhole, refuse } from "../checks";
import { normalCdf, normalQuantile } from "../distributions";
import { twoSided, wilsonOf } from "../proportionMethods";
import { checkShare, cumulative } from "./clusterLaw";

/**
 * Half the width to expect of Wilson's interval from independent trials, summed over every count.
 *
 * Returns a number 0..0.5, without simulation: the limit that a plan for clusters must reach where trials of one cluster
 * are not alike. Throws a RangeError for a share that is not between 0 and 1 and trials that are not whole.
 *
 * @example
 * statistics.independentHalfWidth({ share: 0.8, trials: 250 }) // => 0.04927
 */
export function independentHalfWidth(options: {
  readonly share: number;
  readonly trials: number;
  readonly level?: number;
}): number {
  const where = "statistics.independentHalfWidth";
  const { share, trials, level = 0.95 } = options;
  checkShare(where, "share", share);
  checkWhole(where, "trials", trials, 1, 100_000);
  checkLevel(where, level);
  return expectedHalfWidth(share, trials, twoSided(level));
}

/** As independentHalfWidth, of numbers already checked. */
export function expectedHalfWidth(share: number, trials: number, z: number): number {
  const steps = cumulative(trials, share, 0);
  return steps.reduce((sum, step, count) => {
    const { lower, upper } = wilsonOf(z, count, trials);
    return sum + ((step - (count === 0 ? 0 : steps[count - 1])) * (upper - lower)) / 2;
  }, 0);
}

/** The fewest independent trials whose interval is on average no wider; at most `most`, else undefined. */
export function trialsForHalfWidth(
  share: number,
  halfWidth: number,
  z: number,
  most: number,
): number | undefined {
  if (expectedHalfWidth(share, most, z) > halfWidth) return undefined;
  let [low, high] = [0, most];
  while (high - low > 1) {
    const middle = (low + high) >>> 1;
    if (expectedHalfWidth(share, middle, z) > halfWidth) low = middle;
    else high = middle;
  }
  return high;
}

/** Two shares and the level of the test between them. */
export interface TwoShares {
  readonly first: number;
  readonly second: number;
  /** 0.95 unless told otherwise: a difference counts where its p-value is below 0.05. */
  readonly level?: number;
}

/** Refuses shares that are not between 0 and 1, and a level that is not. */
export function checkTwoShares(where: string, { first, second, level = 0.95 }: TwoShares): void {
  checkShare(where, "first", first);
  checkShare(where, "second", second);
  checkLevel(where, level);
}

/**
 * Power of the chi-square test between two proportions of independent trials, by the normal approximation
 * (Fleiss, Levin & Paik 2003, Statistical Methods for Rates and Proportions, ch. 4, without continuity correction).
 *
 * Returns the probability 0..1 that the difference is found. `trials` are those of each group and need not be whole, so
 * that effective trials may be given. Throws a RangeError for shares and a level outside 0..1 and no trials.
 *
 * @example
 * statistics.independentPower({ first: 0.5, second: 0.75, trials: 50 }) // => 0.740
 */
export function independentPower(options: TwoShares & { readonly trials: number }): number {
  const where = "statistics.independentPower";
  checkTwoShares(where, options);
  checkNumber(where, "trials", options.trials, { above: 0 });
  const { first, second, level = 0.95, trials } = options;
  const mean = (first + second) / 2;
  const reach = Math.sqrt(trials) * Math.abs(first - second);
  const under = twoSided(level) * Math.sqrt(2 * mean * (1 - mean));
  return normalCdf((reach - under) / Math.sqrt(first * (1 - first) + second * (1 - second)));
}

/**
 * Independent trials in each group for a wanted power of the chi-square test between two proportions.
 *
 * Returns the number as it comes from the normal approximation of independentPower: round it up. Throws a RangeError for
 * shares that are equal or outside 0..1, and a power that is not above half of 1 − level and below 1.
 *
 * @example
 * statistics.independentTrials({ first: 0.5, second: 0.75, power: 0.9 }) // => 76.7
 */
export function independentTrials(options: TwoShares & { readonly power: number }): number {
  const where = "statistics.independentTrials";
  checkTwoShares(where, options);
  const { first, second, level = 0.95, power } = options;
  if (first === second)
    refuse(where, `first and second are both ${first}; no number of trials tells them apart`);
  checkNumber(where, "power", power, { above: (1 - level) / 2, below: 1 });
  const mean = (first + second) / 2;
  const spread =
    twoSided(level) * Math.sqrt(2 * mean * (1 - mean)) +
    normalQuantile(power) * Math.sqrt(first * (1 - first) + second * (1 - second));
  return (spread / (first - second)) ** 2;
}
