import { checkLevel, checkWhole, refuse } from "../checks";
import type { Interval } from "../proportion";
import { checkSeed, uniforms } from "../random";
import { checkClusters, type Cluster, pooled } from "./cluster";

/** A statistic with the interval of its values over resampled clusters. */
export interface ClusterBootstrap extends Interval<"cluster bootstrap, percentiles"> {
  /** Standard deviation of the resampled values. */
  readonly standardError: number;
  readonly resamples: number;
  readonly seed: number;
  /** Resamples in which the statistic had no finite value; the percentiles are those of the rest. */
  readonly withoutValue: number;
  /** The resampled values in rising order. */
  readonly values: readonly number[];
  /** Why the interval says little, where it does. */
  readonly caution: string | undefined;
}

/** What a bootstrap needs besides its clusters. */
export interface BootstrapOptions {
  readonly seed: number;
  /** 2000 unless told otherwise. */
  readonly resamples?: number;
  /** 0.95 unless told otherwise. */
  readonly level?: number;
}

/**
 * Percentile interval of any statistic by drawing whole clusters with replacement.
 *
 * Returns the statistic of the clusters themselves, the interval between the percentiles of its values over the resamples,
 * their standard deviation, and in how many resamples it had no finite value. A cluster may be anything that is drawn as a
 * whole: a run, a night. The same seed gives the same interval on every machine. Valid for independent clusters; fewer
 * than about 20 give too narrow an interval, which `caution` then says: of six to ten runs of four fish it covered the
 * truth in 85 to 92 % instead of 95 %. Throws a RangeError for fewer than two clusters,
 * a seed or number of resamples that is not whole, and where the statistic never has a finite value.
 *
 * @example
 * statistics.clusterBootstrap({ clusters: [0.2, 0.4, 0.9], seed: 1,
 *   statistic: (sample) => Math.max(...sample) }).upper // => 0.9
 */
export function clusterBootstrap<C>(
  options: {
    readonly clusters: readonly C[];
    readonly statistic: (sample: readonly C[]) => number;
  } & BootstrapOptions,
): ClusterBootstrap {
  const where = "statistics.clusterBootstrap";
  const { clusters, statistic, seed, resamples = 2000, level = 0.95 } = options;
  if (clusters.length < 2) refuse(where, `clusters has ${clusters.length} of them; drawing needs at least 2`);
  checkSeed(where, seed);
  checkWhole(where, "resamples", resamples, 100, 1_000_000);
  checkLevel(where, level);

  const drawn = Array.from(resampled(clusters, seed, resamples), statistic);
  const values = drawn.filter((value) => Number.isFinite(value)).toSorted((a, b) => a - b);
  if (values.length === 0) refuse(where, `none of ${resamples} resamples gave the statistic a finite value`);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return {
    estimate: statistic(clusters),
    lower: percentile(values, (1 - level) / 2),
    upper: percentile(values, (1 + level) / 2),
    level,
    method: "cluster bootstrap, percentiles",
    standardError: Math.sqrt(squares / Math.max(1, values.length - 1)),
    resamples,
    seed,
    withoutValue: resamples - values.length,
    values,
    caution: cautionOf(values, clusters.length),
  };
}

/** So many samples of as many clusters, each drawn with replacement; the same for the same seed. */
export function* resampled<C>(
  clusters: readonly C[],
  seed: number,
  resamples: number,
): Generator<readonly C[]> {
  const uniform = uniforms(seed);
  for (let sample = 0; sample < resamples; sample++) yield clusters.map(() => pick(clusters, uniform()));
}

function pick<C>(clusters: readonly C[], uniform: number): C {
  return clusters[Math.floor(uniform * clusters.length)];
}

/** Percentile of sorted values: between ranks in a straight line, the first value at 0 and the last at 1. */
export function percentile(sorted: readonly number[], share: number): number {
  const rank = share * (sorted.length - 1);
  const below = Math.floor(rank);
  const low = sorted[below];
  const high = sorted[Math.min(sorted.length - 1, below + 1)];
  return low + (rank - below) * (high - low);
}

function cautionOf(values: readonly number[], clusters: number): string | undefined {
  if (values[0] === values.at(-1))
    return "Every resample gives the same value: the clusters show no spread, and the interval has no width.";
  if (clusters < 20)
    return `Only ${clusters} clusters were drawn from: with fewer than about 20 the interval is too narrow.`;
  return undefined;
}

/**
 * Percentile interval of a proportion by drawing whole clusters with replacement.
 *
 * Returns what clusterBootstrap returns, for the share of all trials. Valid for independent clusters, about 20 or more.
 * Throws a RangeError for fewer than two clusters, counts that are not whole, and a seed that is not.
 *
 * @example
 * statistics.bootstrapInterval({ clusters: [{ successes: 4, trials: 4 }, { successes: 3, trials: 4 },
 *   { successes: 1, trials: 4 }, { successes: 4, trials: 4 }], seed: 1 }).estimate // => 0.75
 */
export function bootstrapInterval(
  options: { readonly clusters: readonly Cluster[] } & BootstrapOptions,
): ClusterBootstrap {
  checkClusters("statistics.bootstrapInterval", "clusters", options.clusters);
  return clusterBootstrap({
    ...options,
    statistic: (sample) => {
      const { successes, trials } = pooled(sample);
      return successes / trials;
    },
  });
}
