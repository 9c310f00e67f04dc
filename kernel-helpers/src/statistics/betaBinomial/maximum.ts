import { rootBetween } from "../root";
import { type Slopes, slopesAt, type Tallies } from "./likelihood";

/**
 * The mean at which the log-likelihood of one ρ is greatest.
 *
 * For a given ρ the log-likelihood bends down everywhere, so that Newton's steps, halved back into the bracket of the sign
 * change, always arrive.
 */
export function bestMean(tallies: Tallies, correlation: number): number {
  if (tallies.successes.length === 0) return 0;
  if (tallies.failures.length === 0) return 1;
  let [low, high, mean] = [0, 1, 0.5];
  for (let step = 0; step < 200; step++) {
    const { byMean, byMeanTwice } = slopesAt(tallies, mean, correlation);
    if (byMean === 0) return mean;
    if (byMean > 0) low = mean;
    else high = mean;
    const newton = mean - byMean / byMeanTwice;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - mean) <= 1e-15 * Math.min(mean, 1 - mean)) return next;
    mean = next;
  }
  return mean;
}

/** Where a function of ρ is greatest, and whether that is at an end of 0..1. */
export interface Greatest {
  readonly correlation: number;
  readonly value: number;
  readonly at: "lower end" | "inside" | "upper end";
}

/** ρ from 0 to 1, close together near both ends, where clusters of thousands would put a sharp peak. */
const grid: readonly number[] = [
  0,
  ...Array.from({ length: 81 }, (_, at) => 1 / (1 + Math.exp(16 - 0.4 * at))),
  1,
];

/**
 * Finds the ρ from 0 to 1 at which a log-likelihood is greatest: the best of a grid, then the zero of the slope beside it.
 *
 * Undefined where no zero of the slope lies beside the best of the grid: the search has then failed.
 */
export function greatest(
  slopes: (correlation: number) => Pick<Slopes, "value" | "byCorrelation">,
): Greatest | undefined {
  const values = grid.map((correlation) => slopes(correlation).value);
  const best = values.reduce((top, value, at) => (value > (values[top] ?? -Infinity) ? at : top), 0);
  const slope = (correlation: number): number => slopes(correlation).byCorrelation;
  const found = (correlation: number, at: Greatest["at"]): Greatest => ({
    correlation,
    value: slopes(correlation).value,
    at,
  });

  if (best === 0 && slope(0) <= 0) return found(0, "lower end");
  if (best === grid.length - 1 && slope(1) >= 0) return found(1, "upper end");
  const low = grid[Math.max(0, best - 1)] ?? 0;
  const high = grid[Math.min(grid.length - 1, best + 1)] ?? 1;
  // At ρ = 1 a cluster with both outcomes is impossible: the slope there is −∞, taken from just inside.
  const inside = high === 1 ? 1 - 1e-12 : high;
  if (!(slope(low) > 0 && slope(inside) < 0)) return undefined;
  return found(rootBetween(slope, low, inside), "inside");
}

/** Groups of clusters with a mean each and one ρ in common, at the greatest likelihood. */
export interface CommonFit {
  readonly means: readonly number[];
  readonly correlation: number;
  readonly logLikelihood: number;
  readonly at: Greatest["at"];
}

const add = (all: readonly number[]): number => all.reduce((sum, one) => sum + one, 0);

/** Fits a mean to each group and one ρ to all; undefined where the search fails. */
export function fitCommon(groups: readonly Tallies[]): CommonFit | undefined {
  const profile = (correlation: number) => {
    const slopes = groups.map((group) => slopesAt(group, bestMean(group, correlation), correlation));
    // The means are at their best, so that only the direct slope by ρ is left.
    return {
      value: add(slopes.map((one) => one.value)),
      byCorrelation: add(slopes.map((one) => one.byCorrelation)),
    };
  };
  const top = greatest(profile);
  if (top === undefined) return undefined;
  return {
    means: groups.map((group) => bestMean(group, top.correlation)),
    correlation: top.correlation,
    logLikelihood: top.value,
    at: top.at,
  };
}

/** Standard errors from the observed information; undefined where a parameter stands at an end of its range. */
export interface StandardErrors {
  readonly means: readonly (number | undefined)[];
  readonly correlation: number | undefined;
}

export function standardErrors(groups: readonly Tallies[], fit: CommonFit): StandardErrors {
  const slopes = groups.map((group, at) => {
    const mean = fit.means[at] ?? Number.NaN;
    return mean > 0 && mean < 1 ? slopesAt(group, mean, fit.correlation) : undefined;
  });
  const direct = groups.map((group, at) => slopesAt(group, fit.means[at] ?? Number.NaN, fit.correlation));
  // The information of ρ that the means leave: its own less what each mean shares with it.
  const left =
    -add(direct.map((one) => one.byCorrelationTwice)) +
    add(slopes.map((one) => (one === undefined ? 0 : one.byBoth ** 2 / one.byMeanTwice)));
  const known = fit.at === "inside" && left > 0;
  return {
    correlation: known ? 1 / Math.sqrt(left) : undefined,
    means: slopes.map((one) => {
      if (one === undefined) return undefined;
      const shared = known ? (one.byBoth / one.byMeanTwice) ** 2 / left : 0;
      return Math.sqrt(-1 / one.byMeanTwice + shared);
    }),
  };
}
