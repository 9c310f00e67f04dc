import type { Discharge, Length } from "../../../quantity/dimension";
import { u } from "../../../quantity/u";
import { chiSquareTail, propagateErrors } from "../../../statistics";
import { velocityHead } from "../velocityHead";
import { totalLoss, upstreamVelocity } from "./fromLevels";
import type { FlumeInstruments, FlumeReading } from "./reading";

/** What the upstream gauge shows too much, from runs in still water. */
export interface GaugeOffset {
  readonly estimate: Length;
  readonly standardError: Length;
  readonly runs: number;
  /** Standard deviation of the difference of the two levels from run to run; undefined for a single run. */
  readonly spread: Length | undefined;
  /** The same as the stated error of a level makes it. */
  readonly expectedSpread: Length;
}

/** The friction of the empty flume at about one discharge. */
export interface FrictionAtDischarge {
  readonly configuration: string;
  readonly discharge: Discharge;
  readonly runs: number;
  readonly coefficient: number;
  /** Of the runs alone, without the gauges' offset. */
  readonly standardError: number;
}

/** The friction of the empty flume: one coefficient over the upstream velocity head. */
export interface FlumeFriction {
  readonly coefficient: number;
  /** With the part that comes from the offset. */
  readonly standardError: number;
  readonly runs: number;
  readonly byDischarge: readonly FrictionAtDischarge[];
  /** Scatter of the groups' coefficients about the one coefficient, over their errors squared. */
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** How often one coefficient for all discharges would show at least this scatter. */
  readonly pValue: number | undefined;
}

/** What is taken out of every run with a rack, and so shared by all of them. */
export interface FlumeReference {
  readonly offset: GaugeOffset;
  readonly friction: FlumeFriction;
  /** Of the errors of offset and friction coefficient: an offset too high makes the friction too low. */
  readonly correlation: number;
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** The depths of a run once the offset is taken out. */
export const readingAt = (reading: FlumeReading, offset: number) => ({
  discharge: u.to.m3ps(reading.discharge),
  flumeWidth: u.to.m(reading.flumeWidth),
  upstreamDepth: reading.upstreamLevel - offset,
  downstreamDepth: u.to.m(reading.downstreamLevel),
});

/** What one run brings to the least squares of loss = coefficient × velocity head. */
interface Product {
  readonly crossed: number;
  readonly squared: number;
}

function productOf(reading: ReturnType<typeof readingAt>): Product {
  const head = velocityHead(upstreamVelocity(reading));
  return { crossed: head * totalLoss(reading), squared: head ** 2 };
}

const sumUp = (products: readonly Product[]): Product => ({
  crossed: products.reduce((sum, { crossed }) => sum + crossed, 0),
  squared: products.reduce((sum, { squared }) => sum + squared, 0),
});

/** Least squares of loss = coefficient × velocity head: the levels' error is the same in metres at every discharge. */
function frictionOf(runs: readonly FlumeReading[], offset: number): number {
  const { crossed, squared } = sumUp(runs.map((run) => productOf(readingAt(run, offset))));
  return crossed / squared;
}

/** Error of the friction coefficient from the readings of its own runs. */
function ownError(
  runs: readonly FlumeReading[],
  offset: number,
  { levelError, dischargeError }: FlumeInstruments,
): number {
  const products = runs.map((run) => productOf(readingAt(run, offset)));
  const whole = sumUp(products);
  const errors = runs.map((run, at) => {
    const { discharge, flumeWidth, upstreamDepth, downstreamDepth } = readingAt(run, offset);
    return propagateErrors({
      of: (moved) => {
        const own = productOf({ flumeWidth, ...moved });
        return (
          (whole.crossed - products[at].crossed + own.crossed) /
          (whole.squared - products[at].squared + own.squared)
        );
      },
      at: { discharge, upstreamDepth, downstreamDepth },
      standardErrors: {
        discharge: dischargeError * discharge,
        upstreamDepth: levelError,
        downstreamDepth: levelError,
      },
    }).standardError;
  });
  return Math.hypot(...errors);
}

/** Takes the offset from the runs in still water and the friction from those in the empty flume. */
export function referenceOf(
  still: readonly FlumeReading[],
  empty: readonly FlumeReading[],
  instruments: FlumeInstruments,
): FlumeReference {
  const offset = offsetOf(still, instruments);
  const level = u.to.m(offset.estimate);
  const coefficient = frictionOf(empty, level);
  const own = ownError(empty, level, instruments);
  const { sensitivity } = propagateErrors({
    of: ({ estimate }) => frictionOf(empty, estimate),
    at: { estimate: level },
    standardErrors: { estimate: offset.standardError },
  }).parts[0];
  const fromOffset = sensitivity * offset.standardError;
  const standardError = Math.hypot(own, fromOffset);
  const groups = groupsOf(empty).map(([configuration, runs]) => ({
    configuration,
    discharge: u.m3ps(mean(runs.map(({ discharge }) => discharge))),
    runs: runs.length,
    coefficient: frictionOf(runs, level),
    standardError: ownError(runs, level, instruments),
  }));
  const byDischarge = groups.toSorted((one, other) => one.discharge - other.discharge);
  const chiSquare = byDischarge.reduce(
    (sum, group) => sum + ((group.coefficient - coefficient) / group.standardError) ** 2,
    0,
  );
  const degreesOfFreedom = byDischarge.length - 1;
  return {
    offset,
    friction: {
      coefficient,
      standardError,
      runs: empty.length,
      byDischarge,
      chiSquare,
      degreesOfFreedom,
      pValue: degreesOfFreedom > 0 ? chiSquareTail(chiSquare, { degreesOfFreedom }) : undefined,
    },
    correlation: standardError > 0 ? fromOffset / standardError : 0,
  };
}

function offsetOf(still: readonly FlumeReading[], { levelError }: FlumeInstruments): GaugeOffset {
  const differences = still.map(({ upstreamLevel, downstreamLevel }) => upstreamLevel - downstreamLevel);
  const estimate = mean(differences);
  const squares = differences.reduce((sum, value) => sum + (value - estimate) ** 2, 0);
  const expected = Math.SQRT2 * levelError;
  return {
    estimate: u.m(estimate),
    standardError: u.m(expected / Math.sqrt(still.length)),
    runs: still.length,
    spread: still.length > 1 ? u.m(Math.sqrt(squares / (still.length - 1))) : undefined,
    expectedSpread: u.m(expected),
  };
}

/** Runs of one configuration; a run without one stands for itself. */
function groupsOf(runs: readonly FlumeReading[]): readonly (readonly [string, readonly FlumeReading[]])[] {
  const groups = new Map<string, FlumeReading[]>();
  for (const run of runs) {
    const name = run.configuration ?? run.runId;
    groups.set(name, [...(groups.get(name) ?? []), run]);
  }
  return [...groups];
}
