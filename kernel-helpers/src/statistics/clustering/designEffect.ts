import { checkNumber } from "../checks";
import { checkClusters, type Cluster, pooled } from "./cluster";

/** Mean number of trials in the cluster of a trial, Σm²/Σm: larger clusters hold more trials and count more often. */
export function meanClusterSize(clusters: readonly Cluster[]): number {
  return clusters.reduce((sum, one) => sum + one.trials ** 2, 0) / pooled(clusters).trials;
}

/**
 * Design effect: by how much clustering widens the variance of a proportion.
 *
 * Returns 1 + (m − 1)ρ with m = Σm²/Σm, the mean size of the cluster of a trial: 1 for independent trials, m where every
 * cluster is all or nothing. A count of n trials then says as much as n divided by it. Throws a RangeError for fewer than
 * two clusters and a correlation outside −1..1.
 *
 * @example
 * statistics.designEffect({ clusters: [{ successes: 3, trials: 4 }, { successes: 1, trials: 4 }],
 *   intraclassCorrelation: 0.2 }) // => 1.6
 */
export function designEffect(options: {
  readonly clusters: readonly Cluster[];
  readonly intraclassCorrelation: number;
}): number {
  const where = "statistics.designEffect";
  const { clusters, intraclassCorrelation } = options;
  checkClusters(where, "clusters", clusters);
  checkNumber(where, "intraclassCorrelation", intraclassCorrelation, { atLeast: -1, atMost: 1 });
  return 1 + (meanClusterSize(clusters) - 1) * intraclassCorrelation;
}
