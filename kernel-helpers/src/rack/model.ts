import { noteUse } from "../formula/usage";
import type { Angle, Discharge, Force, Length, Time, Velocity } from "../quantity/dimension";
import { froudeScale } from "./scale";

/** What a Froude model scales, each as far as it is known. */
export interface ScaledRack {
  readonly channelWidth?: Length;
  readonly waterDepth?: Length;
  readonly rackLength?: Length;
  readonly barThickness?: Length;
  readonly barDepth?: Length;
  readonly clearSpacing?: Length;
  readonly bottomOverlay?: Length;
  readonly topOverlay?: Length;
  readonly headLoss?: Length;
  readonly totalLength?: Length;
  readonly approachVelocity?: Velocity;
  readonly normalVelocity?: Velocity;
  readonly tangentialVelocity?: Velocity;
  readonly gapVelocity?: Velocity;
  readonly discharge?: Discharge;
  readonly bypassDischarge?: Discharge;
  readonly sweepTime?: Time;
  readonly duration?: Time;
  readonly load?: Force;
  /** Angles are the same in both. */
  readonly rackAngle?: Angle;
}

type Kind = "length" | "velocity" | "discharge" | "time" | "force" | "angle";

const kinds: { readonly [N in keyof Required<ScaledRack>]: Kind } = {
  channelWidth: "length",
  waterDepth: "length",
  rackLength: "length",
  barThickness: "length",
  barDepth: "length",
  clearSpacing: "length",
  bottomOverlay: "length",
  topOverlay: "length",
  headLoss: "length",
  totalLength: "length",
  approachVelocity: "velocity",
  normalVelocity: "velocity",
  tangentialVelocity: "velocity",
  gapVelocity: "velocity",
  discharge: "discharge",
  bypassDischarge: "discharge",
  sweepTime: "time",
  duration: "time",
  load: "force",
  rackAngle: "angle",
};

/**
 * From nature to a Froude model: lengths, velocities, discharges, times and forces at a length scale.
 *
 * Returns the same names with the values in the model. Angles and ratios stay. Valid for free-surface flow of the same
 * water where viscosity doesn't matter: check the bar's Reynolds number in the model. A length of fish is scaled like
 * any other, but no living fish shrinks. Throws a RangeError for names it does not know and values below 0.
 *
 * @example
 * rack.toModel(4, { discharge: u.m3ps(32) }).discharge // => 1 m³/s
 */
export function toModel<const R extends ScaledRack>(
  lengthScale: number,
  nature: R,
): { readonly [N in keyof R]: N extends keyof ScaledRack ? Required<ScaledRack>[N] : never } {
  return scaled("rack.toModel", lengthScale, nature, (value, ratio) => value / ratio);
}

/**
 * From a Froude model to nature: the way back of `toModel`.
 *
 * Returns the same names with the values in nature. Throws a RangeError for names it does not know and values below 0.
 *
 * @example
 * rack.toNature(4, { headLoss: u.mm(5) }).headLoss // => 20 mm
 */
export function toNature<const R extends ScaledRack>(
  lengthScale: number,
  model: R,
): { readonly [N in keyof R]: N extends keyof ScaledRack ? Required<ScaledRack>[N] : never } {
  return scaled("rack.toNature", lengthScale, model, (value, ratio) => value * ratio);
}

function scaled<R extends ScaledRack>(
  where: string,
  lengthScale: number,
  values: R,
  turn: (value: number, ratio: number) => number,
): { readonly [N in keyof R]: N extends keyof ScaledRack ? Required<ScaledRack>[N] : never } {
  const ratios = { ...froudeScale({ lengthScale }), length: lengthScale, angle: 1 };
  noteUse(froudeScale.id);
  const known: Readonly<Record<string, Kind>> = kinds;
  // A boundary: every field of a ScaledRack is a number, and a caller may have written others.
  const turned = Object.entries(values as unknown as Readonly<Record<string, number | undefined>>).map(
    ([name, value]) => {
      if (!Object.hasOwn(known, name)) {
        throw new RangeError(
          `${where}: "${name}" is nothing it knows how to scale; it scales ${Object.keys(known).join(", ")}.`,
        );
      }
      if (value !== undefined && !(Number.isFinite(value) && value >= 0)) {
        throw new RangeError(`${where}: ${name} is ${String(value)}; it must be a quantity of at least 0.`);
      }
      return [name, value === undefined ? undefined : turn(value, ratios[known[name]])];
    },
  );
  // Each name is there again with a value of its own dimension.
  return Object.fromEntries(turned) as ReturnType<typeof scaled<R>>;
}
