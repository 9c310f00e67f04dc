import { checkNumber, checkWhole, refuse } from "../statistics/checks";

/** A place in plan, m: x along the flow, y across it. */
export interface PlanPlace {
  readonly x: number;
  readonly y: number;
}

/** A straight line in plan with two ends. */
export interface PlanLine {
  readonly from: PlanPlace;
  readonly to: PlanPlace;
}

/** A line's length in m and its direction. */
export interface Course {
  readonly length: number;
  readonly x: number;
  readonly y: number;
}

/** Refuses a line whose ends are no numbers or the same; returns its course. */
export function courseOf(where: string, name: string, { from, to }: PlanLine): Course {
  for (const [end, place] of Object.entries({ from, to })) {
    checkNumber(where, `${name}.${end}.x`, place.x);
    checkNumber(where, `${name}.${end}.y`, place.y);
  }
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length === 0)
    refuse(where, `${name} starts and ends at (${from.x}, ${from.y}); its ends must lie apart`);
  return { length, x: (to.x - from.x) / length, y: (to.y - from.y) / length };
}

/** Evenly spaced distances from one end to the other, both included. */
export function stationsAlong(where: string, length: number, stations: number): number[] {
  checkWhole(where, "stations", stations, 2, 10_000);
  return Array.from({ length: stations }, (_, i) => (i * length) / (stations - 1));
}
