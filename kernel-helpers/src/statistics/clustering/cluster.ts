import { refuse } from "../checks";
import { checkCount, type Count } from "../proportion";

/** Trials that may be alike, such as the fish of one run: how many there were and how many succeeded. */
export type Cluster = Count;

/** A named set of clusters: one condition of an experiment. */
export interface ClusterGroup {
  readonly name: string;
  readonly clusters: readonly Cluster[];
}

/** Refuses fewer than two clusters, and any that is no whole number of successes out of at least one trial. */
export function checkClusters(where: string, name: string, clusters: readonly Cluster[]): void {
  if (clusters.length < 2)
    refuse(where, `${name} has ${clusters.length} of them; spread between clusters needs at least 2`);
  clusters.forEach((cluster, at) => checkCount(where, `${name}[${at}]`, cluster));
}

/** Refuses fewer than two groups, two of one name, and groups whose clusters are no clusters. */
export function checkGroups(where: string, groups: readonly ClusterGroup[]): void {
  if (groups.length < 2) refuse(where, `groups has ${groups.length} of them; a comparison needs at least 2`);
  groups.forEach(({ name, clusters }, at) => {
    if (groups.findIndex((other) => other.name === name) !== at)
      refuse(where, `two groups are named "${name}"; each needs a name of its own`);
    checkClusters(where, `groups[${at}].clusters`, clusters);
  });
}

/** All trials together, as if they were independent. */
export function pooled(clusters: readonly Cluster[]): Count {
  return {
    successes: clusters.reduce((sum, one) => sum + one.successes, 0),
    trials: clusters.reduce((sum, one) => sum + one.trials, 0),
  };
}

/** Whether clusters say anything about how alike trials of one are: not where all trials end the same way or stand alone. */
export function tellCorrelation(clusters: readonly Cluster[]): boolean {
  return !allAlike(clusters) && clusters.some((one) => one.trials > 1);
}

/** Whether every trial of every cluster ended the same way: nothing can then be said about spread. */
export function allAlike(clusters: readonly Cluster[]): boolean {
  const { successes, trials } = pooled(clusters);
  return successes === 0 || successes === trials;
}
