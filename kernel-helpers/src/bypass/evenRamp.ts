import { length, printValue, velocity } from "../formula/input";
import type { Length, Velocity } from "../quantity/dimension";
import { freeFall } from "../quantity/constants";
import { u } from "../quantity/u";
import { checkedNumbers } from "./numbers";

/** What `evenRamp` takes. */
export interface EvenRampInput {
  readonly entranceWidth: Length;
  readonly crestWidth: Length;
  readonly headwaterLevel: Length;
  readonly entranceVelocity: Velocity;
  readonly crestVelocity: Velocity;
  readonly rampLength: Length;
  /** Of the floor at the entrance; the discharge follows from it, width and velocity. */
  readonly sillLevel: Length;
}

/** The ramp at one place between entrance and crest. */
export interface RampPoint {
  readonly distance: Length;
  readonly floorLevel: Length;
  readonly waterLevel: Length;
  readonly velocity: Velocity;
}

const caller = "bypass.evenRamp";
const between = (from: number, to: number, part: number): number => from + part * (to - from);
const size = () => length("b", { above: 0, unit: "m" });

/**
 * The floor between entrance and crest along which the velocity rises evenly.
 *
 * Returns places from the entrance to the crest: distance, floor level and water level in metres, velocity in m/s. Width
 * and velocity change evenly along the way; the water falls by the velocity head it gains, without losses. Throws a
 * RangeError where the velocity does not rise.
 *
 * @example
 * bypass.evenRamp({ entranceWidth: u.m(0.55), crestWidth: u.m(0.8), headwaterLevel: u.m(3.6), sillLevel: u.m(0),
 *                   entranceVelocity: u.mps(0.687), crestVelocity: u.mps(2.555), rampLength: u.m(3) }).at(-1).floorLevel // => 2.6018 m
 */
export function evenRamp(input: EvenRampInput, count = 60): readonly RampPoint[] {
  const ramp = checkedNumbers(
    caller,
    {
      entranceWidth: size(),
      crestWidth: size(),
      headwaterLevel: length("z", { unit: "m" }),
      entranceVelocity: velocity("v_1", { above: 0 }),
      crestVelocity: velocity("v_2", { above: 0 }),
      rampLength: size(),
      sillLevel: length("z_s", { unit: "m" }),
    },
    input,
  );
  if (ramp.crestVelocity <= ramp.entranceVelocity) {
    throw new RangeError(
      `${caller}: crestVelocity is ${printValue(ramp.crestVelocity, "velocity")}; it must be above entranceVelocity, ` +
        `${printValue(ramp.entranceVelocity, "velocity")}.`,
    );
  }
  const flow = ramp.entranceVelocity * ramp.entranceWidth * (ramp.headwaterLevel - ramp.sillLevel);
  return Array.from({ length: count + 1 }, (_, at) => {
    const part = at / count;
    const along = between(ramp.entranceVelocity, ramp.crestVelocity, part);
    const waterLevel = ramp.headwaterLevel - along ** 2 / (2 * freeFall);
    const depth = flow / (between(ramp.entranceWidth, ramp.crestWidth, part) * along);
    return {
      distance: u.m(part * ramp.rampLength),
      // At the entrance the velocity head would put the floor a little below the sill.
      floorLevel: u.m(Math.max(ramp.sillLevel, waterLevel - depth)),
      waterLevel: u.m(waterLevel),
      velocity: u.mps(along),
    };
  });
}
