import { checkLevel, checkNumber, checkWhole } from "../statistics/checks";
import { normalQuantile } from "../statistics/distributions";
import type { CatchRow, Net } from "./catchRecord";
import type { Efficiency, GearEfficiencies } from "./gearEfficiency";
import { grouped } from "./grouped";
import { someChosen, sumOf } from "./nights";

/** Fish that passed, estimated from those that a net held. */
export interface CorrectedCatch {
  readonly method: "catch over gear efficiency; delta method, log-normal interval";
  readonly caught: number;
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
  readonly level: number;
  readonly caution: string | undefined;
}

/** Refuses an efficiency that can't be one. */
export function checkEfficiency(where: string, name: string, { estimate, standardError }: Efficiency): void {
  checkNumber(where, `${name}.estimate`, estimate, { above: 0, atMost: 1 });
  checkNumber(where, `${name}.standardError`, standardError, { atLeast: 0 });
}

/**
 * Number of fish that passed, from the catch and the efficiency of the net.
 *
 * Returns C/e with its standard error: √(C(1 − e)/e² + C² s²/e⁴) by the delta method, the first part for the fish that the
 * net missed by chance, the second for the error s of the efficiency e itself. The interval is symmetric for the
 * logarithm. Without catch the estimate is 0, its upper bound −ln(1 − level)/e from the Poisson distribution. Valid where
 * every fish has the same chance to be held. Throws a RangeError for a catch that is no whole number and an efficiency
 * outside 0..1.
 *
 * @example
 * monitoring.correctedCatch({ caught: 80, gearEfficiency: { estimate: 0.8, standardError: 0.02 } }).standardError
 * // => 5.590
 */
export function correctedCatch({
  caught,
  gearEfficiency,
  level = 0.95,
}: {
  readonly caught: number;
  readonly gearEfficiency: Efficiency;
  readonly level?: number;
}): CorrectedCatch {
  const where = "monitoring.correctedCatch";
  checkWhole(where, "caught", caught, 0);
  checkEfficiency(where, "gearEfficiency", gearEfficiency);
  checkLevel(where, level);
  const { estimate: share, standardError: error } = gearEfficiency;
  const estimate = caught / share;
  const standardError = Math.sqrt((caught * (1 - share)) / share ** 2 + (caught * error) ** 2 / share ** 4);
  const reach = caught === 0 ? 0 : (normalQuantile((1 + level) / 2) * standardError) / estimate;
  return {
    method: "catch over gear efficiency; delta method, log-normal interval",
    caught,
    estimate,
    standardError,
    // No fewer passed than lie in the net.
    lower: Math.max(caught, estimate * Math.exp(-reach)),
    upper: caught === 0 ? -Math.log(1 - level) / share : estimate * Math.exp(reach),
    level,
    caution:
      caught > 0 && caught < 10
        ? `Only ${caught} fish were caught: the errors, which hold for many, are rough.`
        : undefined,
  };
}

/** What a number of fish belongs to; undefined where it was summed over. */
export interface CorrectedCatchRow extends CorrectedCatch {
  readonly plant: string;
  readonly net: Net;
  readonly night: string | undefined;
  readonly species: string | undefined;
  readonly lengthFrom: CatchRow["lengthFrom"] | undefined;
  readonly lengthTo: CatchRow["lengthTo"] | undefined;
}

/** What corrected catches may be told apart by. */
export type CatchKey = "night" | "species" | "lengthClass";

/**
 * Wild fish that passed, by night, species or length class, from the catch of both nets.
 *
 * Returns one entry for each plant, net and value of `by`, with `correctedCatch` of the summed catch. All entries of a net
 * share one efficiency, so their errors hang together: don't add them up as if they were independent. Throws a RangeError
 * where no row fits.
 *
 * @example
 * monitoring.correctedCatches(catches.rows, { plant: "Halvern Weir", by: ["species"],
 *   gear: monitoring.gearEfficiencies(catches.rows, { plant: "Halvern Weir" }) })
 */
export function correctedCatches(
  rows: readonly CatchRow[],
  {
    plant,
    by,
    gear,
    level = 0.95,
  }: {
    readonly plant: string;
    readonly by: readonly CatchKey[];
    readonly gear: GearEfficiencies;
    readonly level?: number;
  },
): CorrectedCatchRow[] {
  const where = "monitoring.correctedCatches";
  const isBy = (key: CatchKey): boolean => by.includes(key);
  const partsOf = (row: CatchRow) => ({
    plant: row.plant,
    net: row.net,
    night: isBy("night") ? row.night : undefined,
    species: isBy("species") ? row.species : undefined,
    lengthFrom: isBy("lengthClass") ? row.lengthFrom : undefined,
    lengthTo: isBy("lengthClass") ? row.lengthTo : undefined,
  });
  const wild = someChosen(where, rows, { plant, group: "wild" });
  return [...grouped(wild, (row) => JSON.stringify(partsOf(row))).values()].map((some) => ({
    ...partsOf(some[0]),
    ...correctedCatch({
      caught: sumOf(some, ({ caught }) => caught),
      gearEfficiency: gear[some[0].net],
      level,
    }),
  }));
}
