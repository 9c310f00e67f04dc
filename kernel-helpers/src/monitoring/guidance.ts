import { checkLevel, checkNumber, checkWhole, refuse } from "../statistics/checks";
import { clusteredInterval, type ClusteredInterval } from "../statistics/clustering/clusteredInterval";
import { normalQuantile } from "../statistics/distributions";
import type { CatchRow } from "./catchRecord";
import { checkEfficiency } from "./correctedCatch";
import type { GearEfficiencies } from "./gearEfficiency";
import { grouped } from "./grouped";
import { byNight, chosen, someChosen, sumOf } from "./nights";

/** The catch of both nets in one night. */
export interface NightCatch {
  readonly bypass: number;
  readonly turbine: number;
}

/** Guidance of the fish that passed, from the catch of both nets. */
export interface Guidance {
  readonly method: string;
  readonly denominator: "fish that passed, by bypass or turbine; refusals are seen in neither net";
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
  readonly level: number;
  /** Fish caught behind bypass and turbine. */
  readonly bypass: number;
  readonly turbine: number;
  /** Share of the catch, with its design effect. */
  readonly ofCatch: ClusteredInterval;
}

const method =
  "Wilson's interval on Rao–Scott effective counts of nights, moved by the gear efficiencies and widened by their error";

export const logit = (share: number): number => Math.log(share / (1 - share));
export const expit = (value: number): number => 1 / (1 + Math.exp(-value));

/** How far the nets move the logit of the share in the bypass, and the error of that. */
export function gearMove(
  where: string,
  { bypass, turbine }: GearEfficiencies,
): { readonly move: number; readonly error: number } {
  checkEfficiency(where, "gear.bypass", bypass);
  checkEfficiency(where, "gear.turbine", turbine);
  return {
    move: Math.log(bypass.estimate / turbine.estimate),
    error: Math.hypot(bypass.standardError / bypass.estimate, turbine.standardError / turbine.estimate),
  };
}

/** Nets that hold every fish. */
export const perfectNets: GearEfficiencies = {
  bypass: { estimate: 1, standardError: 0 },
  turbine: { estimate: 1, standardError: 0 },
};

/**
 * Guidance of those that passed: the share that took the bypass of all that passed by bypass or turbine.
 *
 * Returns the share with its interval. The catch of each night is a cluster; the interval of the share of the catch is that
 * of `statistics.clusteredInterval`. On the logit, the efficiencies of the nets move it by ln(e_turbine/e_bypass), and the
 * error of that is added by squares. This is "guidance of those that passed" of the laboratory; its other two shares need
 * the fish that refused, which no net sees. Valid for about six nights or more. Throws a RangeError for fewer than two
 * nights with a catch and counts that are not whole.
 *
 * @example
 * monitoring.guidanceOfPassed({ nights: [{ bypass: 30, turbine: 8 }, { bypass: 20, turbine: 12 }],
 *   gear: { bypass: { estimate: 0.95, standardError: 0.01 }, turbine: { estimate: 0.8, standardError: 0.02 } } }).estimate
 * // => 0.6780
 */
export function guidanceOfPassed({
  nights,
  gear = perfectNets,
  level = 0.95,
}: {
  readonly nights: readonly NightCatch[];
  /** Taken to hold every fish where it is not given. */
  readonly gear?: GearEfficiencies;
  readonly level?: number;
}): Guidance {
  const where = "monitoring.guidanceOfPassed";
  checkLevel(where, level);
  nights.forEach(({ bypass, turbine }, at) => {
    checkWhole(where, `nights[${at}].bypass`, bypass, 0);
    checkWhole(where, `nights[${at}].turbine`, turbine, 0);
  });
  const { move, error } = gearMove(where, gear);
  const caught = nights.filter(({ bypass, turbine }) => bypass + turbine > 0);
  if (caught.length < 2)
    refuse(where, `${caught.length} nights have a catch; the spread between nights needs at least 2`);
  const ofCatch = clusteredInterval({
    clusters: caught.map(({ bypass, turbine }) => ({ successes: bypass, trials: bypass + turbine })),
    level,
  });
  const [middle, low, high] = [ofCatch.estimate, ofCatch.lower, ofCatch.upper].map(
    (share) => logit(share) - move,
  );
  const gearReach = normalQuantile((1 + level) / 2) * error;
  // Where all fish took one way the logit has no end, and the interval's other limit stands by itself.
  const widened = (limit: number, sign: 1 | -1): number =>
    Number.isFinite(middle)
      ? middle + sign * Math.hypot(limit - middle, gearReach)
      : Number.isFinite(limit)
        ? limit + sign * gearReach
        : limit;
  return {
    method,
    denominator: "fish that passed, by bypass or turbine; refusals are seen in neither net",
    estimate: expit(middle),
    lower: expit(widened(low, -1)),
    upper: expit(widened(high, 1)),
    level,
    bypass: sumOf(caught, ({ bypass }) => bypass),
    turbine: sumOf(caught, ({ turbine }) => turbine),
    ofCatch,
  };
}

/** Guidance of one length class of one species. */
export interface GuidanceOfClass extends Guidance {
  readonly plant: string;
  readonly species: string;
  readonly lengthFrom: CatchRow["lengthFrom"];
  readonly lengthTo: CatchRow["lengthTo"];
}

/**
 * Guidance of those that passed, for each species and length class of the wild fish at a plant.
 *
 * Returns one entry for each class that was caught on two nights or more, in the order of species and length; `thin` holds
 * the classes caught on fewer. Throws a RangeError where no row fits.
 *
 * @example
 * monitoring.guidanceByClass(catches.rows, { plant: "Halvern Weir",
 *   gear: monitoring.gearEfficiencies(catches.rows, { plant: "Halvern Weir" }) }).classes
 */
export function guidanceByClass(
  rows: readonly CatchRow[],
  {
    plant,
    gear = perfectNets,
    level = 0.95,
  }: { readonly plant: string; readonly gear?: GearEfficiencies; readonly level?: number },
): {
  readonly classes: readonly GuidanceOfClass[];
  readonly thin: readonly Pick<GuidanceOfClass, "species" | "lengthFrom" | "lengthTo">[];
} {
  const wild = someChosen("monitoring.guidanceByClass", rows, { plant, group: "wild" });
  const order = [...new Set(wild.map(({ species }) => species))];
  const found = [
    ...grouped(wild, ({ species, lengthFrom, lengthTo }) => `${species} ${lengthFrom} ${lengthTo}`).values(),
  ].toSorted(
    ([one], [other]) =>
      order.indexOf(one.species) - order.indexOf(other.species) || one.lengthFrom - other.lengthFrom,
  );
  const parts = found.map((some) => ({
    id: { species: some[0].species, lengthFrom: some[0].lengthFrom, lengthTo: some[0].lengthTo },
    nights: nightCatches(some),
  }));
  return {
    classes: parts
      .filter(({ nights }) => nights.length >= 2)
      .map(({ id, nights }) => ({ plant, ...id, ...guidanceOfPassed({ nights, gear, level }) })),
    thin: parts.filter(({ nights }) => nights.length < 2).map(({ id }) => id),
  };
}

/** The catch of both nets, night by night; nights without a catch are left out. */
function nightCatches(rows: readonly CatchRow[]): NightCatch[] {
  return [...byNight(rows).values()]
    .map((night) => ({
      bypass: sumOf(chosen(night, { net: "bypass" }), ({ caught }) => caught),
      turbine: sumOf(chosen(night, { net: "turbine" }), ({ caught }) => caught),
    }))
    .filter(({ bypass, turbine }) => bypass + turbine > 0);
}

/**
 * What a protection of the laboratory lets expect among the fish that passed.
 *
 * Returns φ(1 − r)/(φ(1 − r) + 1 − φ), 0..1: protected fish are those that the rack held back, and a share r of them turns
 * round and is seen in neither net. With r = 0 it is the protection itself. Throws a RangeError for shares outside 0..1.
 *
 * @example
 * monitoring.guidanceFromProtection({ protection: 0.8, turningRound: 0.1 }) // => 0.7826
 */
export function guidanceFromProtection({
  protection,
  turningRound,
}: {
  readonly protection: number;
  readonly turningRound: number;
}): number {
  const where = "monitoring.guidanceFromProtection";
  checkNumber(where, "protection", protection, { atLeast: 0, atMost: 1 });
  checkNumber(where, "turningRound", turningRound, { atLeast: 0, below: 1 });
  const bypassed = protection * (1 - turningRound);
  return bypassed / (bypassed + (1 - protection));
}
