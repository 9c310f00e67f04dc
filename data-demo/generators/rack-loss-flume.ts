import { type DayNumber, dayNumber, isoDate } from "./calendar";
import { csvText } from "./csv";
import { type Draws, seededDraws } from "./random";

/** The true loss of one bar shape: ξ = scale (P/(1−P))^blockageExponent (sin α)^angleExponent (1 + overlayCoefficient Ω). */
export interface RackLossTruth {
  readonly barShape: string;
  readonly scale: number;
  readonly blockageExponent: number;
  readonly angleExponent: number;
  readonly overlayCoefficient: number;
}

export const rackLossTruths: readonly RackLossTruth[] = [
  { barShape: "rectangular", scale: 2.6, blockageExponent: 1.5, angleExponent: 1.3, overlayCoefficient: 2 },
  { barShape: "rounded", scale: 2.05, blockageExponent: 1.5, angleExponent: 1.25, overlayCoefficient: 2.2 },
  { barShape: "foil", scale: 1.4, blockageExponent: 1.55, angleExponent: 1.2, overlayCoefficient: 2.6 },
];

/** The flume, its instruments, and the part of the loss that no law of the shapes holds. */
export interface RackLossFlumeTruth {
  /** Seed of the plan; the instruments take the next. */
  readonly seed: number;
  readonly flumeWidth: number;
  readonly downstreamLevel: number;
  readonly barThickness: number;
  readonly supportShare: number;
  readonly emptyFlumeCoefficient: number;
  /** Outside the fitted law: ξ times (bar Reynolds number / reference)^reynoldsExponent. */
  readonly reynoldsExponent: number;
  readonly referenceReynolds: number;
  readonly installationSpread: number;
  readonly levelError: number;
  readonly gaugeOffset: number;
  readonly dischargeError: number;
  readonly meanTemperature: number;
  readonly temperatureSpread: number;
}

export const rackLossFlumeTruth: RackLossFlumeTruth = {
  seed: 7100,
  flumeWidth: 1,
  downstreamLevel: 400,
  barThickness: 8,
  supportShare: 0.05,
  emptyFlumeCoefficient: 0.06,
  reynoldsExponent: -0.08,
  referenceReynolds: 4000,
  installationSpread: 0.015,
  levelError: 0.15,
  gaugeOffset: 0.4,
  dischargeError: 0.005,
  meanTemperature: 15,
  temperatureSpread: 1,
};

const GRAVITY = 9.81;
const clearSpacings = [12, 18, 25, 40];
const rackAngles = [30, 38, 60, 90];
/** Nominal discharges in L/s; the middle one is that of most configurations. */
const discharges = [140, 200, 260];
const overlays = { spacings: [12, 25], angles: [38, 90], shares: [0.1, 0.2] };
const FIRST_DAY = dayNumber(2022, 10, 3);
const RUNS_A_DAY = 10;

/** One reading: units as in the file; the rack's columns are absent where the flume stood empty. */
export interface FlumeRun {
  readonly run: "rack" | "empty" | "still";
  readonly configuration: string;
  readonly barShape?: string;
  readonly clearSpacing?: number;
  readonly rackAngle?: number;
  readonly overlayShare?: number;
  /** Nominal, L/s. */
  readonly setDischarge: number;
}

export interface FlumeReading extends FlumeRun {
  readonly day: DayNumber;
  readonly temperature: number;
  readonly discharge: number;
  readonly upstreamLevel: number;
  readonly downstreamLevel: number;
}

/** Returns the readings in the order in which they were made. */
export function flumeReadings(
  truth: RackLossFlumeTruth = rackLossFlumeTruth,
  shapes: readonly RackLossTruth[] = rackLossTruths,
): FlumeReading[] {
  const order = seededDraws(truth.seed);
  const draws = seededDraws(truth.seed + 1);
  const keyed = flumePlan(shapes).map((run) => ({ run, key: order.uniform() }));
  keyed.sort((one, other) => one.key - other.key);
  let temperature = truth.meanTemperature;
  return keyed.map(({ run }, index) => {
    if (index % RUNS_A_DAY === 0) temperature = draws.normal(truth.meanTemperature, truth.temperatureSpread);
    const workingDay = Math.floor(index / RUNS_A_DAY);
    const day = FIRST_DAY + 7 * Math.floor(workingDay / 5) + (workingDay % 5);
    return { ...run, day, temperature, ...readLevels(truth, shapes, run, temperature, draws) };
  });
}

/** Returns `rack-loss-flume.csv` as text, one row a run. */
export function rackLossFlumeCsv(
  truth: RackLossFlumeTruth = rackLossFlumeTruth,
  shapes: readonly RackLossTruth[] = rackLossTruths,
): string {
  const rows = flumeReadings(truth, shapes).map((reading, index) => [
    `L${String(index + 1).padStart(3, "0")}`,
    isoDate(reading.day),
    reading.run,
    reading.configuration,
    reading.barShape ?? "",
    reading.barShape === undefined ? "" : String(truth.barThickness),
    String(reading.clearSpacing ?? ""),
    reading.barShape === undefined ? "" : String(truth.supportShare),
    String(reading.rackAngle ?? ""),
    String(reading.overlayShare ?? ""),
    String(truth.flumeWidth),
    reading.temperature.toFixed(1),
    reading.discharge.toFixed(1),
    reading.upstreamLevel.toFixed(2),
    reading.downstreamLevel.toFixed(2),
  ]);
  return csvText(
    [
      "runId",
      "date",
      "run",
      "configuration",
      "barShape",
      "barThickness [mm]",
      "clearSpacing [mm]",
      "supportShare",
      "rackAngle [deg]",
      "overlayShare",
      "flumeWidth [m]",
      "temperature [degC]",
      "discharge [L/s]",
      "upstreamLevel [mm]",
      "downstreamLevel [mm]",
    ],
    rows,
  );
}

/** Every shape, spacing and angle twice; overlays on some; a few racks at three discharges; the flume empty and still. */
function flumePlan(shapes: readonly RackLossTruth[]): FlumeRun[] {
  const [low, middle, high] = discharges;
  const configurations = shapes.flatMap(({ barShape }) => [
    ...rackOf(barShape, clearSpacings, rackAngles, [0], [middle]),
    ...rackOf(barShape, overlays.spacings, overlays.angles, overlays.shares, [middle]),
    ...rackOf(barShape, [18], overlays.angles, [0], [low, high]),
  ]);
  const racks = configurations.map((run, index) => ({
    ...run,
    configuration: `C${String(index + 1).padStart(2, "0")}`,
  }));
  const empty = discharges.map((setDischarge): FlumeRun => ({
    run: "empty",
    configuration: `E${setDischarge}`,
    setDischarge,
  }));
  const still: FlumeRun = { run: "still", configuration: "S", setDischarge: 0 };
  return [
    ...racks.flatMap((run) => [run, run]),
    ...empty.flatMap((run) => Array.from({ length: 8 }, () => run)),
    ...Array.from({ length: 6 }, () => still),
  ];
}

function rackOf(
  barShape: string,
  spacings: readonly number[],
  angles: readonly number[],
  shares: readonly number[],
  flows: readonly number[],
): Omit<FlumeRun & { run: "rack" }, "configuration">[] {
  return spacings.flatMap((clearSpacing) =>
    angles.flatMap((rackAngle) =>
      shares.flatMap((overlayShare) =>
        flows.map((setDischarge) => ({
          run: "rack" as const,
          barShape,
          clearSpacing,
          rackAngle,
          overlayShare,
          setDischarge,
        })),
      ),
    ),
  );
}

/** Returns the loss coefficient of the fitted law's form, without the trend of the Reynolds number. */
export function lawCoefficient(truth: RackLossFlumeTruth, shape: RackLossTruth, run: FlumeRun): number {
  const { clearSpacing = Number.NaN, rackAngle = Number.NaN, overlayShare = Number.NaN } = run;
  const open = (clearSpacing / (clearSpacing + truth.barThickness)) * (1 - truth.supportShare);
  return (
    shape.scale *
    ((1 - open) / open) ** shape.blockageExponent *
    Math.sin((rackAngle * Math.PI) / 180) ** shape.angleExponent *
    (1 + shape.overlayCoefficient * overlayShare)
  );
}

/** Kinematic viscosity of water in m²/s at a temperature in °C: a parabola through 1.307, 1.004 and 0.801e-6 at 10, 20 and 30 °C. */
export function viscosity(temperature: number): number {
  const step = (temperature - 10) / 10;
  return (1.307 - 0.303 * step + 0.05 * step * (step - 1)) * 1e-6;
}

function readLevels(
  truth: RackLossFlumeTruth,
  shapes: readonly RackLossTruth[],
  run: FlumeRun,
  temperature: number,
  draws: Draws,
) {
  // The same number of draws for every run: no run's errors depend on what kind the one before was.
  const installation = draws.lognormal(1, truth.installationSpread);
  const discharge = run.setDischarge * (1 + draws.normal(0, 0.01));
  const meter = 1 + draws.normal(0, truth.dischargeError);
  const upstreamError = draws.normal(truth.gaugeOffset, truth.levelError);
  const downstreamError = draws.normal(0, truth.levelError);

  const downstream = truth.downstreamLevel / 1000;
  const unitDischarge = discharge / 1000 / truth.flumeWidth;
  const shape = shapes.find(({ barShape }) => barShape === run.barShape);
  const coefficient = (velocity: number) => {
    if (shape === undefined) return truth.emptyFlumeCoefficient;
    const reynolds = (velocity * truth.barThickness) / 1000 / viscosity(temperature);
    const trend = (reynolds / truth.referenceReynolds) ** truth.reynoldsExponent;
    return truth.emptyFlumeCoefficient + lawCoefficient(truth, shape, run) * trend * installation;
  };
  return {
    discharge: discharge * meter,
    upstreamLevel: upstreamDepth(unitDischarge, downstream, coefficient) * 1000 + upstreamError,
    downstreamLevel: truth.downstreamLevel + downstreamError,
  };
}

/** Bernoulli between the gauges, solved for the upstream depth: h1 + U1²/2g (1 − ξ) = h2 + U2²/2g, in m. */
function upstreamDepth(
  unitDischarge: number,
  downstream: number,
  coefficient: (velocity: number) => number,
): number {
  if (unitDischarge === 0) return downstream;
  const head = (depth: number) => (unitDischarge / depth) ** 2 / (2 * GRAVITY);
  let depth = downstream;
  // Subcritical flow: each step shrinks the error by about the square of the Froude number.
  for (let step = 0; step < 100; step++) {
    depth = downstream + head(downstream) - head(depth) * (1 - coefficient(unitDischarge / depth));
  }
  return depth;
}
