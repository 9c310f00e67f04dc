import { printValue } from "../../../formula/input";
import type { FlumeInstruments, FlumeReading, RackReading } from "./reading";

const described = [
  "barShape",
  "barThickness",
  "clearSpacing",
  "supportShare",
  "rackAngle",
  "overlayShare",
] as const;

/** How far beyond the discharges of the empty runs a rack's run may lie. */
const slack = 0.1;

const isRack = (reading: FlumeReading): reading is RackReading => reading.run === "rack";

/** Runs sorted by what they were made for. */
export interface SortedReadings {
  readonly racks: readonly RackReading[];
  readonly empty: readonly FlumeReading[];
  readonly still: readonly FlumeReading[];
}

/** Throws the sentences of all runs that can't be reduced, each with its run. */
export function sortReadings(
  caller: string,
  readings: readonly FlumeReading[],
  { levelError, dischargeError }: FlumeInstruments,
): SortedReadings {
  refuseUnless(caller, levelError > 0 && Number.isFinite(levelError), () => [
    `levelError is ${printValue(levelError, "length")}; it must be above 0 m, the standard error of one level.`,
  ]);
  refuseUnless(caller, dischargeError >= 0 && dischargeError < 0.5, () => [
    `dischargeError is ${dischargeError}; it must be at least 0 and below 0.5, a share of the discharge (0.005 for half a per cent).`,
  ]);
  const still = readings.filter(({ run }) => run === "still");
  const empty = readings.filter(({ run }) => run === "empty");
  const racks = readings.filter(isRack);
  const unknown = readings.find(({ run }) => !["rack", "empty", "still"].includes(run));
  refuseUnless(caller, unknown === undefined, () => [
    `run ${unknown?.runId} is of kind ${JSON.stringify(unknown?.run)}; a run is "rack", "empty" or "still".`,
  ]);
  refuseUnless(caller, still.length > 0, () => [
    "no run is in still water, so nobody can say what the gauges show too much; add a run with the pump off " +
      '(or, for gauges known to agree, one run "still" with two equal levels).',
  ]);
  refuseUnless(caller, empty.length > 0, () => [
    "no run is in the empty flume, so its friction can't be taken out; add runs without a rack.",
  ]);
  refuseUnless(caller, racks.length > 0, () => ["no run has a rack; there is nothing to reduce."]);
  const width = empty[0].flumeWidth;
  const discharges = empty.map(({ discharge }) => discharge);
  const range = [Math.min(...discharges), Math.max(...discharges)] as const;
  const faults = [
    ...[...still, ...empty, ...racks].flatMap((reading) => faultOf(reading, width)),
    ...racks.flatMap((reading) => [...missing(reading), ...beyond(reading, range)]),
  ];
  refuseUnless(caller, faults.length === 0, () => faults);
  return { racks, empty, still };
}

function refuseUnless(caller: string, fine: boolean, sentences: () => readonly string[]): void {
  if (!fine)
    throw new RangeError(
      sentences()
        .map((sentence) => `${caller}: ${sentence}`)
        .join("\n"),
    );
}

function faultOf(reading: FlumeReading, width: number): readonly string[] {
  const { runId, run, discharge, upstreamLevel, downstreamLevel, flumeWidth } = reading;
  const levels = { upstreamLevel, downstreamLevel };
  return [
    ...Object.entries(levels).flatMap(([name, level]) =>
      level > 0 && Number.isFinite(level)
        ? []
        : [`run ${runId}: ${name} is ${printValue(level, "length")}; it must be above 0 m.`],
    ),
    ...(run === "still" || (discharge > 0 && Number.isFinite(discharge))
      ? []
      : [
          `run ${runId}: discharge is ${printValue(discharge, "discharge")}; a run "${run}" needs flowing water.`,
        ]),
    ...(run === "still" && discharge !== 0
      ? [`run ${runId}: discharge is ${printValue(discharge, "discharge")}; in still water it is 0.`]
      : []),
    ...(Math.abs(flumeWidth - width) <= 1e-9 * width
      ? []
      : [
          `run ${runId}: flumeWidth is ${printValue(flumeWidth, "length")}, but the empty flume was measured at ` +
            `${printValue(width, "length")}; the friction of one flume is no reference for another.`,
        ]),
  ];
}

const missing = (reading: RackReading): readonly string[] =>
  described
    .filter((name) => reading[name] === undefined)
    .map((name) => `run ${reading.runId}: ${name} is missing; a run with a rack needs it.`);

function beyond(
  { runId, discharge }: RackReading,
  [least, most]: readonly [number, number],
): readonly string[] {
  if (discharge >= (1 - slack) * least && discharge <= (1 + slack) * most) return [];
  return [
    `run ${runId}: discharge is ${printValue(discharge, "discharge")}, but the empty flume was measured from ` +
      `${printValue(least, "discharge")} to ${printValue(most, "discharge")} only; without a reference there the ` +
      "friction can't be taken out.",
  ];
}
