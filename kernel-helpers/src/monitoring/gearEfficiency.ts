import { refuse } from "../statistics/checks";
import { clusteredInterval, type ClusteredInterval } from "../statistics/clustering/clusteredInterval";
import type { CatchRow, Net } from "./catchRecord";
import { byNight, someChosen, sumOf } from "./nights";

/** The share of the fish that a net holds, with its error. */
export interface Efficiency {
  readonly estimate: number;
  readonly standardError: number;
}

/** The efficiency of the nets behind both ways. */
export interface GearEfficiencies {
  readonly bypass: Efficiency;
  readonly turbine: Efficiency;
}

/** A net's efficiency and the releases behind it. */
export interface GearEfficiency extends ClusteredInterval, Efficiency {
  readonly net: Net;
  readonly group: "treated" | "control";
  readonly released: number;
  readonly caught: number;
  /** Nights with a release. */
  readonly nights: number;
  readonly denominator: "fish released";
}

/**
 * Efficiency of a net: the share of the released fish that it held.
 *
 * Returns the share with its standard error and an interval that respects nights. From control fish, set free in the net
 * itself, it is the efficiency of the net alone; from treated fish it also counts as missed who got lost on the way. Valid
 * where released fish are caught as readily as wild ones: reared fish of one size class stand for all others here. Throws
 * a RangeError where fewer than two nights had a release, or no row fits.
 *
 * @example
 * monitoring.gearEfficiency(catches.rows, { plant: "Halvern Weir", net: "turbine" })
 */
export function gearEfficiency(
  rows: readonly CatchRow[],
  {
    net,
    group = "control",
    level = 0.95,
    ...others
  }: {
    readonly net: Net;
    readonly plant?: string;
    readonly species?: string;
    readonly group?: "treated" | "control";
    readonly level?: number;
  },
): GearEfficiency {
  const where = "monitoring.gearEfficiency";
  const nights = [...byNight(someChosen(where, rows, { net, group, ...others })).values()].map((night) => ({
    successes: sumOf(night, ({ caught }) => caught),
    trials: sumOf(night, ({ released = 0 }) => released),
  }));
  if (nights.length < 2)
    refuse(where, `fish of group "${group}" were released on one night only; the spread needs at least 2`);
  const interval = clusteredInterval({ clusters: nights, level });
  const { estimate, effectiveTrials, successes, trials } = interval;
  return {
    ...interval,
    standardError: Math.sqrt((estimate * (1 - estimate)) / effectiveTrials),
    net,
    group,
    released: trials,
    caught: successes,
    nights: nights.length,
    denominator: "fish released",
  };
}

/**
 * Efficiencies of the nets behind bypass and turbine of one plant.
 *
 * Returns `gearEfficiency` of both nets, as the other functions take them. Throws a RangeError as it does.
 *
 * @example
 * monitoring.gearEfficiencies(catches.rows, { plant: "Halvern Weir" }).turbine.estimate
 */
export function gearEfficiencies(
  rows: readonly CatchRow[],
  options: {
    readonly plant?: string;
    readonly species?: string;
    readonly group?: "treated" | "control";
    readonly level?: number;
  } = {},
): { readonly bypass: GearEfficiency; readonly turbine: GearEfficiency } {
  return {
    bypass: gearEfficiency(rows, { ...options, net: "bypass" }),
    turbine: gearEfficiency(rows, { ...options, net: "turbine" }),
  };
}
