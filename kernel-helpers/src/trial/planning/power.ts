import { checkWhole } from "../../statistics/checks";
import {
  detectableDifference as detectable,
  type DetectableDifference,
} from "../../statistics/planning/detectable";
import {
  powerByClusters,
  type PowerForecast,
  powerForecast,
  powerPlan,
} from "../../statistics/planning/power";
import { asClusters, checkRuns, type PlannedRuns } from "./precision";

/** How often simulated trials of so many runs find the difference between two conditions. */
export interface TrialPower extends Omit<PowerForecast, "clusters" | "countedTrials" | "expectedEffect"> {
  readonly denominator: "active fish";
  /** Runs of each condition. */
  readonly runs: number;
  /** Fish to be handled in each condition. */
  readonly fish: number;
  /** Fish of each condition that count, on average. */
  readonly activeFish: number;
  readonly designEffect: number;
}

/** The fewest runs for a wanted power, with what they give. */
export interface RunsForPower extends TrialPower {
  readonly runsError: number;
  /** Active fish in each condition that would do if no two were alike, by the normal approximation. */
  readonly binomialFish: number;
  readonly approximateRuns: number;
}

interface TwoConditions extends PlannedRuns {
  /** The efficiency under the first condition. */
  readonly first: number;
  readonly second: number;
}

const inWordsOfTrial = (
  { clusters, countedTrials, expectedEffect, ...rest }: PowerForecast,
  fishPerRun: number,
): TrialPower => ({
  ...rest,
  denominator: "active fish",
  runs: clusters,
  fish: clusters * fishPerRun,
  activeFish: countedTrials,
  designEffect: expectedEffect,
});

/**
 * How often a trial finds a difference between two conditions.
 *
 * Returns the share of simulated trials whose difference statistics.raoScottComparison finds, how often it finds one where
 * there is none (`falseAlarms`), and the normal approximation with the design effect beside them. Valid for independent
 * runs, as many under each condition. Throws a RangeError for shares or a correlation outside their ranges and fewer than
 * two runs.
 *
 * @example
 * trial.power({ first: 0.5, second: 0.75, runs: 20, fishPerRun: 4, intraclassCorrelation: 0.2, seed: 1 }).power // => 0.741
 */
export function power(options: TwoConditions & { readonly runs: number }): TrialPower {
  const where = "trial.power";
  checkRuns(where, options);
  checkWhole(where, "runs", options.runs, 2, 5000);
  const { runs, ...rest } = options;
  return inWordsOfTrial(
    powerForecast(where, "runs", { ...asClusters(rest), clusters: runs }),
    options.fishPerRun,
  );
}

/** How often simulated trials of one number of runs find the difference. */
export interface PowerOfRuns {
  readonly denominator: "active fish";
  /** Runs of each condition. */
  readonly runs: number;
  /** Fish to be handled in each condition. */
  readonly fish: number;
  readonly activeFish: number;
  readonly power: number;
  readonly monteCarloError: number;
}

/**
 * How often a trial finds a difference, for several numbers of runs, as for a curve.
 *
 * Returns for each number of runs of each condition the power that `power` returns, and the fish. Valid as power is. Throws
 * a RangeError for shares or a correlation outside their ranges and fewer than two runs.
 *
 * @example
 * trial.powerByRuns({ first: 0.5, second: 0.75, runs: [10, 20], fishPerRun: 4, intraclassCorrelation: 0.2, seed: 1 })[1].power
 * // => 0.741
 */
export function powerByRuns(
  options: TwoConditions & { readonly runs: readonly number[] },
): readonly PowerOfRuns[] {
  const where = "trial.powerByRuns";
  checkRuns(where, options);
  options.runs.forEach((count, at) => checkWhole(where, `runs[${at}]`, count, 2, 5000));
  const { runs, ...rest } = options;
  return powerByClusters({ ...asClusters(rest), clusters: runs }).map(
    ({ clusters, countedTrials, ...found }) => ({
      denominator: "active fish",
      runs: clusters,
      fish: clusters * options.fishPerRun,
      activeFish: countedTrials,
      ...found,
    }),
  );
}

/**
 * How many runs under each of two conditions find a difference often enough.
 *
 * Returns what power returns for the fewest runs, the error that the simulation leaves on them, and the fish and runs of
 * the normal approximation. Valid as power is. Throws a RangeError for equal shares and more than 2500 runs.
 *
 * @example
 * trial.runsForPower({ first: 0.5, second: 0.75, power: 0.8, fishPerRun: 4, intraclassCorrelation: 0.2, seed: 1 }).runs
 * // => 24
 */
export function runsForPower(options: TwoConditions & { readonly power: number }): RunsForPower {
  const where = "trial.runsForPower";
  checkRuns(where, options);
  const { clustersError, independentTrials, approximateClusters, ...found } = powerPlan(
    where,
    "runs",
    asClusters(options),
  );
  return {
    ...inWordsOfTrial(found, options.fishPerRun),
    runsError: clustersError,
    binomialFish: independentTrials,
    approximateRuns: approximateClusters,
  };
}

/**
 * The nearest efficiencies that a trial can tell from a given one.
 *
 * Returns the share above and the share below that are found with the wanted power, with the error that the simulation
 * leaves on them; undefined where even 1 or 0 is found too seldom. `runs` are those of each condition. Valid as power is.
 *
 * @example
 * trial.detectableDifference({ share: 0.5, power: 0.8, runs: 21, fishPerRun: 4, intraclassCorrelation: 0.2, seed: 1 }).higher
 * // => 0.762
 */
export function detectableDifference(
  options: PlannedRuns & { readonly share: number; readonly power: number; readonly runs: number },
): Omit<DetectableDifference, "clusters"> & { readonly denominator: "active fish"; readonly runs: number } {
  const where = "trial.detectableDifference";
  checkRuns(where, options);
  checkWhole(where, "runs", options.runs, 2, 5000);
  const { runs, ...rest } = options;
  const { clusters, ...found } = detectable({ ...asClusters(rest), clusters: runs });
  return { ...found, denominator: "active fish", runs: clusters };
}
