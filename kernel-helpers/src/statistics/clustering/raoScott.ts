import { checkNumber } from "../checks";
import { allAlike, checkClusters, type Cluster, pooled } from "./cluster";
import { meanClusterSize } from "./designEffect";

/** Where the design effect of effective counts comes from. */
export type EffectSource =
  | "estimated from the clusters"
  | "estimated below 1, taken as 1"
  | "each cluster taken as one trial, since all trials ended the same way"
  | "given";

/** Clustered counts turned into as many independent trials as they are worth. */
export interface EffectiveCount {
  readonly estimate: number;
  readonly successes: number;
  readonly trials: number;
  readonly clusters: number;
  /** The effect that divides the counts. */
  readonly designEffect: number;
  readonly effectFrom: EffectSource;
  /** What the clusters themselves give; undefined where all trials ended the same way. */
  readonly estimatedEffect: number | undefined;
  readonly effectiveSuccesses: number;
  readonly effectiveTrials: number;
}

/** How the effect is chosen. */
export interface EffectChoice {
  /** A design effect known from elsewhere, used instead of the estimated one. */
  readonly designEffect?: number;
  /** Whether an effect below 1 counts as 1 (true unless told otherwise): by chance alone clusters may look too alike. */
  readonly atLeastOne?: boolean;
}

/** Rao and Scott's effect: the variance of the ratio of cluster totals over the binomial one. Undefined for 0 or 1. */
function estimatedEffectOf(clusters: readonly Cluster[]): number | undefined {
  if (allAlike(clusters)) return undefined;
  const { successes, trials } = pooled(clusters);
  const share = successes / trials;
  const residuals = clusters.reduce((sum, one) => sum + (one.successes - one.trials * share) ** 2, 0);
  const variance = ((clusters.length / (clusters.length - 1)) * residuals) / trials ** 2;
  return (trials * variance) / (share * (1 - share));
}

function chosenEffect(
  clusters: readonly Cluster[],
  estimated: number | undefined,
  { designEffect, atLeastOne = true }: EffectChoice,
): readonly [number, EffectSource] {
  if (designEffect !== undefined) return [designEffect, "given"];
  if (estimated === undefined)
    return [
      meanClusterSize(clusters),
      "each cluster taken as one trial, since all trials ended the same way",
    ];
  // Clusters that match the mean to the fish would be worth endless trials: 0 never divides.
  if (estimated < 1 && (atLeastOne || estimated === 0)) return [1, "estimated below 1, taken as 1"];
  return [estimated, "estimated from the clusters"];
}

/** Effective counts of clusters that are already checked. */
export function effectiveCount(clusters: readonly Cluster[], choice: EffectChoice): EffectiveCount {
  const { successes, trials } = pooled(clusters);
  const estimatedEffect = estimatedEffectOf(clusters);
  const [designEffect, effectFrom] = chosenEffect(clusters, estimatedEffect, choice);
  return {
    estimate: successes / trials,
    successes,
    trials,
    clusters: clusters.length,
    designEffect,
    effectFrom,
    estimatedEffect,
    effectiveSuccesses: successes / designEffect,
    effectiveTrials: trials / designEffect,
  };
}

/**
 * Effective counts of clustered trials (Rao & Scott 1992, Biometrics 48:577): the counts divided by their design effect.
 *
 * Returns the share, the design effect and where it comes from, and the effective counts, which any method for independent
 * trials then takes. The effect is the spread of the cluster totals around the common share over the binomial one. Where
 * all trials ended the same way it is unknown, and each cluster counts as one trial: the most careful reading. Valid for
 * independent clusters, about ten or more; few clusters estimate the effect badly. Throws a RangeError for fewer than two
 * clusters and a given effect that is not above 0.
 *
 * @example
 * statistics.raoScott({ clusters: [{ successes: 4, trials: 4 }, { successes: 3, trials: 4 },
 *   { successes: 1, trials: 4 }, { successes: 4, trials: 4 }] }).designEffect // => 2.6667
 */
export function raoScott(options: { readonly clusters: readonly Cluster[] } & EffectChoice): EffectiveCount {
  const where = "statistics.raoScott";
  checkClusters(where, "clusters", options.clusters);
  checkChoice(where, options);
  return effectiveCount(options.clusters, options);
}

/** Refuses a given design effect that is not above 0. */
export function checkChoice(where: string, { designEffect }: EffectChoice): void {
  if (designEffect !== undefined) checkNumber(where, "designEffect", designEffect, { above: 0 });
}
