import { velocity } from "../formula/input";
import type { Velocity } from "../quantity/dimension";
import { checkOptions } from "./checks";

/** Velocity of the water in m/s: along the flow's axis x, and across it along y. */
export interface WaterVelocity {
  readonly alongFlow: number;
  readonly across: number;
}

/** The velocity of the water by place, x and y in metres; undefined where none is known. */
export type Flow = (x: number, y: number) => WaterVelocity | undefined;

/**
 * The same velocity everywhere, along x: all that is known where nothing was measured but the discharge.
 *
 * Returns a flow that `movement.steps` and `movement.behaviours` take. Throws a RangeError for a negative velocity.
 *
 * @example
 * movement.uniformFlow(u.mps(0.45))(0, 1).alongFlow // => 0.45
 */
export function uniformFlow(approachVelocity: Velocity): Flow {
  const caller = "movement.uniformFlow";
  checkOptions(
    caller,
    { approachVelocity: approachVelocity ?? null },
    { approachVelocity: velocity("U", { atLeast: 0 }) },
  );
  return () => ({ alongFlow: approachVelocity, across: 0 });
}

/**
 * A measured flow, for another approach velocity: the pattern stays, all velocities grow in proportion.
 *
 * Returns a flow. Valid where the pattern does not depend on the velocity, as in the same flume at the same depth.
 * Throws a RangeError for a velocity that is not above 0.
 *
 * @example
 * movement.scaledFlow(movement.uniformFlow(u.mps(0.5)), { from: u.mps(0.5), to: u.mps(0.3) })(0, 1).alongFlow // => 0.3
 */
export function scaledFlow(
  flow: Flow,
  { from, to }: { readonly from: Velocity; readonly to: Velocity },
): Flow {
  checkOptions(
    "movement.scaledFlow",
    { from: from ?? null, to: to ?? null },
    { from: velocity("U_1", { above: 0 }), to: velocity("U_2", { above: 0 }) },
  );
  const factor = to / from;
  return (x, y) => {
    const water = flow(x, y);
    return water === undefined
      ? undefined
      : { alongFlow: factor * water.alongFlow, across: factor * water.across };
  };
}
