import { checkNumber } from "../formula/check";
import { discharge } from "../formula/input";
import type { Discharge } from "../quantity/dimension";
import { u } from "../quantity/u";
import type { EfficiencyCurve } from "./efficiencyCurve";

/** How the water of a moment is spread over the units of a plant. */
export interface Dispatch {
  /** Flow of each unit, in the order given; 0 where it stands still. */
  readonly unitFlows: readonly Discharge[];
  readonly turbineFlow: Discharge;
  /** Units that run. */
  readonly running: number;
  /** Of all running units together: the mean weighted by their flows; 0 where none runs. */
  readonly efficiency: number;
  /** What the units leave of the water that is there. */
  readonly unused: Discharge;
}

const where = "energy.dispatch";
const flowInput = discharge("Q_a", { atLeast: 0 });
const mostUnits = 10;

/**
 * Spreads the water that is there over the units so that they give the most power.
 *
 * Returns the flow of each unit, the total, and the efficiency of the running units together. Every set of units that
 * the water can keep above their technical minima is tried; the running units share the water in proportion to their full
 * discharge. Valid for units under the same head. Equal shares are the best ones where the power of equal units bends one
 * way over their discharge; elsewhere they are a rule that comes close to the optimum. Throws a RangeError for a negative
 * flow, for no unit and for more than ten.
 *
 * @example
 * energy.dispatch({ available: u.m3ps(3), units: [energy.efficiencyCurve([{ discharge: u.m3ps(4), efficiency: 0.74 },
 *   { discharge: u.m3ps(17), efficiency: 0.9 }])] }).running // => 0
 */
export function dispatch({
  available,
  units,
}: {
  readonly available: Discharge;
  readonly units: readonly EfficiencyCurve[];
}): Dispatch {
  checkUnits(where, units);
  checkNumber(where, "available", available, flowInput);
  return dispatchOf(units)(available);
}

/** Refuses a plant without units, and one whose sets of units are too many to try. */
export function checkUnits(caller: string, units: readonly EfficiencyCurve[]): void {
  if (units.length === 0 || units.length > mostUnits)
    throw new RangeError(
      `${caller}: there are ${units.length} units; give 1 to ${mostUnits}, each an energy.efficiencyCurve.`,
    );
}

/** A set of units that may run together. */
interface UnitSet {
  readonly members: readonly number[];
  readonly smallest: number;
  readonly largest: number;
}

/** The bare function of the water that is there, for loops. */
export function dispatchOf(units: readonly EfficiencyCurve[]): (available: number) => Dispatch {
  const sets = setsOf(units);
  return (available) => {
    let flows: readonly number[] | undefined;
    let most = 0;
    for (const set of sets) {
      if (available < set.smallest) continue;
      const shared = share(units, set, Math.min(available, set.largest));
      const power = shared.reduce((sum, flow, at) => sum + flow * units[set.members[at]](u.m3ps(flow)), 0);
      // Sets come with the fewest units first: more of them must give more.
      if (power > most * (1 + 1e-12)) {
        most = power;
        const placed = units.map(() => 0);
        set.members.forEach((unit, at) => (placed[unit] = shared[at]));
        flows = placed;
      }
    }
    const unitFlows = flows ?? units.map(() => 0);
    const turbineFlow = unitFlows.reduce((sum, flow) => sum + flow, 0);
    return {
      unitFlows: unitFlows.map((flow) => u.m3ps(flow)),
      turbineFlow: u.m3ps(turbineFlow),
      running: unitFlows.filter((flow) => flow > 0).length,
      efficiency: turbineFlow === 0 ? 0 : most / turbineFlow,
      unused: u.m3ps(Math.max(0, available - turbineFlow)),
    };
  };
}

/** Every set of units but the empty one, the smallest sets first. */
function setsOf(units: readonly EfficiencyCurve[]): UnitSet[] {
  const sets = Array.from({ length: 2 ** units.length - 1 }, (_, code) => {
    const members = units.flatMap((_unit, at) => (((code + 1) >> at) & 1 ? [at] : []));
    return {
      members,
      smallest: members.reduce((sum, at) => sum + units[at].smallest, 0),
      largest: members.reduce((sum, at) => sum + units[at].largest, 0),
    };
  });
  return sets.toSorted((one, other) => one.members.length - other.members.length);
}

/** The flow of each member: in proportion to full discharge, but none under its technical minimum. */
function share(units: readonly EfficiencyCurve[], { members }: UnitSet, flow: number): number[] {
  const atMinimum = new Set<number>();
  for (;;) {
    const free = members.filter((unit) => !atMinimum.has(unit));
    const left = flow - [...atMinimum].reduce((sum, unit) => sum + units[unit].smallest, 0);
    const full = free.reduce((sum, unit) => sum + units[unit].largest, 0);
    const below = free.filter((unit) => (left * units[unit].largest) / full < units[unit].smallest);
    if (below.length === 0 || free.length === 1)
      return members.map((unit) =>
        atMinimum.has(unit) ? units[unit].smallest : within(units[unit], (left * units[unit].largest) / full),
      );
    below.forEach((unit) => atMinimum.add(unit));
  }
}

/** Rounding may carry a share past an end of the curve by the last digit. */
const within = ({ smallest, largest }: EfficiencyCurve, flow: number): number =>
  Math.min(largest, Math.max(smallest, flow));
