import { chiSquareTail } from "../../../statistics";
import { rootBetween } from "../../../statistics/root";

/** What repeatability needs of a run. */
export interface RepeatedRun {
  readonly configuration?: string | undefined;
  readonly lossCoefficient: number;
  /** From the run's own readings. */
  readonly standardError?: number | undefined;
}

/** How well runs of one configuration agree, beside what the instruments explain. */
export interface Repeatability {
  readonly method: string;
  /** Configurations that were run at least twice. */
  readonly configurations: number;
  readonly runs: number;
  readonly degreesOfFreedom: number;
  /** Pooled standard deviation of the loss coefficient within configurations. */
  readonly standardDeviation: number;
  /** The same as a share of each configuration's mean. */
  readonly relative: number;
  /** The pooled standard deviation that the runs' own errors explain; undefined where a run has none. */
  readonly expected: number | undefined;
  readonly expectedRelative: number | undefined;
  /** Scatter within configurations over the runs' own errors squared. */
  readonly chiSquare: number | undefined;
  /** How often instruments alone would show at least this scatter. */
  readonly pValue: number | undefined;
  /**
   * Standard deviation from one setting-up to the next as a share of the coefficient: what is left of the scatter
   * beyond the instruments, 0 where nothing is left. Undefined where a run has no error.
   */
  readonly settingUp: number | undefined;
}

interface Group {
  readonly runs: readonly RepeatedRun[];
  readonly mean: number;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/**
 * Repeatability of measured loss coefficients: the pooled standard deviation of runs that repeat each other.
 *
 * Returns it beside the value that the runs' own errors lead to expect, and the spread from one setting-up of a rack to
 * the next that accounts for the difference. Valid for runs that are independent of each other but for errors that all share.
 * Throws a RangeError where no configuration was run twice.
 *
 * @example
 * rackLoss.repeatability([
 *   { configuration: "A", lossCoefficient: 0.52, standardError: 0.01 },
 *   { configuration: "A", lossCoefficient: 0.54, standardError: 0.01 },
 *   { configuration: "B", lossCoefficient: 1.02, standardError: 0.01 },
 *   { configuration: "B", lossCoefficient: 0.98, standardError: 0.01 },
 * ]).standardDeviation // => 0.02236
 */
export function repeatability(runs: readonly RepeatedRun[]): Repeatability {
  const groups = repeated(runs);
  if (groups.length === 0) {
    throw new RangeError(
      "rackLoss.repeatability: no configuration was run twice; without repeats there is no repeatability.",
    );
  }
  const members = groups.flatMap((group) => group.runs);
  const degreesOfFreedom = members.length - groups.length;
  const deviations = groups.flatMap(({ runs: own, mean }) =>
    own.map((run) => ({ run, mean, off: run.lossCoefficient - mean })),
  );
  const pooled = (values: readonly number[]): number => Math.sqrt(sum(values) / degreesOfFreedom);
  const own = members.every(({ standardError = 0 }) => standardError > 0) ? errorsOf(groups) : undefined;
  return {
    method: "pooled standard deviation within configurations",
    configurations: groups.length,
    runs: members.length,
    degreesOfFreedom,
    standardDeviation: pooled(deviations.map(({ off }) => off ** 2)),
    relative: pooled(deviations.map(({ off, mean }) => (off / mean) ** 2)),
    expected: own && pooled(own.map(({ freedom, variance }) => freedom * variance)),
    expectedRelative:
      own && pooled(own.map(({ freedom, variance, mean }) => (freedom * variance) / mean ** 2)),
    chiSquare: own && scatter(groups, 0),
    pValue: own && chiSquareTail(scatter(groups, 0), { degreesOfFreedom }),
    settingUp: own && settingUpOf(groups, degreesOfFreedom),
  };
}

function repeated(runs: readonly RepeatedRun[]): readonly Group[] {
  const groups = new Map<string, RepeatedRun[]>();
  for (const run of runs) {
    if (run.configuration === undefined) continue;
    groups.set(run.configuration, [...(groups.get(run.configuration) ?? []), run]);
  }
  return [...groups.values()]
    .filter((members) => members.length > 1)
    .map((members) => ({
      runs: members,
      mean: sum(members.map(({ lossCoefficient }) => lossCoefficient)) / members.length,
    }));
}

const errorsOf = (groups: readonly Group[]) =>
  groups.map(({ runs, mean }) => ({
    mean,
    freedom: runs.length - 1,
    variance: sum(runs.map(({ standardError = 0 }) => standardError ** 2)) / runs.length,
  }));

/** Weighted squares about the groups' weighted means, for own errors and a spread that goes with the coefficient. */
function scatter(groups: readonly Group[], spread: number): number {
  return sum(
    groups.map(({ runs, mean }) => {
      const weights = runs.map(({ standardError = 0 }) => 1 / (standardError ** 2 + (spread * mean) ** 2));
      const centre = sum(runs.map((run, at) => weights[at] * run.lossCoefficient)) / sum(weights);
      return sum(runs.map((run, at) => weights[at] * (run.lossCoefficient - centre) ** 2));
    }),
  );
}

/** The spread with which the scatter is what its degrees of freedom say. */
function settingUpOf(groups: readonly Group[], degreesOfFreedom: number): number {
  if (scatter(groups, 0) <= degreesOfFreedom) return 0;
  return rootBetween((spread) => scatter(groups, spread) - degreesOfFreedom, 0, 100);
}
