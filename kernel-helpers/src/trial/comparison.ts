import {
  betaBinomialComparison,
  clusterBootstrap,
  clusteredDifference,
  type ClusterGroup,
  type Count,
  differenceInterval,
  type GroupTest,
  raoScottComparison,
} from "../statistics";
import { checkLevel, refuse } from "../statistics/checks";
import { tellCorrelation } from "../statistics/clustering/cluster";
import { recordedActivity } from "./activity";
import { type Efficiency, efficiencyOf } from "./efficiencies";
import type { EfficiencyDefinition, EfficiencyName } from "./efficiency";
import { checkFish, definitionOf, type TrialFish } from "./fish";
import { type Group, type Grouping, groupsOf } from "./grouping";
import { clustersOf } from "./runClusters";

/**
 * A group less the base: the difference of their shares, with runs as clusters and as if all fish were independent. A
 * p-value is undefined where all fish ended the same way.
 */
export interface GroupDifference {
  readonly comparison: string;
  readonly group: string;
  readonly estimate: number;
  /** Newcombe's hybrid score on Rao–Scott effective counts. */
  readonly lower: number;
  readonly upper: number;
  /** Of the Rao–Scott test. */
  readonly pValue: number | undefined;
  /**
   * Of the beta-binomial likelihood; undefined too where every run has one fish in the denominator, or all fish of each
   * group ended the same way: how alike fish of one run are is unknown then.
   */
  readonly betaBinomialPValue: number | undefined;
  /** From drawing whole runs, where a seed was given. */
  readonly bootstrapLower: number | undefined;
  readonly bootstrapUpper: number | undefined;
  /** Newcombe's hybrid score as if all fish were independent. */
  readonly naiveLower: number;
  readonly naiveUpper: number;
  /** Of Pearson's chi-square as if all fish were independent. */
  readonly naivePValue: number | undefined;
}

/** Groups of a trial compared in one efficiency. */
export interface GroupComparison {
  readonly definition: string;
  readonly base: string;
  readonly groups: readonly Efficiency[];
  /** Each group less the base. */
  readonly differences: readonly GroupDifference[];
  /** No difference between any of the groups, runs as clusters: the Rao–Scott test. */
  readonly together: GroupTest | undefined;
  /** The same as if all fish were independent. */
  readonly naiveTogether: GroupTest | undefined;
  readonly level: number;
  readonly cautions: readonly string[];
}

/** How groups are compared. */
export interface ComparisonOptions<Fish> {
  readonly by: Grouping<Fish>;
  readonly efficiency: EfficiencyName;
  /** The group that the others are compared with; the first one unless given. */
  readonly base?: string;
  readonly level?: number;
  /** Seed of the bootstrap, which draws whole runs; no bootstrap without one. */
  readonly seed?: number;
  readonly resamples?: number;
}

/**
 * Compares groups of fish, such as those with and without a cue, in one efficiency.
 *
 * Returns each group less the base, with intervals and p-values that take runs as clusters and, named naive, those that
 * take all fish as independent; and the test of all groups together. Valid for runs that are independent of each other,
 * about ten or more in each group; several differences looked at together find one by chance more often than one alone.
 * Throws a RangeError for fewer than two groups, a base that is none, and a group with fewer than two runs.
 *
 * @example
 * trial.compareGroups([{ runId: "R1", outcome: "bypassed", cue: "none" }, { runId: "R2", outcome: "refused", cue: "none" },
 *   { runId: "R3", outcome: "bypassed", cue: "light" }, { runId: "R4", outcome: "bypassed", cue: "light" }],
 *   { by: "cue", efficiency: "guidance" }).differences[0].estimate // => 0.5
 */
export function compareGroups<Fish extends TrialFish>(
  fish: readonly Fish[],
  options: ComparisonOptions<Fish>,
): GroupComparison {
  const where = "trial.compareGroups";
  const { by, efficiency, level = 0.95 } = options;
  checkFish(where, fish);
  checkLevel(where, level);
  const definition = definitionOf(where, efficiency);
  const found = groupsOf(where, fish, by);
  const names = found.map(({ group }) => group);
  if (found.length < 2) refuse(where, `there is one group, ${names.join("")}; a comparison needs at least 2`);
  const base = options.base ?? names[0];
  const first = found.find(({ group }) => group === base);
  if (first === undefined) return refuse(where, `base is "${base}"; the groups are ${names.join(", ")}`);
  const groups = [first, ...found.filter((one) => one !== first)];
  const clusters = groups.map((group) => clusterGroup(where, group, definition));
  const shared = { method: "wilson", level, activity: recordedActivity(undefined) } as const;
  const all = testsOf(clusters);
  return {
    definition: definition.definition,
    base,
    groups: groups.map((group) => efficiencyOf(group, efficiency, shared)),
    differences: groups
      .slice(1)
      .map((group, at) =>
        differenceOf([group, first], [clusters[at + 1], clusters[0]], definition, { ...options, level }),
      ),
    together: all?.clustered,
    naiveTogether: all?.naive,
    level,
    cautions: cautionsOf(groups),
  };
}

function clusterGroup(
  where: string,
  { group, fish }: Group<TrialFish>,
  definition: EfficiencyDefinition,
): ClusterGroup {
  const { clusters } = clustersOf(fish, definition);
  if (clusters.length < 2) {
    refuse(
      where,
      `group ${group} has too few runs with a fish in the denominator, ${clusters.length}; spread between runs needs at least 2`,
    );
  }
  return { name: group, clusters };
}

/** Tests of no difference; undefined where all fish ended the same way, since then nothing can differ. */
function testsOf(
  groups: readonly ClusterGroup[],
): { readonly clustered: GroupTest; readonly naive: GroupTest } | undefined {
  const clusters = groups.flatMap((group) => group.clusters);
  const alike =
    clusters.every((one) => one.successes === 0) || clusters.every((one) => one.successes === one.trials);
  if (alike) return undefined;
  const { statistic, degreesOfFreedom, pValue, unadjusted } = raoScottComparison({ groups });
  return { clustered: { statistic, degreesOfFreedom, pValue }, naive: unadjusted };
}

function differenceOf(
  [group, base]: readonly [Group<TrialFish>, Group<TrialFish>],
  [ofGroup, ofBase]: readonly [ClusterGroup, ClusterGroup],
  definition: EfficiencyDefinition,
  { level, seed, resamples }: { readonly level: number; readonly seed?: number; readonly resamples?: number },
): GroupDifference {
  const clustered = clusteredDifference({ first: ofGroup.clusters, second: ofBase.clusters, level });
  const naive = differenceInterval({ first: countOf(ofGroup), second: countOf(ofBase), level });
  const tests = testsOf([ofBase, ofGroup]);
  const correlationKnown = [ofBase, ofGroup].some(({ clusters }) => tellCorrelation(clusters));
  const drawn =
    seed === undefined
      ? undefined
      : clusterBootstrap({
          clusters: runCountsOf(group.fish, base.fish, definition),
          statistic: differenceIn,
          seed,
          level,
          ...(resamples === undefined ? {} : { resamples }),
        });
  return {
    comparison: `${group.group} less ${base.group}`,
    group: group.group,
    estimate: clustered.estimate,
    lower: clustered.lower,
    upper: clustered.upper,
    pValue: tests?.clustered.pValue,
    betaBinomialPValue:
      tests === undefined || !correlationKnown
        ? undefined
        : betaBinomialComparison({ groups: [ofBase, ofGroup] }).pValue,
    bootstrapLower: drawn?.lower,
    bootstrapUpper: drawn?.upper,
    naiveLower: naive.lower,
    naiveUpper: naive.upper,
    naivePValue: tests?.naive.pValue,
  };
}

/** Counts of one run, which may have fish of both groups. */
interface RunCounts {
  readonly group: Count;
  readonly base: Count;
}

function runCountsOf(
  group: readonly TrialFish[],
  base: readonly TrialFish[],
  definition: EfficiencyDefinition,
): readonly RunCounts[] {
  const none = { successes: 0, trials: 0 };
  const runs = new Map<string, RunCounts>();
  for (const { runId, successes, trials } of clustersOf(group, definition).clusters)
    runs.set(runId, { group: { successes, trials }, base: none });
  for (const { runId, successes, trials } of clustersOf(base, definition).clusters)
    runs.set(runId, { group: runs.get(runId)?.group ?? none, base: { successes, trials } });
  return [...runs.values()];
}

function differenceIn(runs: readonly RunCounts[]): number {
  let [good, all, baseGood, baseAll] = [0, 0, 0, 0];
  for (const { group, base } of runs) {
    good += group.successes;
    all += group.trials;
    baseGood += base.successes;
    baseAll += base.trials;
  }
  return good / all - baseGood / baseAll;
}

function countOf({ clusters }: ClusterGroup) {
  return {
    successes: clusters.reduce((sum, one) => sum + one.successes, 0),
    trials: clusters.reduce((sum, one) => sum + one.trials, 0),
  };
}

function cautionsOf(groups: readonly Group<TrialFish>[]): readonly string[] {
  const runs = groups.map(({ fish }) => new Set(fish.map(({ runId }) => runId)));
  const all = new Set(runs.flatMap((one) => [...one]));
  const shared = [...all].filter((run) => runs.filter((one) => one.has(run)).length > 1);
  return [
    ...(shared.length === 0
      ? []
      : [
          `${shared.length} runs have fish in several groups, such as ${shared[0]}; the intervals and tests take the groups for independent of each other, the bootstrap does not.`,
        ]),
    ...(groups.length > 2
      ? [
          `${groups.length - 1} differences are looked at: one of them differs by chance more often than one alone.`,
        ]
      : []),
  ];
}
