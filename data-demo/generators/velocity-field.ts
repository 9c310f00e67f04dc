import { distanceToRack, type Point, trackFlume as flume, upstreamOfRack } from "./track-flume";

/** A bypass layout: how its entrance draws the flow. */
export interface VelocityLayout {
  readonly layout: string;
  /** Velocity at the bypass entrance over the approach velocity. */
  readonly entranceRatio: number;
  /** How far upstream its pull is felt, m. */
  readonly reach: number;
  readonly seed: number;
}

export const velocityLayouts: readonly VelocityLayout[] = [
  { layout: "full depth", entranceRatio: 1.2, reach: 0.35, seed: 7301 },
  { layout: "bottom opening", entranceRatio: 1.5, reach: 0.2, seed: 7302 },
];

/** What holds in both layouts. */
export interface VelocityFieldTruth {
  readonly approachVelocity: number;
  readonly depth: number;
  /** Velocity added along the rack: its share of the local velocity at the rack, and how far upstream it fades, m. */
  readonly alongRack: number;
  readonly rackReach: number;
  /** Exponent of the profile over the depth, and of that to the walls (power law). */
  readonly depthExponent: number;
  readonly wallExponent: number;
  /** Turbulence: standard deviations of the components over the local mean speed, along, across and up. */
  readonly intensityX: number;
  readonly intensityY: number;
  readonly intensityZ: number;
  /** Persistence of the fluctuations from sample to sample, sampling rate in Hz, samples at a point. */
  readonly persistence: number;
  readonly samplingRate: number;
  readonly samples: number;
}

export const velocityFieldTruth: VelocityFieldTruth = {
  approachVelocity: 0.5,
  depth: 0.6,
  alongRack: 0.15,
  rackReach: 0.4,
  depthExponent: 0.14,
  wallExponent: 0.1,
  intensityX: 0.1,
  intensityY: 0.07,
  intensityZ: 0.05,
  persistence: 0.9,
  samplingRate: 25,
  samples: 1500,
};

export interface Place extends Point {
  readonly z: number;
}

export interface Velocity {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Returns the true mean velocity in m/s upstream of the rack. */
export function meanVelocity(truth: VelocityFieldTruth, layout: VelocityLayout, place: Place): Velocity {
  const { approachVelocity, depth } = truth;
  // Power-law profiles whose means over depth and half width are 1.
  const overDepth = (1 + truth.depthExponent) * (place.z / depth) ** truth.depthExponent;
  const toWall = Math.min(place.y, flume.width - place.y) / (flume.width / 2);
  const overWidth = (1 + truth.wallExponent) * toWall ** truth.wallExponent;
  const plain = approachVelocity * overDepth * overWidth;

  const nearRack = Math.exp(-distanceToRack(flume, place) / truth.rackReach);
  const along = truth.alongRack * plain * nearRack;
  const entrance = { x: flume.rackEnd, y: (flume.rackWidth + flume.width) / 2 };
  const away = Math.hypot(entrance.x - place.x, entrance.y - place.y);
  const pull = (layout.entranceRatio - 1) * approachVelocity * Math.exp(-away / layout.reach);
  return {
    x: plain + along * Math.cos(flume.angle) + pull,
    y: along * Math.sin(flume.angle) + (away > 0 ? (pull * (entrance.y - place.y)) / away : 0),
    z: layout.layout === "bottom opening" ? -pull * (place.z / depth) : 0,
  };
}

/** The grid: three heights, rows across at fixed x upstream of the rack, and points along it at two distances. */
export function measuredPlaces(): Place[] {
  const heights = [0.12, 0.3, 0.48];
  const across = [0.15, 0.45, 0.75, 1.05, 1.35];
  const rows = [-1.5, -1, -0.5, 0, 0.3, 0.6, 0.9, 1.2, 1.5].flatMap((x) => across.map((y) => ({ x, y })));
  const along = [0.05, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95].flatMap((share) =>
    [0.1, 0.25].map((distance) => ({
      x: hundredths(share * flume.rackEnd - distance * Math.sin(flume.angle)),
      y: hundredths(share * flume.rackWidth + distance * Math.cos(flume.angle)),
    })),
  );
  const beforeBypass = [1.3, 1.45, 1.55, 1.65].map((x) => ({ x, y: 1.4 }));
  return [...rows, ...along, ...beforeBypass]
    .filter(
      (place) => upstreamOfRack(flume, place) && distanceToRack(flume, place) > 0.05 && place.y < flume.width,
    )
    .flatMap((place) => heights.map((z) => ({ ...place, z })));
}

function hundredths(value: number): number {
  return Number(value.toFixed(2));
}
