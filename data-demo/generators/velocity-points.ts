import { csvText } from "./csv";
import { type Draws, seededDraws } from "./random";
import {
  meanVelocity,
  measuredPlaces,
  type Place,
  type Velocity,
  type VelocityFieldTruth,
  velocityFieldTruth,
  type VelocityLayout,
  velocityLayouts,
} from "./velocity-field";

/** What the probe does to a record: spikes, samples of poor correlation, noise. */
export interface ProbeTruth {
  /** Seed of the raw records; each point takes the next. */
  readonly seed: number;
  readonly spikeShare: number;
  readonly spikeSize: number;
  readonly poorShare: number;
  readonly poorNoise: number;
  readonly noise: number;
}

export const probeTruth: ProbeTruth = {
  seed: 7310,
  spikeShare: 0.02,
  spikeSize: 0.6,
  poorShare: 0.06,
  poorNoise: 0.25,
  noise: 0.005,
};

/** The points whose raw records are kept, by their id. */
export const rawPoints = ["V001", "V062", "V110", "V215"] as const;

/** One point of the field: where, and the mean that its record gives. */
export interface VelocityPoint extends Place {
  readonly pointId: string;
  readonly layout: VelocityLayout;
  readonly measured: Velocity;
}

/** Returns the points of both layouts with their measured means. */
export function velocityPoints(truth: VelocityFieldTruth = velocityFieldTruth): VelocityPoint[] {
  const places = measuredPlaces();
  return velocityLayouts.flatMap((layout, nth) => {
    const draws = seededDraws(layout.seed);
    return places.map((place, index) => {
      const pointId = `V${String(nth * places.length + index + 1).padStart(3, "0")}`;
      const mean = meanVelocity(truth, layout, place);
      return { ...place, pointId, layout, measured: withSamplingError(truth, mean, draws) };
    });
  });
}

/** Returns `velocity-points.csv` as text, one row a point. */
export function velocityPointsCsv(truth: VelocityFieldTruth = velocityFieldTruth): string {
  const rows = velocityPoints(truth).map((point) => [
    point.pointId,
    point.layout.layout,
    ...[point.x, point.y, point.z].map((value) => value.toFixed(2)),
    ...[point.measured.x, point.measured.y, point.measured.z].map(signed),
  ]);
  return csvText(
    ["pointId", "layout", "x [m]", "y [m]", "z [m]", "velocityX [m/s]", "velocityY [m/s]", "velocityZ [m/s]"],
    rows,
  );
}

/** One sample of the probe. */
export interface ProbeSample extends Velocity {
  readonly time: number;
  readonly correlation: number;
  readonly fault: "none" | "spike" | "poor";
}

/** Returns the raw record of a point, with what was done to each sample. */
export function probeRecord(
  point: VelocityPoint,
  seed: number,
  probe: ProbeTruth = probeTruth,
  truth: VelocityFieldTruth = velocityFieldTruth,
): ProbeSample[] {
  const draws = seededDraws(seed);
  const mean = meanVelocity(truth, point.layout, point);
  const deviations = deviationsOf(truth, mean);
  const keep = Math.sqrt(1 - truth.persistence ** 2);
  const next = (before: number, deviation: number) =>
    truth.persistence * before + draws.normal(0, deviation * keep);
  let moving: Velocity = { x: 0, y: 0, z: 0 };
  return Array.from({ length: truth.samples }, (_, index) => {
    moving = {
      x: next(moving.x, deviations.x),
      y: next(moving.y, deviations.y),
      z: next(moving.z, deviations.z),
    };
    const kind = draws.uniform();
    const fault =
      kind < probe.spikeShare ? "spike" : kind < probe.spikeShare + probe.poorShare ? "poor" : "none";
    const spike = (draws.uniform() < 0.5 ? -1 : 1) * probe.spikeSize * (0.75 + 0.5 * draws.uniform());
    const noise = fault === "poor" ? probe.poorNoise : probe.noise;
    const read = (component: number, share: number) =>
      component + draws.normal(0, noise) + (fault === "spike" ? spike * share : 0);
    return {
      time: index / truth.samplingRate,
      x: read(mean.x + moving.x, 1),
      y: read(mean.y + moving.y, 0.5),
      z: read(mean.z + moving.z, 0.3),
      correlation: Math.round(fault === "poor" ? 30 + 35 * draws.uniform() : 80 + 18 * draws.uniform()),
      fault,
    };
  });
}

/** Returns `probe-records.csv` as text: the raw records of some points, one row a sample. */
export function probeRecordsCsv(probe: ProbeTruth = probeTruth): string {
  const points = velocityPoints();
  const rows = rawPoints.flatMap((pointId, index) => {
    const point = points.find((one) => one.pointId === pointId);
    if (point === undefined) throw new Error(`velocity-points.csv has no point "${pointId}".`);
    return probeRecord(point, probe.seed + index, probe).map((sample) => [
      pointId,
      sample.time.toFixed(2),
      signed(sample.x),
      signed(sample.y),
      signed(sample.z),
      String(sample.correlation),
    ]);
  });
  return csvText(
    ["pointId", "time [s]", "velocityX [m/s]", "velocityY [m/s]", "velocityZ [m/s]", "correlation"],
    rows,
  );
}

/** Standard deviations of the fluctuations at a point whose mean is known. */
function deviationsOf(truth: VelocityFieldTruth, mean: Velocity): Velocity {
  const speed = Math.hypot(mean.x, mean.y, mean.z);
  return { x: truth.intensityX * speed, y: truth.intensityY * speed, z: truth.intensityZ * speed };
}

/** The mean of a record whose samples are correlated: as good as samples·(1 − p)/(1 + p) independent ones. */
function withSamplingError(truth: VelocityFieldTruth, mean: Velocity, draws: Draws): Velocity {
  const independent = (truth.samples * (1 - truth.persistence)) / (1 + truth.persistence);
  const deviations = deviationsOf(truth, mean);
  const error = (deviation: number) => draws.normal(0, deviation / Math.sqrt(independent));
  return {
    x: mean.x + error(deviations.x),
    y: mean.y + error(deviations.y),
    z: mean.z + error(deviations.z),
  };
}

/** Four decimals, and no minus before a zero. */
function signed(value: number): string {
  const text = value.toFixed(4);
  return Number(text) === 0 ? "0.0000" : text;
}
