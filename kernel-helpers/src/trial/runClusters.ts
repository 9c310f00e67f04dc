import type { Cluster } from "../statistics";
import type { EfficiencyDefinition, EfficiencyName } from "./efficiency";
import { byRun, checkFish, definitionOf, type TrialFish } from "./fish";

/** The count of one run: a cluster with its name. */
export interface RunCluster extends Cluster {
  readonly runId: string;
}

/** Counts run by run, for functions that take clusters. */
export interface RunClusters {
  /** What was counted, denominator included. */
  readonly definition: string;
  /** Runs with a fish in the denominator, in order of appearance. */
  readonly clusters: readonly RunCluster[];
  /** Runs without one: they say nothing about the efficiency. */
  readonly runsLeftOut: readonly string[];
}

/**
 * Counts an efficiency run by run: the clusters that `statistics` takes.
 *
 * Returns successes and trials of each run that has a fish in the efficiency's denominator, and the names of those that
 * have none. Throws a RangeError for no fish, an outcome that is none and an efficiency that is none.
 *
 * @example
 * trial.runClusters([{ runId: "R1", outcome: "bypassed" }, { runId: "R1", outcome: "rackPassed" },
 *   { runId: "R2", outcome: "inactive" }], "guidance").clusters[0].trials // => 2
 */
export function runClusters(fish: readonly TrialFish[], efficiency: EfficiencyName): RunClusters {
  const where = "trial.runClusters";
  checkFish(where, fish);
  return clustersOf(fish, definitionOf(where, efficiency));
}

/** The same for fish that are already checked. */
export function clustersOf(fish: readonly TrialFish[], definition: EfficiencyDefinition): RunClusters {
  const counts = [...byRun(fish)].map(([runId, members]) => ({
    runId,
    successes: members.filter(({ outcome }) => definition.successes.includes(outcome)).length,
    trials: members.filter(({ outcome }) => definition.denominator.includes(outcome)).length,
  }));
  return {
    definition: definition.definition,
    clusters: counts.filter(({ trials }) => trials > 0),
    runsLeftOut: counts.filter(({ trials }) => trials === 0).map(({ runId }) => runId),
  };
}
