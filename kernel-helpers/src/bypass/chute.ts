import { discharge, type InputSpecs, length, number } from "../formula/input";
import type { Discharge, Length, PlainNumber, Velocity } from "../quantity/dimension";
import { freeFall } from "../quantity/constants";
import { u } from "../quantity/u";
import { criticalDepth, normalDepth } from "./channel";
import { checkedNumbers } from "./numbers";

/** A rectangular channel that carries the bypass's water down. */
export interface Chute {
  readonly width: Length;
  readonly length: Length;
  /** Fall over length. */
  readonly bedSlope: PlainNumber;
  /** Manning's n. */
  readonly roughness: PlainNumber;
  /** Of the bed at its upper end, above the datum. */
  readonly headLevel: Length;
}

/** The water at one place of a channel. */
export interface WaterPoint {
  /** Along the channel, from its upper end. */
  readonly distance: Length;
  readonly bedLevel: Length;
  readonly depth: Length;
  readonly velocity: Velocity;
}

/** The flow along a chute. */
export interface ChuteFlow {
  readonly normalDepth: Length;
  readonly criticalDepth: Length;
  /** Steep where uniform flow is faster than critical, mild where it is slower. */
  readonly steep: boolean;
  /** From the upper end to the lower one. */
  readonly profile: readonly WaterPoint[];
}

/** What `chuteFlow` takes beside the chute. */
export interface ChuteWater {
  readonly discharge: Discharge;
  /** At the upper end of a steep chute; critical unless given. */
  readonly startDepth?: Length;
  /** Level of the water that the chute flows into. */
  readonly endLevel: Length;
}

const caller = "bypass.chuteFlow";

const chuteSpecs = {
  width: length("b", { above: 0, unit: "m" }),
  length: length("L", { above: 0, unit: "m" }),
  bedSlope: number("S", { above: 0, atMost: 1, note: "fall over length" }),
  roughness: number("n", { above: 0, note: "Manning's n: 0.012 to 0.017 for concrete" }),
  headLevel: length("z", { unit: "m" }),
} satisfies InputSpecs;

/** Refuses a chute that can't be built. */
export const checkChute = (from: string, chute: Chute): void => {
  checkedNumbers(from, chuteSpecs, chute);
};

/** Critical and uniform depth of a discharge in a chute. */
function depthsIn({ width, bedSlope, roughness }: Chute, flow: number) {
  const critical = criticalDepth.evaluate({ discharge: flow, width });
  const normal = normalDepth.evaluate({
    discharge: flow,
    roughness,
    bedSlope,
    bottomWidth: width,
    sideSlope: 0,
  });
  return { critical, normal, steep: normal < critical };
}

const steps = 200;

/**
 * The water's depth and velocity along a chute.
 *
 * Returns uniform and critical depth in metres, whether the chute is steep, and its water from the upper end to the
 * lower one: bed level and depth in metres, velocity in m/s. A steep chute is followed down from its upper end, a mild
 * one up from its lower end, where the water passes through its critical depth or stands as high as the water it flows
 * into. Valid for a rectangular prismatic chute without a jump. Throws a RangeError for a chute that can't be built.
 *
 * @example
 * bypass.chuteFlow({ width: u.m(0.8), length: u.m(60), bedSlope: 0.06, roughness: 0.013, headLevel: u.m(2.6) },
 *                  { discharge: u.m3ps(1.36), endLevel: u.m(-1.8) }).normalDepth // => 0.29446 m
 */
export function chuteFlow(chute: Chute, water: ChuteWater): ChuteFlow {
  checkChute(caller, chute);
  const given = checkedNumbers(
    caller,
    {
      discharge: discharge("Q", { above: 0 }),
      startDepth: length("y_1", { above: 0, unit: "m", default: Number.MAX_VALUE }),
      endLevel: length("z_2", { unit: "m" }),
    },
    water,
  );
  const { critical, normal, steep } = depthsIn(chute, given.discharge);
  const lipLevel = chute.headLevel - chute.bedSlope * chute.length;
  const from = steep ? Math.min(critical, given.startDepth) : Math.max(critical, given.endLevel - lipLevel);
  const walked = walk(chute, given.discharge, from, normal);
  const places = Array.from({ length: steps + 1 }, (_, at) => (at / steps) * chute.length);
  return {
    normalDepth: u.m(normal),
    criticalDepth: u.m(critical),
    steep,
    profile: places.map((distance) => {
      const depth = depthAt(walked, steep ? distance : chute.length - distance);
      return {
        distance: u.m(distance),
        bedLevel: u.m(chute.headLevel - chute.bedSlope * distance),
        depth: u.m(depth),
        velocity: u.mps(given.discharge / (chute.width * depth)),
      };
    }),
  };
}

interface Walked {
  readonly distance: number;
  readonly depth: number;
}

/**
 * The direct step method: from one depth to the next towards uniform flow, the distance in which bed and friction
 * change the energy head so much. Both directions give a positive distance.
 */
function walk(chute: Chute, flow: number, from: number, normal: number): readonly Walked[] {
  const head = (depth: number): number => depth + (flow / (chute.width * depth)) ** 2 / (2 * freeFall);
  const friction = (depth: number): number => {
    const wet = chute.width * depth;
    const radius = wet / (chute.width + 2 * depth);
    return ((flow * chute.roughness) / (wet * radius ** (2 / 3))) ** 2;
  };
  const found: Walked[] = [{ distance: 0, depth: from }];
  const gap = from - normal;
  for (let at = 1; at <= steps; at++) {
    // Depths grow closer towards uniform flow, which is reached only after an endless way.
    const [before, depth] = [at - 1, at].map((step) => normal + gap * 10 ** ((-4 * step) / steps));
    const slope = chute.bedSlope - (friction(before) + friction(depth)) / 2;
    const distance = slope === 0 ? 0 : Math.abs((head(depth) - head(before)) / slope);
    found.push({ distance: found[at - 1].distance + distance, depth });
  }
  return found;
}

function depthAt(walked: readonly Walked[], distance: number): number {
  const next = walked.findIndex((point) => point.distance >= distance);
  if (next === 0) return walked[0].depth;
  if (next < 0) return walked[walked.length - 1].depth;
  const [low, high] = [walked[next - 1], walked[next]];
  const part = (distance - low.distance) / (high.distance - low.distance);
  return low.depth + part * (high.depth - low.depth);
}
