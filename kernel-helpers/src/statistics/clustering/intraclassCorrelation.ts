import { refuse } from "../checks";
import { allAlike, checkClusters, type Cluster, pooled } from "./cluster";

/**
 * Intra-class correlation of yes-or-no trials in clusters, by the analysis of variance.
 *
 * Returns how alike two trials of one cluster are: 0 for independent trials, 1 where every cluster is all or nothing. It is
 * not cut off: by chance, or where fish of one run avoid each other, it comes out below 0. Valid for clusters that are
 * independent of each other. Throws a RangeError for fewer than two clusters, for clusters of one trial each, and where
 * every trial ended the same way: the correlation is then unknown.
 *
 * @example
 * statistics.intraclassCorrelation({ clusters: [{ successes: 4, trials: 4 }, { successes: 3, trials: 4 },
 *   { successes: 1, trials: 4 }, { successes: 4, trials: 4 }] }) // => 0.4286
 */
export function intraclassCorrelation({ clusters }: { readonly clusters: readonly Cluster[] }): number {
  const where = "statistics.intraclassCorrelation";
  checkClusters(where, "clusters", clusters);
  const { successes, trials } = pooled(clusters);
  if (trials === clusters.length)
    refuse(where, "every cluster has one trial; trials of one cluster can't be compared with each other");
  if (allAlike(clusters))
    refuse(where, `${successes} of ${trials} trials succeeded; where all end the same way it is unknown`);

  const between =
    clusters.reduce((sum, one) => sum + one.successes ** 2 / one.trials, 0) - successes ** 2 / trials;
  const inside = clusters.reduce((sum, one) => sum + one.successes - one.successes ** 2 / one.trials, 0);
  const meanSquareBetween = between / (clusters.length - 1);
  const meanSquareInside = inside / (trials - clusters.length);
  const squares = clusters.reduce((sum, one) => sum + one.trials ** 2, 0);
  const size = (trials - squares / trials) / (clusters.length - 1);
  return (meanSquareBetween - meanSquareInside) / (meanSquareBetween + (size - 1) * meanSquareInside);
}
