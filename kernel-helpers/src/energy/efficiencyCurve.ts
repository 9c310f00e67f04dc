import { checkNumber } from "../formula/check";
import { discharge, ratio } from "../formula/input";
import type { Discharge } from "../quantity/dimension";
import { format } from "../quantity/format";
import { u } from "../quantity/u";

/** One point of a unit's efficiency curve. */
export interface EfficiencyPoint {
  readonly discharge: Discharge;
  /** Of turbine and generator together, 0..1. */
  readonly efficiency: number;
}

/** A unit as its efficiency over its discharge: call it with a discharge, it returns a share 0..1. */
export interface EfficiencyCurve {
  (unitFlow: Discharge): number;
  /** The technical minimum: the unit runs at no smaller discharge. */
  readonly smallest: Discharge;
  /** The full discharge. */
  readonly largest: Discharge;
  readonly best: EfficiencyPoint;
  readonly points: readonly EfficiencyPoint[];
}

const where = "energy.efficiencyCurve";
const flowInput = discharge("Q", { above: 0 });
const efficiencyInput = ratio("\\eta", { above: 0 });

/**
 * Efficiency of a turbine unit at part load, from points, with straight lines between them.
 *
 * Returns a function of the unit's discharge that gives a share 0..1. The first point is the technical minimum, the last
 * one full discharge: the function throws a RangeError outside. Throws a RangeError for fewer than two points, for
 * discharges that do not rise and for efficiencies that are not above 0 and at most 1.
 *
 * @example
 * energy.efficiencyCurve([{ discharge: u.m3ps(4), efficiency: 0.74 }, { discharge: u.m3ps(17), efficiency: 0.9 }])(
 *   u.m3ps(10.5)) // => 0.82
 */
export function efficiencyCurve(points: readonly EfficiencyPoint[]): EfficiencyCurve {
  if (points.length < 2)
    throw new RangeError(
      `${where}: there ${points.length === 1 ? "is one point" : "are no points"}; give at least two, ` +
        "technical minimum and full discharge.",
    );
  points.forEach((point, at) => {
    checkNumber(where, `the discharge of points[${at}]`, point.discharge, flowInput);
    checkNumber(where, `the efficiency of points[${at}]`, point.efficiency, efficiencyInput);
    if (at > 0 && point.discharge <= points[at - 1].discharge)
      throw new RangeError(
        `${where}: the discharge of points[${at}] is ${format(point.discharge, "m3ps")}, not above that of the point ` +
          `before, ${format(points[at - 1].discharge, "m3ps")}; sort the points by discharge, each one once.`,
      );
  });
  const flows = Float64Array.from(points, (point) => point.discharge);
  const shares = Float64Array.from(points, (point) => point.efficiency);
  const last = points.length - 1;
  const smallest = points[0].discharge;
  const largest = points[last].discharge;

  const curve = (unitFlow: number): number => {
    if (!(unitFlow >= smallest && unitFlow <= largest))
      throw new RangeError(
        `${where}: the unit's discharge is ${format(u.m3ps(unitFlow), "m3ps")}; its curve runs from ` +
          `${format(smallest, "m3ps")}, the technical minimum, to ${format(largest, "m3ps")}, full discharge.`,
      );
    let at = 1;
    while (at < last && flows[at] < unitFlow) at++;
    const part = (unitFlow - flows[at - 1]) / (flows[at] - flows[at - 1]);
    return shares[at - 1] + part * (shares[at] - shares[at - 1]);
  };
  const best = points.reduce((most, point) => (point.efficiency > most.efficiency ? point : most));
  return Object.assign(curve, { smallest, largest, best, points: [...points] });
}
