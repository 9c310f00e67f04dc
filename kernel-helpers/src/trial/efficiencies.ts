import type { Length } from "../quantity/dimension";
import {
  type Cluster,
  clusteredInterval,
  type EffectSource,
  intraclassCorrelation,
  proportionInterval,
  type ProportionMethod,
} from "../statistics";
import { checkLevel, checkNumber, refuse } from "../statistics/checks";
import { decideActivity, type FollowedFish, recordedActivity } from "./activity";
import { type EfficiencyName, efficiencyDefinitions } from "./efficiency";
import { checkFish, type TrialFish } from "./fish";
import { type Group, type Grouping, groupsOf } from "./grouping";
import { type Outcome, outcomes } from "./outcome";
import { clustersOf } from "./runClusters";

/** One efficiency of one group of fish. Shares are undefined where there is nothing to take a share of. */
export interface Efficiency {
  readonly group: string;
  readonly efficiency: string;
  /** What was counted, denominator included. */
  readonly definition: string;
  /** Who counted as active, and by which distance. */
  readonly activity: string;
  readonly successes: number;
  readonly trials: number;
  /** Runs with a fish in the denominator. */
  readonly runs: number;
  /** Runs without one. */
  readonly runsLeftOut: number;
  readonly estimate: number | undefined;
  /** The interval that takes each run as one cluster; undefined for fewer than two runs. */
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  readonly method: string;
  /** The interval for independent fish, which those of one run are not: too narrow where fish of a run are alike. */
  readonly naiveLower: number | undefined;
  readonly naiveUpper: number | undefined;
  readonly naiveMethod: string;
  readonly level: number;
  /** How alike two fish of one run are; undefined where the runs don't tell. */
  readonly intraclassCorrelation: number | undefined;
  /** By how much runs widen the variance; the interval uses it. */
  readonly designEffect: number | undefined;
  readonly designEffectFrom: EffectSource | undefined;
  readonly cautions: readonly string[];
}

/** The fish of one group: how many did what, and the three efficiencies. */
export interface GroupEfficiencies extends Readonly<Record<Outcome, number>> {
  readonly group: string;
  readonly runs: number;
  readonly fish: number;
  readonly active: number;
  readonly runsWithoutActive: number;
  readonly guidance: Efficiency;
  readonly protection: Efficiency;
  readonly guidanceOfPassed: Efficiency;
}

/** How efficiencies are counted. */
export interface EfficiencyOptions<Fish> {
  /** Columns or a function; one group of all fish unless given. */
  readonly by?: Grouping<Fish>;
  /** The method of the naive interval; "wilson" unless given. */
  readonly method?: ProportionMethod;
  readonly level?: number;
  /** The distance that makes a fish active, where the records have a `closestDistance`. */
  readonly activeWithin?: Length;
  /** The distance that whoever recorded the outcomes used: it is stated, not worked with. */
  readonly recordedWithin?: Length;
}

/** Fewer runs estimate their spread badly. */
const fewRuns = 6;

/**
 * Counts outcomes and works out guidance, protection and the guidance of those that passed, group by group.
 *
 * Returns for each group (in order of appearance, or by number where the names begin with one) the number of fish of each outcome and three efficiencies. Each names
 * its denominator and carries two intervals: `lower` and `upper` take the runs as clusters (Wilson on Rao–Scott effective
 * counts), `naiveLower` and `naiveUpper` take all fish as independent, as the named method does. Inactive fish are counted
 * and in no denominator; impinged fish are active and neither guided nor protected. Runs without a fish in the denominator
 * are counted in `runsLeftOut`. Who is active follows the records, or `activeWithin` where they have a `closestDistance`.
 * Valid for runs that are independent of each other. Throws a RangeError for no fish, an unknown outcome, a column that
 * a fish has no entry in, and an unknown method.
 *
 * @example
 * trial.efficiencies([{ runId: "R1", outcome: "bypassed" }, { runId: "R1", outcome: "rackPassed" },
 *   { runId: "R2", outcome: "bypassed" }, { runId: "R2", outcome: "refused" }])[0].protection.estimate // => 0.75
 */
export function efficiencies<Fish extends FollowedFish>(
  fish: readonly Fish[],
  options: EfficiencyOptions<Fish> = {},
): readonly GroupEfficiencies[] {
  const where = "trial.efficiencies";
  const { by, method = "wilson", level = 0.95, activeWithin, recordedWithin } = options;
  checkFish(where, fish);
  checkLevel(where, level);
  if (recordedWithin !== undefined) checkNumber(where, "recordedWithin", recordedWithin, { above: 0 });
  if (activeWithin === undefined) {
    const activity = recordedActivity(recordedWithin);
    return groupsOf(where, fish, by).map((group) => efficienciesOf(group, { method, level, activity }));
  }
  if (recordedWithin !== undefined)
    refuse(
      where,
      "both activeWithin and recordedWithin are given; the first decides anew what the second says was recorded",
    );
  const decided = decideActivity(fish, { distance: activeWithin });
  return groupsOf(where, decided.fish, by).map((group) =>
    efficienciesOf(group, { method, level, activity: decided.activity }),
  );
}

interface Shared {
  readonly method: ProportionMethod;
  readonly level: number;
  readonly activity: string;
}

function efficienciesOf({ group, fish }: Group<TrialFish>, shared: Shared): GroupEfficiencies {
  const count = (outcome: Outcome): number => fish.filter((one) => one.outcome === outcome).length;
  const [bypassed, rackPassed, refused, impinged, inactive] = outcomes.map(count);
  const of = (name: EfficiencyName): Efficiency => efficiencyOf({ group, fish }, name, shared);
  const guidance = of("guidance");
  return {
    group,
    runs: guidance.runs + guidance.runsLeftOut,
    fish: fish.length,
    bypassed,
    rackPassed,
    refused,
    impinged,
    active: fish.length - inactive,
    inactive,
    runsWithoutActive: guidance.runsLeftOut,
    guidance,
    protection: of("protection"),
    guidanceOfPassed: of("guidanceOfPassed"),
  };
}

/** One efficiency of fish that are already checked. */
export function efficiencyOf(
  { group, fish }: Group<TrialFish>,
  name: EfficiencyName,
  { method, level, activity }: Shared,
): Efficiency {
  const definition = efficiencyDefinitions[name];
  const { clusters, runsLeftOut } = clustersOf(fish, definition);
  const successes = clusters.reduce((sum, one) => sum + one.successes, 0);
  const trials = clusters.reduce((sum, one) => sum + one.trials, 0);
  const naive = trials === 0 ? undefined : proportionInterval({ successes, trials, level, method });
  const clustered = clusters.length < 2 ? undefined : clusteredInterval({ clusters, level });
  return {
    group,
    efficiency: definition.title,
    definition: definition.definition,
    activity,
    successes,
    trials,
    runs: clusters.length,
    runsLeftOut: runsLeftOut.length,
    estimate: naive?.estimate,
    lower: clustered?.lower,
    upper: clustered?.upper,
    method: "runs as clusters: Wilson's interval on Rao–Scott effective counts",
    naiveLower: naive?.lower,
    naiveUpper: naive?.upper,
    naiveMethod: `fish as if independent: ${method}`,
    level,
    intraclassCorrelation: correlationOf(clusters),
    designEffect: clustered?.designEffect,
    designEffectFrom: clustered?.effectFrom,
    cautions: cautionsOf(clusters),
  };
}

/** The correlation, where the clusters tell it: some have several fish, and not all fish did the same. */
function correlationOf(clusters: readonly Cluster[]): number | undefined {
  const successes = clusters.reduce((sum, one) => sum + one.successes, 0);
  const trials = clusters.reduce((sum, one) => sum + one.trials, 0);
  const known = clusters.length > 1 && trials > clusters.length && successes > 0 && successes < trials;
  return known ? intraclassCorrelation({ clusters }) : undefined;
}

function cautionsOf(clusters: readonly Cluster[]): readonly string[] {
  if (clusters.length === 0) return ["No fish is in the denominator: there is no share."];
  if (clusters.length === 1)
    return [
      "One run tells nothing about the spread between runs: the share has no interval but the naive one.",
    ];
  return clusters.length < fewRuns
    ? [`${clusters.length} runs tell little about the spread between runs: the interval may be too narrow.`]
    : [];
}
