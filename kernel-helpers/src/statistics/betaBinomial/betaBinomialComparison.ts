import { refuse } from "../checks";
import { checkGroups, type ClusterGroup, pooled, tellCorrelation } from "../clustering/cluster";
import type { GroupTest } from "../clustering/raoScottComparison";
import { chiSquareTail } from "../distributions";
import { type BetaBinomialStatus, checkSizes, statusOf } from "./betaBinomial";
import { talliesOf } from "./likelihood";
import { fitCommon, standardErrors } from "./maximum";

/** A number with its standard error, which is undefined at an end of its range. */
export interface Estimate {
  readonly estimate: number;
  readonly standardError: number | undefined;
}

/** Groups of clusters compared by their beta-binomial likelihoods. */
export interface BetaBinomialComparison extends GroupTest {
  readonly method: "beta-binomial likelihood ratio, one intra-class correlation for all groups";
  readonly status: BetaBinomialStatus;
  readonly groups: readonly (Estimate & { readonly name: string; readonly clusters: number })[];
  readonly intraclassCorrelation: Estimate;
  /** With a mean for each group. */
  readonly logLikelihood: number;
  /** With one mean for all. */
  readonly logLikelihoodTogether: number;
}

/**
 * Test of no difference between groups of clusters by beta-binomial likelihoods (Crowder 1978, Appl. Statist. 27:34).
 *
 * Returns twice the gain in log-likelihood from one mean for all groups to a mean for each, with its p-value, and the
 * fitted means with standard errors. All groups share one intra-class correlation: where it plainly differs between them,
 * raoScottComparison gives each its own. Throws a RangeError for fewer than two groups, fewer than two clusters in one,
 * clusters of one trial each, and where within every group all trials ended the same way: their correlation is unknown then.
 *
 * @example
 * statistics.betaBinomialComparison({ groups: [
 *   { name: "dark", clusters: [{ successes: 4, trials: 4 }, { successes: 3, trials: 4 }, { successes: 0, trials: 4 }] },
 *   { name: "light", clusters: [{ successes: 2, trials: 4 }, { successes: 0, trials: 4 }, { successes: 1, trials: 4 }] },
 * ] }).pValue // => 0.342
 */
export function betaBinomialComparison(options: {
  readonly groups: readonly ClusterGroup[];
}): BetaBinomialComparison {
  const where = "statistics.betaBinomialComparison";
  const { groups } = options;
  checkGroups(where, groups);
  const all = groups.flatMap((group) => group.clusters);
  checkSizes(where, all);
  const { successes, trials } = pooled(all);
  if (successes === 0 || successes === trials)
    refuse(
      where,
      `${successes} of ${trials} trials succeeded; where all end the same way nothing can differ`,
    );

  if (!groups.some((group) => tellCorrelation(group.clusters)))
    refuse(
      where,
      "within every group all trials ended the same way, or each cluster has one; how alike trials of one cluster are is " +
        "unknown then; raoScottComparison takes each cluster as one trial",
    );

  const tallies = groups.map((group) => talliesOf(group.clusters));
  const failed = "the search found no maximum of the likelihood";
  const apart = fitCommon(tallies) ?? refuse(where, failed);
  const together = fitCommon([talliesOf(all)]) ?? refuse(where, failed);
  const errors = standardErrors(tallies, apart);
  const degreesOfFreedom = groups.length - 1;
  // Equal groups differ by the last digit of the two sums.
  const statistic = Math.max(0, 2 * (apart.logLikelihood - together.logLikelihood));
  return {
    method: "beta-binomial likelihood ratio, one intra-class correlation for all groups",
    status: statusOf(apart.at),
    statistic,
    degreesOfFreedom,
    pValue: chiSquareTail(statistic, { degreesOfFreedom }),
    groups: groups.map(({ name, clusters }, at) => ({
      name,
      clusters: clusters.length,
      estimate: apart.means[at] ?? Number.NaN,
      standardError: errors.means[at],
    })),
    intraclassCorrelation: { estimate: apart.correlation, standardError: errors.correlation },
    logLikelihood: apart.logLikelihood,
    logLikelihoodTogether: together.logLikelihood,
  };
}
