import { angle, velocity } from "../formula/input";
import type { Angle, Velocity } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkOptions } from "./checks";
import type { Step } from "./steps";

/** How a fish heads in the flow: against it, with it, between the two, or not to be told. */
export type Orientation = "positive" | "neutral" | "negative" | "drifting";

/** What decides the orientation. */
export interface RheotaxisOptions {
  /** Headings this near to square across the flow, on both sides, count as neutral. 30° where not given. */
  readonly neutralBand?: Angle;
  /** Below this speed through the water a fish drifts, and its heading says nothing. 0.05 m/s where not given. */
  readonly leastSwimmingSpeed?: Velocity;
}

/** The values of `RheotaxisOptions` where none are given. */
export const usualRheotaxis: Required<RheotaxisOptions> = {
  neutralBand: u.deg(30),
  leastSwimmingSpeed: u.mps(0.05),
};

/** Shares of the time with known flow in which a fish headed so. */
export interface RheotaxisShares {
  readonly positive: number;
  readonly neutral: number;
  readonly negative: number;
  readonly drifting: number;
}

/**
 * The orientation of one step to the flow.
 *
 * Returns "positive" for a heading against the local flow, that of the movement through the water and not of the way over
 * ground: a fish that is carried downstream tail first swims against the flow. "negative" is a heading with it, "neutral"
 * one within `neutralBand` of square across, "drifting" a swimming speed below `leastSwimmingSpeed`. Returns undefined
 * where the flow is not known. The body itself is not seen: a fish is taken to head where it swims.
 *
 * @example
 * movement.orientation(movement.steps(movement.trackOf("A", [{ time: u.s(0), x: u.m(-2), y: u.m(0.7) },
 *   { time: u.s(2), x: u.m(-1.8), y: u.m(0.7) }], { gapLimit: u.s(6) }),
 *   { flow: movement.uniformFlow(u.mps(0.3)) })[0]) // => "positive"
 */
export function orientation(step: Step, options: RheotaxisOptions = {}): Orientation | undefined {
  return orientationOf(step, checkedRheotaxis("movement.orientation", options));
}

/** Returns the options with the usual ones filled in, or refuses them in a sentence. */
export function checkedRheotaxis(caller: string, given: RheotaxisOptions): Required<RheotaxisOptions> {
  checkOptions(
    caller,
    { neutralBand: given.neutralBand, leastSwimmingSpeed: given.leastSwimmingSpeed },
    {
      neutralBand: angle("\\beta", { atLeast: 0, below: u.deg(90) }),
      leastSwimmingSpeed: velocity("v", { atLeast: 0 }),
    },
  );
  return {
    neutralBand: given.neutralBand ?? usualRheotaxis.neutralBand,
    leastSwimmingSpeed: given.leastSwimmingSpeed ?? usualRheotaxis.leastSwimmingSpeed,
  };
}

function orientationOf(
  { swimming, heading }: Step,
  { neutralBand, leastSwimmingSpeed }: Required<RheotaxisOptions>,
): Orientation | undefined {
  if (swimming === undefined) return undefined;
  if (heading === undefined || swimming.speed < leastSwimmingSpeed) return "drifting";
  const square = Math.PI / 2;
  if (Math.abs(heading - square) <= neutralBand) return "neutral";
  return heading < square ? "positive" : "negative";
}

/** Shares of time of each orientation over steps; undefined where the flow is known in none of them. */
export function rheotaxisShares(
  steps: readonly Step[],
  options: Required<RheotaxisOptions>,
): RheotaxisShares | undefined {
  const times = { positive: 0, neutral: 0, negative: 0, drifting: 0 };
  let known = 0;
  for (const step of steps) {
    const which = orientationOf(step, options);
    if (which === undefined) continue;
    times[which] += step.to - step.from;
    known += step.to - step.from;
  }
  if (known === 0) return undefined;
  return {
    positive: times.positive / known,
    neutral: times.neutral / known,
    negative: times.negative / known,
    drifting: times.drifting / known,
  };
}
