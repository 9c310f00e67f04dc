import type { Length, Velocity } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkNumber, refuse } from "../statistics/checks";
import type { Flow } from "./field";
import { courseOf, type PlanLine, stationsAlong } from "./line";
import { type Uniformity, uniformity } from "./uniformity";

/** The velocities before one place of a rack. */
export interface RackStation {
  /** Along the rack from its upstream end. */
  readonly alongRack: Length;
  readonly x: Length;
  readonly y: Length;
  /** Square to the rack, positive towards the bars. */
  readonly normal: Velocity;
  /** Along the rack, positive towards its downstream end. */
  readonly tangential: Velocity;
  /** Tangential over normal; undefined where nothing presses towards the bars. */
  readonly sweepRatio: number | undefined;
}

/** The velocities along a rack, at a stated distance upstream of it. */
export interface AlongRack {
  readonly method: string;
  readonly distance: Length;
  readonly length: Length;
  readonly stations: readonly RackStation[];
  /** Stations outside of the field, by their distance along the rack: nothing is said about them. */
  readonly outside: readonly Length[];
  /** Of the normal velocity, over the stations inside the field. */
  readonly normal: Uniformity;
  readonly tangential: Uniformity;
  readonly lowestSweepRatio: number | undefined;
}

/**
 * Velocities square to a rack and along it, from its upstream end to its downstream end.
 *
 * Returns the components at evenly spaced stations on a line `distance` upstream of the rack, their ratio, how even they are,
 * and the stations that lie outside of the field. Water flows towards larger x; `rack` runs from its upstream end to its
 * downstream end, where the bypass is. Valid where the field is measured at about that distance. Throws a RangeError for a
 * rack along the flow, fewer than two stations, and a line of which fewer than two stations lie in the field.
 *
 * @example
 * velocity.alongRack(() => ({ alongFlow: u.mps(0.5), across: u.mps(0) }), {
 *   rack: { from: { x: u.m(0), y: u.m(0) }, to: { x: u.m(1), y: u.m(1) } }, distance: u.m(0.1), stations: 5 })
 *   .normal.mean // => 0.35355
 */
export function alongRack(
  field: Flow,
  options: { readonly rack: PlanLine; readonly distance: Length; readonly stations?: number },
): AlongRack {
  const where = "velocity.alongRack";
  const { rack, distance, stations = 21 } = options;
  const course = courseOf(where, "rack", rack);
  checkNumber(where, "distance", distance, { atLeast: 0 });
  // Square to the rack there are two directions; the one downstream points through the bars.
  const sign = Math.sign(course.y);
  if (sign === 0)
    refuse(where, `the rack runs along the flow from (${rack.from.x}, ${rack.from.y}); it must cross it`);
  const through = { x: sign * course.y, y: -sign * course.x };

  const found: RackStation[] = [];
  const outside: Length[] = [];
  for (const along of stationsAlong(where, course.length, stations)) {
    const x = rack.from.x + along * course.x - distance * through.x;
    const y = rack.from.y + along * course.y - distance * through.y;
    const velocity = field(x, y);
    if (velocity === undefined) {
      outside.push(u.m(along));
      continue;
    }
    const normal = velocity.alongFlow * through.x + velocity.across * through.y;
    const tangential = velocity.alongFlow * course.x + velocity.across * course.y;
    found.push({
      alongRack: u.m(along),
      x: u.m(x),
      y: u.m(y),
      normal: u.mps(normal),
      tangential: u.mps(tangential),
      sweepRatio: normal > 0 ? tangential / normal : undefined,
    });
  }
  if (found.length < 2) {
    refuse(
      where,
      `${found.length} of ${stations} stations ${distance} m upstream of the rack lie within the measured points; measure there, or choose another distance`,
    );
  }
  const ratios = found.flatMap(({ sweepRatio }) => sweepRatio ?? []);
  return {
    method: `components ${distance} m upstream of the rack, ${found.length} of ${stations} stations within the measured points`,
    distance,
    length: u.m(course.length),
    stations: found,
    outside,
    normal: uniformity(found.map(({ normal }) => normal)),
    tangential: uniformity(found.map(({ tangential }) => tangential)),
    lowestSweepRatio: ratios.length > 0 ? ratios.reduce((low, one) => Math.min(low, one)) : undefined,
  };
}
