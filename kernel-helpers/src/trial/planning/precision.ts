import { checkNumber, checkWhole } from "../../statistics/checks";
import { widthByClusters, type WidthForecast, widthPlan } from "../../statistics/planning/width";

/** What is known, or assumed, of a trial before its first run. */
export interface PlannedRuns {
  /** Fish put into a run. */
  readonly fishPerRun: number;
  /** How alike two fish of one run are, 0 to below 1: from a pilot or from trials like this one. */
  readonly intraclassCorrelation: number;
  /** Share of the fish expected to stay inactive, which no efficiency counts; 0 unless told otherwise. */
  readonly inactiveShare?: number;
  /** 0.95 unless told otherwise. */
  readonly level?: number;
  readonly seed: number;
  /** Simulated trials, 2000 unless told otherwise. */
  readonly simulations?: number;
}

/** What many simulated trials of so many runs gave. */
export interface RunForecast {
  readonly denominator: "active fish";
  readonly runs: number;
  /** Fish to be handled. */
  readonly fish: number;
  /** Fish that count, on average. */
  readonly activeFish: number;
  /** Mean of half the widths of the intervals. */
  readonly halfWidth: number;
  readonly monteCarloError: number;
  /** Nine trials in ten have an interval no wider than this. */
  readonly nineInTen: number;
  /** Share of the intervals that hold the true share. */
  readonly coverage: number;
  readonly coverageError: number;
}

/** The fewest runs for a wanted interval, with what they give. */
export interface RunsForInterval extends RunForecast {
  readonly method: string;
  readonly level: number;
  /** Standard error that the simulation leaves on the number of runs. */
  readonly runsError: number;
  /** Active fish that would do if no two were alike, from the binomial distribution. */
  readonly binomialFish: number;
  /** 1 + (m − 1)ρ over the active fish, and the runs that it gives. */
  readonly designEffect: number;
  readonly approximateRuns: number;
  readonly seed: number;
  readonly simulations: number;
  readonly cautions: readonly string[];
}

/** Refuses fish and shares that no run can have, in the words of a trial. */
export function checkRuns(where: string, { fishPerRun, inactiveShare = 0 }: PlannedRuns): void {
  checkWhole(where, "fishPerRun", fishPerRun, 1, 1000);
  checkNumber(where, "inactiveShare", inactiveShare, { atLeast: 0, below: 1 });
}

/** Runs as clusters of fish that count or not. */
export const asClusters = <P extends PlannedRuns>({ fishPerRun, inactiveShare = 0, ...rest }: P) => ({
  ...rest,
  clusterSize: fishPerRun,
  countedShare: 1 - inactiveShare,
});

const inWordsOfTrial = (
  { clusters, countedTrials, ...rest }: WidthForecast,
  fishPerRun: number,
): RunForecast => ({
  denominator: "active fish",
  runs: clusters,
  fish: clusters * fishPerRun,
  activeFish: countedTrials,
  halfWidth: rest.halfWidth,
  monteCarloError: rest.monteCarloError,
  nineInTen: rest.nineInTen,
  coverage: rest.coverage,
  coverageError: rest.coverageError,
});

/**
 * How many runs an efficiency needs for an interval of a wanted half width.
 *
 * Returns the runs, the fish to be handled and those expected to count, the mean half width of the interval that
 * statistics.clusteredInterval will give, and how often it holds the truth, by simulating trials with alike fish in a run.
 * Beside them: the active fish that would do if no two were alike, and the rule of thumb with the design effect. Each
 * number comes with the error that the simulation leaves on it. `assurance: 0.9` asks that nine trials in ten keep to the
 * half width; without it the mean does. Valid for independent runs and fish that are inactive each by itself. Throws a
 * RangeError for shares, a correlation or numbers of fish outside their ranges.
 *
 * @example
 * trial.runsForInterval({ share: 0.8, halfWidth: 0.08, fishPerRun: 4, intraclassCorrelation: 0.2, seed: 1 }).runs // => 38
 */
export function runsForInterval(
  options: PlannedRuns & {
    /** The efficiency to be measured, as far as it is known beforehand; 0.5 is the widest case. */
    readonly share: number;
    readonly halfWidth: number;
    readonly assurance?: number;
  },
): RunsForInterval {
  const where = "trial.runsForInterval";
  checkRuns(where, options);
  const found = widthPlan(where, "runs", asClusters(options));
  return {
    ...inWordsOfTrial(found, options.fishPerRun),
    method: found.method,
    level: found.level,
    runsError: found.clustersError,
    binomialFish: found.independentTrials,
    designEffect: found.expectedEffect,
    approximateRuns: found.approximateClusters,
    seed: found.seed,
    simulations: found.simulations,
    cautions: found.cautions,
  };
}

/**
 * The interval to expect of an efficiency for one or more numbers of runs.
 *
 * Returns for each number of runs what runsForInterval returns: fish, mean half width, the one that nine trials in ten
 * keep, and how often the interval holds the truth. Valid as runsForInterval is. Throws a RangeError for fewer than two
 * runs.
 *
 * @example
 * trial.widthByRuns({ share: 0.8, runs: [40], fishPerRun: 4, intraclassCorrelation: 0.2, seed: 1 })[0].halfWidth // => 0.0775
 */
export function widthByRuns(
  options: PlannedRuns & { readonly share: number; readonly runs: readonly number[] },
): readonly RunForecast[] {
  const where = "trial.widthByRuns";
  checkRuns(where, options);
  options.runs.forEach((count, at) => checkWhole(where, `runs[${at}]`, count, 2, 5000));
  const { runs, ...rest } = options;
  return widthByClusters({ ...asClusters(rest), clusters: runs }).map((one) =>
    inWordsOfTrial(one, options.fishPerRun),
  );
}
