import { refuse } from "../statistics/checks";

/** A mean velocity at a place: x along the flow, y across it, z above the bottom, in m; components in m/s. */
export interface VelocityPoint {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly velocityX: number;
  readonly velocityY: number;
  readonly velocityZ: number;
}

/** A mean velocity in plan. */
export interface PlanPoint {
  readonly x: number;
  readonly y: number;
  readonly velocityX: number;
  readonly velocityY: number;
}

/** Places that differ by less, in m, are the same. */
export const samePlace = 1e-3;

/** Refuses points without numbers. */
export function checkPoints<P extends object>(
  where: string,
  points: readonly P[],
  names: readonly (keyof P & string)[],
): void {
  points.forEach((point, at) => {
    for (const name of names) {
      const value: unknown = point[name];
      if (typeof value !== "number" || !Number.isFinite(value)) {
        refuse(where, `${name} of point ${at + 1} is ${String(value)}; it must be a finite number`);
      }
    }
  });
}

/** Points by the verticals that they stand on, from the lowest up; in the order in which a vertical first appears. */
export function verticals<P extends { readonly x: number; readonly y: number; readonly z: number }>(
  where: string,
  points: readonly P[],
): P[][] {
  const found: P[][] = [];
  for (const point of points) {
    const own = found.find(
      ([{ x, y }]) => Math.abs(x - point.x) < samePlace && Math.abs(y - point.y) < samePlace,
    );
    if (own === undefined) found.push([point]);
    else own.push(point);
  }
  return found.map((vertical) => {
    const sorted = vertical.toSorted((a, b) => a.z - b.z);
    sorted.slice(1).forEach(({ x, y, z }, at) => {
      if (z - sorted[at].z < samePlace) {
        refuse(where, `two points stand at x ${x} m, y ${y} m, z ${z} m; keep one of them, or one layout`);
      }
    });
    return sorted;
  });
}
