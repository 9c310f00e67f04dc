import { format } from "../../../quantity/format";
import type { Angle, Discharge, Length, PlainNumber, Velocity } from "../../../quantity/dimension";
import { u } from "../../../quantity/u";
import { propagateErrors } from "../../../statistics";
import { blockage } from "../../geometry";
import { velocityHead } from "../velocityHead";
import { sortReadings } from "./checkReadings";
import { downstreamVelocity, fromLevels, totalLoss, upstreamVelocity } from "./fromLevels";
import type { FlumeInstruments, FlumeReading, RackReading } from "./reading";
import { type FlumeReference, readingAt, referenceOf } from "./reference";

const caller = "rackLoss.reduceFlumeRuns";

/** Every height on the way from two levels to a loss coefficient. */
export interface ReductionSteps {
  /** The upstream level without the gauge's offset. */
  readonly upstreamDepth: Length;
  readonly downstreamDepth: Length;
  readonly upstreamHead: Length;
  readonly downstreamHead: Length;
  /** Drop of the energy line between the gauges. */
  readonly totalLoss: Length;
  readonly frictionLoss: Length;
  readonly rackLoss: Length;
}

/** A run with a rack, reduced to its loss coefficient. */
export interface ReducedRun {
  readonly runId: string;
  readonly configuration: string;
  readonly barShape: string;
  readonly barThickness: Length;
  readonly clearSpacing: Length;
  readonly supportShare: PlainNumber;
  readonly rackAngle: Angle;
  readonly overlayShare: PlainNumber;
  readonly blockage: number;
  readonly discharge: Discharge;
  /** At the upstream gauge; the loss coefficient refers to it. */
  readonly approachVelocity: Velocity;
  readonly steps: ReductionSteps;
  readonly lossCoefficient: number;
  /** From this run's own levels and discharge. */
  readonly standardError: number;
  /** From offset and friction, which all runs share: it does not shrink in a mean of runs. */
  readonly commonError: number;
  /** Both together. */
  readonly totalError: number;
  /** What the coefficient moves when each independent shared cause is off by one standard error. */
  readonly commonMoves: readonly [offset: number, friction: number];
}

/** What came out of a flume's record. */
export interface FlumeReduction {
  readonly method: string;
  readonly reference: FlumeReference;
  readonly runs: readonly ReducedRun[];
  readonly cautions: readonly string[];
}

/**
 * Loss coefficients of racks from the raw readings of a flume.
 *
 * Runs in still water give the offset of the gauges, runs in the empty flume its friction: one coefficient over the
 * upstream velocity head, taken for every discharge between those of the empty runs (10 % beyond at most). Returns offset and
 * friction with their errors, and for each run with a rack the loss coefficient over the upstream velocity head, every step,
 * its own error and the error that all runs share. Valid for a horizontal rectangular flume, subcritical. Throws a RangeError
 * that lists every run which can't be reduced: without reference, without a part of its description, without flow.
 *
 * @example
 * rackLoss.reduceFlumeRuns([
 *   { runId: "1", run: "still", flumeWidth: u.m(1), discharge: u.Lps(0), upstreamLevel: u.mm(400.4), downstreamLevel: u.mm(400) },
 *   { runId: "2", run: "empty", flumeWidth: u.m(1), discharge: u.Lps(200), upstreamLevel: u.mm(401.2), downstreamLevel: u.mm(400) },
 *   { runId: "3", run: "rack", flumeWidth: u.m(1), discharge: u.Lps(200), upstreamLevel: u.mm(410.4), downstreamLevel: u.mm(400),
 *     barShape: "rectangular", barThickness: u.mm(8), clearSpacing: u.mm(18), supportShare: 0.05, rackAngle: u.deg(90),
 *     overlayShare: 0 },
 * ], { levelError: u.mm(0.15), dischargeError: 0.005 }).runs[0].lossCoefficient // => 0.71487
 */
export function reduceFlumeRuns(
  readings: readonly FlumeReading[],
  instruments: FlumeInstruments,
): FlumeReduction {
  const { racks, empty, still } = sortReadings(caller, readings, instruments);
  const reference = referenceOf(still, empty, instruments);
  const runs = racks.map((reading) => reduceRun(reading, reference, instruments));
  return {
    method:
      "offset of the gauges from still water; friction of the empty flume as one coefficient over the upstream " +
      "velocity head; loss coefficient over the upstream velocity head",
    reference,
    runs,
    cautions: cautionsOf(reference, runs),
  };
}

function reduceRun(
  reading: RackReading,
  { offset, friction, correlation }: FlumeReference,
  { levelError, dischargeError }: FlumeInstruments,
): ReducedRun {
  const depths = readingAt(reading, u.to.m(offset.estimate));
  const { barThickness, clearSpacing, supportShare, rackAngle, flumeWidth, discharge, overlayShare } =
    reading;
  const geometry = { barThickness, clearSpacing, supportShare };
  try {
    // The checked formulas refuse what can't be a rack or a flow; the sentence needs the run's name.
    blockage(geometry);
    fromLevels({
      discharge,
      flumeWidth,
      upstreamDepth: u.m(depths.upstreamDepth),
      downstreamDepth: u.m(depths.downstreamDepth),
      frictionCoefficient: friction.coefficient,
    });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new RangeError(`${caller}: run ${reading.runId}: ${error.message}`, { cause: error });
  }
  const { value, parts } = propagateErrors({
    of: (moved) =>
      fromLevels.evaluate({
        discharge: moved.discharge,
        flumeWidth,
        upstreamDepth: moved.upstreamLevel - moved.offset,
        downstreamDepth: moved.downstreamLevel,
        frictionCoefficient: moved.friction,
      }),
    at: {
      upstreamLevel: reading.upstreamLevel,
      downstreamLevel: reading.downstreamLevel,
      discharge,
      offset: offset.estimate,
      friction: friction.coefficient,
    },
    standardErrors: {
      upstreamLevel: levelError,
      downstreamLevel: levelError,
      discharge: dischargeError * discharge,
      offset: offset.standardError,
      friction: friction.standardError,
    },
  });
  const [up, down, flow, byOffset, byFriction] = parts.map(({ moves }) => moves);
  const standardError = Math.hypot(up, down, flow);
  // The friction's error has a part that goes with the offset's and a part of its own.
  const commonMoves = [
    byOffset + correlation * byFriction,
    Math.sqrt(1 - correlation ** 2) * byFriction,
  ] as const;
  const commonError = Math.hypot(...commonMoves);
  const approachVelocity = upstreamVelocity(depths);
  const head = velocityHead(approachVelocity);
  const total = totalLoss(depths);
  return {
    runId: reading.runId,
    configuration: reading.configuration ?? reading.runId,
    barShape: reading.barShape,
    ...geometry,
    rackAngle,
    overlayShare,
    blockage: blockage.evaluate(geometry),
    discharge,
    approachVelocity: u.mps(approachVelocity),
    steps: {
      upstreamDepth: u.m(depths.upstreamDepth),
      downstreamDepth: u.m(depths.downstreamDepth),
      upstreamHead: u.m(head),
      downstreamHead: u.m(velocityHead(downstreamVelocity(depths))),
      totalLoss: u.m(total),
      frictionLoss: u.m(friction.coefficient * head),
      rackLoss: u.m(total - friction.coefficient * head),
    },
    lossCoefficient: value,
    standardError,
    commonError,
    totalError: Math.hypot(standardError, commonError),
    commonMoves,
  };
}

function cautionsOf({ offset, friction }: FlumeReference, runs: readonly ReducedRun[]): readonly string[] {
  const negative = runs.filter(({ lossCoefficient }) => lossCoefficient < 0).map(({ runId }) => runId);
  const { spread, expectedSpread } = offset;
  return [
    ...(spread !== undefined && spread > 2 * expectedSpread
      ? [
          `${caller}: in still water the difference of the levels scatters by ${format(spread, "mm")}, more than the ` +
            `${format(expectedSpread, "mm")} of the stated levelError; the errors of the coefficients are too small.`,
        ]
      : []),
    ...(friction.pValue !== undefined && friction.pValue < 0.01
      ? [
          `${caller}: the friction of the empty flume differs between discharges by more than the instruments ` +
            "explain; one coefficient for all of them is too simple.",
        ]
      : []),
    ...(negative.length > 0
      ? [
          `${caller}: the loss coefficient is below 0 in ${negative.join(", ")}; a rack can't gain energy, so these ` +
            "readings are wrong or their loss is below their error.",
        ]
      : []),
  ];
}
