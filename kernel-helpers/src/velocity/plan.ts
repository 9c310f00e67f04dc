import type { Length, Velocity } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkNumber, refuse } from "../statistics/checks";
import { checkPoints, samePlace, type VelocityPoint, verticals } from "./point";
import { integrated } from "./profile";

/** A place in plan with its mean velocity. */
export interface PlanVelocity {
  readonly x: Length;
  readonly y: Length;
  readonly velocityX: Velocity;
  readonly velocityY: Velocity;
}

const names = ["x", "y", "z", "velocityX", "velocityY", "velocityZ"] as const;

/** The usual exponent of the velocity profile over a smooth bottom. */
export const usualExponent = 1 / 7;

/**
 * The points of one height above the bottom, in plan.
 *
 * Returns the points whose z lies within 1 mm of `height`. Valid for points of one layout. Throws a RangeError that lists
 * the heights there are if none is at this one.
 *
 * @example
 * velocity.layer([{ x: u.m(0), y: u.m(0.5), z: u.m(0.3), velocityX: u.mps(0.5), velocityY: u.mps(0.02), velocityZ: u.mps(0) }],
 *   u.m(0.3)).length // => 1
 */
export function layer(points: readonly VelocityPoint[], height: Length): PlanVelocity[] {
  const where = "velocity.layer";
  checkPoints(where, points, names);
  checkNumber(where, "height", height);
  const found = points.filter(({ z }) => Math.abs(z - height) < samePlace);
  if (found.length === 0) {
    const heights = [...new Set(points.map(({ z }) => Number(z.toFixed(3))))].toSorted((a, b) => a - b);
    refuse(
      where,
      `no point stands at ${height} m above the bottom; the heights are ${heights.join(", ") || "none"} m`,
    );
  }
  verticals(where, found);
  return found.map(planned);
}

/**
 * Means over the depth of all points that stand above each other.
 *
 * Returns one point a vertical: the velocities integrated over the depth by trapezoids and divided by it. From the lowest
 * point down to the bottom they follow a power law with `bedExponent` (1/7 unless told otherwise; 0 holds the lowest value,
 * 1 lets it fall to nothing in a straight line); from the highest point up to the surface they stay. Valid for points of one
 * layout. Throws a RangeError for a depth that is not above every point and for two points at the same place.
 *
 * @example
 * velocity.depthAveraged([{ x: u.m(0), y: u.m(0.5), z: u.m(0.3), velocityX: u.mps(0.5), velocityY: u.mps(0), velocityZ: u.mps(0) }],
 *   { depth: u.m(0.6), bedExponent: 0 })[0].velocityX // => 0.5 m/s
 */
export function depthAveraged(
  points: readonly VelocityPoint[],
  options: { readonly depth: Length; readonly bedExponent?: number },
): PlanVelocity[] {
  const where = "velocity.depthAveraged";
  const { depth, bedExponent = usualExponent } = options;
  checkPoints(where, points, names);
  checkDepth(where, points, depth, bedExponent);
  return verticals(where, points).map((vertical) => {
    const heights = vertical.map(({ z }) => z);
    const average = (values: readonly number[]): number =>
      integrated(heights, values, { at: 0, exponent: bedExponent }, { at: depth, exponent: 0 }).total / depth;
    return planned({
      ...vertical[0],
      velocityX: average(vertical.map(({ velocityX }) => velocityX)),
      velocityY: average(vertical.map(({ velocityY }) => velocityY)),
    });
  });
}

/** Refuses a depth that leaves a point in the air or in the ground, and an exponent that is none. */
export function checkDepth(
  where: string,
  points: readonly VelocityPoint[],
  depth: number,
  bedExponent: number,
): void {
  checkNumber(where, "depth", depth, { above: 0 });
  checkNumber(where, "bedExponent", bedExponent, { atLeast: 0, atMost: 1 });
  points.forEach(({ z }, at) => {
    if (z <= 0 || z > depth) {
      refuse(
        where,
        `z of point ${at + 1} is ${z} m; it must be above 0 m and at most the depth of ${depth} m`,
      );
    }
  });
}

function planned({ x, y, velocityX, velocityY }: VelocityPoint): PlanVelocity {
  return { x: u.m(x), y: u.m(y), velocityX: u.mps(velocityX), velocityY: u.mps(velocityY) };
}
