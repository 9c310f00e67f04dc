import type { Length, Velocity, VelocityGradient } from "../quantity/dimension";
import { u } from "../quantity/u";
import { refuse } from "../statistics/checks";
import type { Flow } from "./field";
import { courseOf, type PlanLine, stationsAlong } from "./line";

/** The velocity at one place of a line. */
export interface LineStation {
  /** From the line's first end. */
  readonly distance: Length;
  readonly x: Length;
  readonly y: Length;
  readonly alongFlow: Velocity;
  readonly across: Velocity;
  readonly speed: Velocity;
}

/** The change of speed over one stretch of a line. */
export interface LineGradient {
  /** Middle of the stretch, from the line's first end. */
  readonly distance: Length;
  /** Change of speed over the length of the stretch; positive where a fish on its way from first to second end gets into faster water. */
  readonly gradient: VelocityGradient;
}

/** Speeds and their changes along a line. */
export interface AlongLine {
  readonly method: string;
  readonly length: Length;
  /** Length of a stretch over which a gradient is taken. */
  readonly stretch: Length;
  readonly stations: readonly LineStation[];
  readonly gradients: readonly LineGradient[];
  /** Stations outside of the field, by their distance. */
  readonly outside: readonly Length[];
  /** The steepest rise, positive, or undefined where the speed never rises. */
  readonly steepestRise: VelocityGradient | undefined;
}

/**
 * Speeds along a straight line, such as the way into the bypass, and how fast they change.
 *
 * Returns the velocity at evenly spaced stations and the gradient in 1/s over each stretch between two neighbours. The stretch
 * matters: a longer one hides a jump, a shorter one shows the error of the points. Valid for stretches not shorter than the
 * points of the field stand apart. Stations outside of the field are listed, and no gradient is taken across them. Throws a
 * RangeError for a line without length, fewer than two stations, and a line of which fewer than two neighbouring stations lie
 * in the field.
 *
 * @example
 * velocity.alongLine((x) => ({ alongFlow: u.mps(0.5 + 0.2 * x), across: u.mps(0) }),
 *   { from: { x: 0, y: 1.4 }, to: { x: 1, y: 1.4 }, stations: 3 }).steepestRise // => 0.2 1/s
 */
export function alongLine(field: Flow, options: PlanLine & { readonly stations?: number }): AlongLine {
  const where = "velocity.alongLine";
  const { from, to, stations = 11 } = options;
  const course = courseOf(where, "the line", { from, to });
  const places = stationsAlong(where, course.length, stations);
  const found = places.map((distance): LineStation | undefined => {
    const [x, y] = [from.x + distance * course.x, from.y + distance * course.y];
    const velocity = field(x, y);
    return velocity === undefined
      ? undefined
      : {
          distance: u.m(distance),
          x: u.m(x),
          y: u.m(y),
          alongFlow: u.mps(velocity.alongFlow),
          across: u.mps(velocity.across),
          speed: u.mps(Math.hypot(velocity.alongFlow, velocity.across)),
        };
  });
  const stretch = course.length / (stations - 1);
  const gradients = found.slice(1).flatMap((station, at): LineGradient[] => {
    const before = found[at];
    return station === undefined || before === undefined
      ? []
      : [
          {
            distance: u.m((before.distance + station.distance) / 2),
            gradient: u.perS((station.speed - before.speed) / stretch),
          },
        ];
  });
  if (gradients.length === 0) {
    refuse(
      where,
      `no two neighbours of ${stations} stations from (${from.x}, ${from.y}) to (${to.x}, ${to.y}) lie within the measured points; nothing is extrapolated`,
    );
  }
  const steepest = gradients.reduce((high, one) => Math.max(high, one.gradient), -Infinity);
  const inside = found.filter((station) => station !== undefined);
  return {
    method: `differences of speed over stretches of ${stretch.toPrecision(3)} m`,
    length: u.m(course.length),
    stretch: u.m(stretch),
    stations: inside,
    gradients,
    outside: places.filter((_, at) => found[at] === undefined).map((distance) => u.m(distance)),
    steepestRise: steepest > 0 ? u.perS(steepest) : undefined,
  };
}
