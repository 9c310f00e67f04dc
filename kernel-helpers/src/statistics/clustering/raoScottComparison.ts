import { refuse } from "../checks";
import { chiSquareTail } from "../distributions";
import type { Count } from "../proportion";
import { checkGroups, type ClusterGroup, pooled } from "./cluster";
import { type EffectiveCount, effectiveCount } from "./raoScott";

/** A test of no difference between groups. */
export interface GroupTest {
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

/** Groups of clusters compared, with the test that takes their trials for independent beside it. */
export interface RaoScottComparison extends GroupTest {
  readonly method: "Rao–Scott adjusted chi-square";
  /** Pearson's chi-square as if all trials were independent: too small a p-value where clusters are alike. */
  readonly unadjusted: GroupTest;
  readonly groups: readonly (EffectiveCount & { readonly name: string })[];
}

/**
 * Test of no difference between groups of clusters (Rao & Scott 1992, Biometrics 48:577).
 *
 * Returns Pearson's chi-square of the effective counts with its p-value, the same without the adjustment, and each group's
 * share and design effect. Every group has its own effect, at least 1 unless told otherwise. Valid for about ten clusters
 * or more in each group. Throws a RangeError for fewer than two groups, fewer than two clusters in one, and where every
 * trial of every group ended the same way.
 *
 * @example
 * statistics.raoScottComparison({ groups: [
 *   { name: "dark", clusters: [{ successes: 4, trials: 4 }, { successes: 3, trials: 4 }, { successes: 0, trials: 4 }] },
 *   { name: "light", clusters: [{ successes: 2, trials: 4 }, { successes: 0, trials: 4 }, { successes: 1, trials: 4 }] },
 * ] }).pValue // => 0.306
 */
export function raoScottComparison(options: {
  readonly groups: readonly ClusterGroup[];
  readonly atLeastOne?: boolean;
}): RaoScottComparison {
  const where = "statistics.raoScottComparison";
  checkGroups(where, options.groups);
  const groups = options.groups.map(({ name, clusters }) => ({ name, ...effectiveCount(clusters, options) }));
  const { successes, trials } = pooled(groups);
  if (successes === 0 || successes === trials)
    refuse(
      where,
      `${successes} of ${trials} trials succeeded; where all end the same way nothing can differ`,
    );
  const effective = groups.map((one) => ({ successes: one.effectiveSuccesses, trials: one.effectiveTrials }));
  return {
    method: "Rao–Scott adjusted chi-square",
    ...pearson(effective),
    unadjusted: pearson(groups),
    groups,
  };
}

function pearson(counts: readonly Count[]): GroupTest {
  const { successes, trials } = pooled(counts);
  const share = successes / trials;
  const statistic = counts.reduce(
    (sum, one) => sum + (one.successes - one.trials * share) ** 2 / (one.trials * share * (1 - share)),
    0,
  );
  const degreesOfFreedom = counts.length - 1;
  return { statistic, degreesOfFreedom, pValue: chiSquareTail(statistic, { degreesOfFreedom }) };
}
