// The type only: an import of the library itself would load it with the module.
import type Delaunator from "delaunator" with { "resolution-mode": "import" };
import type { Velocity } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkNumber, refuse } from "../statistics/checks";
import { checkPoints, type PlanPoint, samePlace } from "./point";

/** The velocity at a place in plan. */
export interface FlowVelocity {
  readonly alongFlow: Velocity;
  readonly across: Velocity;
}

/** The velocity by place in m, in m/s; undefined where it is not known. A field is one; so is any function of this form. */
export type Flow = (
  x: number,
  y: number,
) => { readonly alongFlow: number; readonly across: number } | undefined;

/** A velocity field in plan: a function of the place in m, undefined where nothing was measured around it. */
export interface VelocityField {
  (x: number, y: number): FlowVelocity | undefined;
  readonly method: string;
  readonly points: readonly PlanPoint[];
  /** Triangles used, each by the places of its corners in `points`. */
  readonly triangles: readonly (readonly [number, number, number])[];
  /** The box around all points, m. */
  readonly box: {
    readonly x: readonly [number, number];
    readonly y: readonly [number, number];
  };
}

/**
 * Velocity field in plan from points, by triangles between them.
 *
 * Returns a function of x and y in m that gives `{ alongFlow, across }` in m/s: within the triangle of the three points
 * around a place (Delaunay's triangulation) both components run in a plane through the three values. Outside of all triangles
 * it gives undefined: nothing is extrapolated. `longestSide` leaves out triangles with a longer side, as they arise along
 * a hollow edge of the points. Valid where the velocity between neighbouring points runs about straight. Throws a RangeError
 * for fewer than three points, points in one line, and two points at the same place: choose a layer or average over the
 * depth first.
 *
 * @example
 * velocity.field([{ x: 0, y: 0, velocityX: 0.4, velocityY: 0 }, { x: 1, y: 0, velocityX: 0.6, velocityY: 0 },
 *   { x: 0, y: 1, velocityX: 0.4, velocityY: 0.1 }])(0.25, 0.25)?.alongFlow // => 0.45 m/s
 */
export function field(
  points: readonly PlanPoint[],
  options: { readonly longestSide?: number } = {},
): VelocityField {
  const where = "velocity.field";
  const { longestSide = Infinity } = options;
  if (longestSide !== Infinity) checkNumber(where, "longestSide", longestSide, { above: 0 });
  checkPoints(where, points, ["x", "y", "velocityX", "velocityY"]);
  if (points.length < 3) refuse(where, `there are ${points.length} points; a field needs at least 3`);
  checkApart(where, points);
  const all = triangulated(points);
  if (all.length === 0) refuse(where, `all ${points.length} points stand in one line; a field needs an area`);
  const triangles = all.filter((corners) =>
    corners.every((corner, i) => {
      const [a, b] = [points[corner], points[corners[(i + 1) % 3]]];
      return Math.hypot(a.x - b.x, a.y - b.y) <= longestSide;
    }),
  );
  if (triangles.length === 0) {
    refuse(
      where,
      `longestSide is ${longestSide} m and leaves no triangle of ${all.length}; allow a longer one`,
    );
  }
  const at = (x: number, y: number): FlowVelocity | undefined => {
    checkNumber(where, "x", x);
    checkNumber(where, "y", y);
    for (const corners of triangles) {
      const [a, b, c] = [points[corners[0]], points[corners[1]], points[corners[2]]];
      const shares = sharesOf(a, b, c, x, y);
      if (shares === undefined) continue;
      const mixed = (name: "velocityX" | "velocityY"): Velocity =>
        u.mps(shares[0] * a[name] + shares[1] * b[name] + shares[2] * c[name]);
      return { alongFlow: mixed("velocityX"), across: mixed("velocityY") };
    }
    return undefined;
  };
  return Object.assign(at, {
    method: "planes over Delaunay triangles; undefined outside of them",
    points,
    triangles,
    box: { x: rangeOf(points.map(({ x }) => x)), y: rangeOf(points.map(({ y }) => y)) },
  });
}

let library: typeof Delaunator | undefined;

function triangulated(points: readonly PlanPoint[]): (readonly [number, number, number])[] {
  library ??= (require("delaunator") as { readonly default: typeof Delaunator }).default;
  const { triangles } = library.from(points.map(({ x, y }) => [x, y]));
  return Array.from({ length: triangles.length / 3 }, (_, t) => [
    triangles[3 * t],
    triangles[3 * t + 1],
    triangles[3 * t + 2],
  ]);
}

/** The three corners' shares at a place, undefined outside of the triangle; its edges belong to it. */
function sharesOf(
  a: PlanPoint,
  b: PlanPoint,
  c: PlanPoint,
  x: number,
  y: number,
): readonly [number, number, number] | undefined {
  const area = (b.y - c.y) * (a.x - c.x) + (c.x - b.x) * (a.y - c.y);
  if (area === 0) return undefined;
  const first = ((b.y - c.y) * (x - c.x) + (c.x - b.x) * (y - c.y)) / area;
  const second = ((c.y - a.y) * (x - c.x) + (a.x - c.x) * (y - c.y)) / area;
  const third = 1 - first - second;
  const rounding = -1e-9;
  return first >= rounding && second >= rounding && third >= rounding ? [first, second, third] : undefined;
}

function checkApart(where: string, points: readonly PlanPoint[]): void {
  const sorted = points.toSorted((a, b) => a.x - b.x);
  for (let i = 0; i < sorted.length; i++) {
    for (let j = i + 1; j < sorted.length && sorted[j].x - sorted[i].x < samePlace; j++) {
      if (Math.abs(sorted[j].y - sorted[i].y) < samePlace) {
        refuse(
          where,
          `two points stand at x ${sorted[i].x} m, y ${sorted[i].y} m; a field in plan has one: choose a layer with velocity.layer, or velocity.depthAveraged`,
        );
      }
    }
  }
}

function rangeOf(values: readonly number[]): [number, number] {
  return [
    values.reduce((low, value) => Math.min(low, value)),
    values.reduce((high, value) => Math.max(high, value)),
  ];
}
