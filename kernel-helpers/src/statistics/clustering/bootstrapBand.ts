import { checkLevel, checkWhole, refuse } from "../checks";
import { checkSeed } from "../random";
import { type BootstrapOptions, percentile, resampled } from "./clusterBootstrap";

/** A place on a curve with the percentiles of its values over resampled clusters. */
export interface BandPoint {
  readonly estimate: number;
  /** Undefined where no resample gave the place a finite value. */
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  /** Resamples in which the place had no finite value. */
  readonly withoutValue: number;
}

/**
 * Percentile band of a curve by drawing whole clusters with replacement: one draw serves all its places.
 *
 * Returns for each place the curve's own value and the percentiles of its values over the resamples. `curve` works out the
 * values at all places from a sample of clusters, always as many. The band holds at each place by itself, not for the whole
 * curve at once. Valid for independent clusters, about 20 or more. Throws a RangeError for fewer than two clusters, a seed
 * or number of resamples that is not whole, and a curve whose number of values changes.
 *
 * @example
 * statistics.bootstrapBand({ clusters: [0.2, 0.4, 0.9], seed: 1,
 *   curve: (sample) => [Math.min(...sample), Math.max(...sample)] })[1].upper // => 0.9
 */
export function bootstrapBand<C>(
  options: {
    readonly clusters: readonly C[];
    readonly curve: (sample: readonly C[]) => readonly number[];
  } & BootstrapOptions,
): readonly BandPoint[] {
  const where = "statistics.bootstrapBand";
  const { clusters, curve, seed, resamples = 2000, level = 0.95 } = options;
  if (clusters.length < 2) refuse(where, `clusters has ${clusters.length} of them; drawing needs at least 2`);
  checkSeed(where, seed);
  checkWhole(where, "resamples", resamples, 100, 1_000_000);
  checkLevel(where, level);
  const own = curve(clusters);
  const drawn = Array.from(resampled(clusters, seed, resamples), (sample) => curve(sample));
  const other = drawn.find(({ length }) => length !== own.length);
  if (other !== undefined)
    refuse(where, `curve gave ${own.length} values and then ${other.length}; it must always give as many`);
  return own.map((estimate, place) => {
    const values = drawn
      .map((one) => one[place])
      .filter(Number.isFinite)
      .toSorted((a, b) => a - b);
    const none = values.length === 0;
    return {
      estimate,
      lower: none ? undefined : percentile(values, (1 - level) / 2),
      upper: none ? undefined : percentile(values, (1 + level) / 2),
      withoutValue: resamples - values.length,
    };
  });
}
