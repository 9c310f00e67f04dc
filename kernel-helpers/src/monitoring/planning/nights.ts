import { checkNumber, checkWhole } from "../../statistics/checks";
import { powerPlan } from "../../statistics/planning/power";
import { widthPlan } from "../../statistics/planning/width";

/** What is known, or assumed, of a season's nights beforehand. */
export interface PlannedNights {
  /** Fish of a night that are counted at all routes; of a list, such as last season's catches, each night takes one. */
  readonly fishPerNight: number | readonly number[];
  /** How alike two fish of one night are, 0 to below 1: from an earlier season or from monitoring like this one. */
  readonly intraclassCorrelation: number;
  /** Share of the fish that the nets hold; 1 unless told otherwise. Fish that slip through are not counted. */
  readonly caughtShare?: number;
  /** 0.95 unless told otherwise. */
  readonly level?: number;
  readonly seed: number;
  /** Simulated seasons, 2000 unless told otherwise. */
  readonly simulations?: number;
}

function checkNights(where: string, { fishPerNight, caughtShare = 1 }: PlannedNights): void {
  const list = typeof fishPerNight === "number" ? [fishPerNight] : fishPerNight;
  list.forEach((fish, at) =>
    checkWhole(
      where,
      typeof fishPerNight === "number" ? "fishPerNight" : `fishPerNight[${at}]`,
      fish,
      1,
      10_000,
    ),
  );
  checkNumber(where, "caughtShare", caughtShare, { above: 0, atMost: 1 });
}

const asClusters = <P extends PlannedNights>({ fishPerNight, caughtShare = 1, ...rest }: P) => ({
  ...rest,
  clusterSize: fishPerNight,
  countedShare: caughtShare,
});

/** Nights for a wanted interval of the share of one route. */
export interface NightsForInterval {
  readonly denominator: "fish caught behind all routes";
  readonly method: string;
  readonly level: number;
  readonly nights: number;
  /** Standard error that the simulation leaves on the number of nights. */
  readonly nightsError: number;
  /** Fish to be counted, on average. */
  readonly fish: number;
  readonly halfWidth: number;
  readonly monteCarloError: number;
  /** Nine seasons in ten have an interval no wider than this. */
  readonly nineInTen: number;
  readonly coverage: number;
  readonly coverageError: number;
  /** Fish that would do if no two were alike. */
  readonly binomialFish: number;
  readonly designEffect: number;
  readonly approximateNights: number;
  readonly cautions: readonly string[];
}

/**
 * How many nights the share of one route needs for an interval of a wanted half width.
 *
 * Returns the nights, the fish counted in them, the mean half width of statistics.clusteredInterval over simulated seasons,
 * and beside them the binomial case and the design effect, which many fish a night make large. Nights differ in their
 * catch: give a list of catches to say how. Valid for nights that are independent of each other and nets of one
 * efficiency. Throws a RangeError for shares, a correlation or catches outside their ranges.
 *
 * @example
 * monitoring.nightsForInterval({ share: 0.7, halfWidth: 0.1, fishPerNight: 25, intraclassCorrelation: 0.15, seed: 1 }).nights
 * // => 14
 */
export function nightsForInterval(
  options: PlannedNights & {
    readonly share: number;
    readonly halfWidth: number;
    readonly assurance?: number;
  },
): NightsForInterval {
  const where = "monitoring.nightsForInterval";
  checkNights(where, options);
  const found = widthPlan(where, "nights", asClusters(options));
  return {
    denominator: "fish caught behind all routes",
    method: found.method,
    level: found.level,
    nights: found.clusters,
    nightsError: found.clustersError,
    fish: found.countedTrials,
    halfWidth: found.halfWidth,
    monteCarloError: found.monteCarloError,
    nineInTen: found.nineInTen,
    coverage: found.coverage,
    coverageError: found.coverageError,
    binomialFish: found.independentTrials,
    designEffect: found.expectedEffect,
    approximateNights: found.approximateClusters,
    cautions: found.cautions,
  };
}

/** Nights of each of two states of a plant for a wanted power. */
export interface NightsForPower {
  readonly denominator: "fish caught behind all routes";
  readonly method: string;
  readonly level: number;
  /** Nights of each state. */
  readonly nights: number;
  readonly nightsError: number;
  readonly fish: number;
  readonly power: number;
  readonly monteCarloError: number;
  readonly falseAlarms: number;
  readonly falseAlarmsError: number;
  readonly binomialFish: number;
  readonly designEffect: number;
  readonly approximateNights: number;
  readonly cautions: readonly string[];
}

/**
 * How many nights in each of two states of a plant, such as before and after a change, find a difference often enough.
 *
 * Returns the nights of each state, the power and the false alarms of statistics.raoScottComparison over simulated seasons,
 * and beside them the normal approximation. Valid as nightsForInterval is. Throws a RangeError for equal shares and more
 * than 2500 nights.
 *
 * @example
 * monitoring.nightsForPower({ first: 0.5, second: 0.75, power: 0.8, fishPerNight: 25, intraclassCorrelation: 0.15,
 *   seed: 1 }).nights // => 11
 */
export function nightsForPower(
  options: PlannedNights & { readonly first: number; readonly second: number; readonly power: number },
): NightsForPower {
  const where = "monitoring.nightsForPower";
  checkNights(where, options);
  const found = powerPlan(where, "nights", asClusters(options));
  return {
    denominator: "fish caught behind all routes",
    method: found.method,
    level: found.level,
    nights: found.clusters,
    nightsError: found.clustersError,
    fish: found.countedTrials,
    power: found.power,
    monteCarloError: found.monteCarloError,
    falseAlarms: found.falseAlarms,
    falseAlarmsError: found.falseAlarmsError,
    binomialFish: found.independentTrials,
    designEffect: found.expectedEffect,
    approximateNights: found.approximateClusters,
    cautions: found.cautions,
  };
}
