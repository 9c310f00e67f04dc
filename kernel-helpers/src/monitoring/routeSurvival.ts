import { refuse } from "../statistics/checks";
import { clusterBootstrap } from "../statistics/clustering/clusterBootstrap";
import type { CatchRow, Group, Net } from "./catchRecord";
import { aliveAtOnce, aliveLater, byNight, type CatchChoice, chosen, someChosen, sumOf } from "./nights";
import { type RelativeSurvival, relativeSurvival, type Survivors } from "./relativeSurvival";

/** What the survivors are counted against. */
export type SurvivalDenominator = "caught" | "released";

/** Survival of fish on one way past the rack, relative to fish that only met the net and the hands. */
export interface RouteSurvival {
  readonly net: Net;
  readonly group: Exclude<Group, "control">;
  readonly denominator: string;
  readonly atOnce: RelativeSurvival;
  readonly after96h: RelativeSurvival;
  /** Survival from the net to 96 hours later, of those alive in the net. */
  readonly later: RelativeSurvival;
  /** Share of all deaths on the way that came after the net; undefined where deaths on the way are not told from none. */
  readonly delayedShare: DelayedShare | undefined;
  readonly cautions: readonly string[];
}

export interface DelayedShare {
  readonly method: "cluster bootstrap of nights, percentiles";
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
  readonly level: number;
  readonly seed: number;
}

const denominators: Readonly<Record<SurvivalDenominator, string>> = {
  caught: "fish caught: dead and living ones are taken to be held alike",
  released:
    "fish released: nets are taken to hold treated and control fish alike, and who got lost counts as dead",
};

/**
 * Survival on the way through bypass or turbine, at once and after 96 hours, corrected by control fish.
 *
 * Returns `relativeSurvival` of both, of the time between them, and the delayed share of all deaths. Nights are the
 * clusters. `group: "wild"` compares wild fish, of whatever size, with the same control. `denominator` names what the
 * survivors are counted against. Estimates above 1 are shown as they are. Valid where treated and control fish are alike
 * and were handled alike. Throws a RangeError where no row fits.
 *
 * @example
 * monitoring.routeSurvival(catches.rows, { plant: "Halvern Weir", net: "turbine", species: "roach", seed: 13 })
 */
export function routeSurvival(
  rows: readonly CatchRow[],
  {
    net,
    plant,
    species,
    group = "treated",
    denominator = "caught",
    level = 0.95,
    seed,
    resamples = 1000,
  }: {
    readonly net: Net;
    readonly plant?: string;
    readonly species?: string;
    readonly group?: "treated" | "wild";
    readonly denominator?: SurvivalDenominator;
    readonly level?: number;
    /** Seed of the delayed share's interval. */
    readonly seed: number;
    readonly resamples?: number;
  },
): RouteSurvival {
  const where = "monitoring.routeSurvival";
  if (!Object.hasOwn(denominators, denominator))
    refuse(where, `denominator is "${String(denominator)}"; it must be "caught" or "released"`);
  if (group === "wild" && denominator === "released")
    refuse(where, 'wild fish are not released; their denominator is "caught"');
  const choice = { net, plant, species };
  const treated = someChosen(where, rows, { ...choice, group });
  const control = someChosen(where, rows, { ...choice, group: "control" });
  const fishOf = ({ caught, released = 0 }: CatchRow): number =>
    denominator === "caught" ? caught : released;
  const relative = (aliveOf: (row: CatchRow) => number, ofFish = fishOf): RelativeSurvival =>
    relativeSurvival({
      treated: nightly(treated, aliveOf, ofFish),
      control: nightly(control, aliveOf, ofFish),
      level,
    });
  const atOnce = relative(aliveAtOnce);
  const after96h = relative(aliveLater);
  const isTold = after96h.upper < 1;
  return {
    net,
    group,
    denominator: denominators[denominator],
    atOnce,
    after96h,
    later: relative(aliveLater, aliveAtOnce),
    delayedShare: isTold
      ? delayedShareOf([...treated, ...control], { group, fishOf, level, seed, resamples })
      : undefined,
    cautions: [
      ...atOnce.cautions.map((caution) => `At once: ${caution}`),
      ...after96h.cautions.map((caution) => `After 96 h: ${caution}`),
      ...(isTold
        ? []
        : ["Where deaths on a way are not told from none, nothing can be said about their delayed share."]),
    ],
  };
}

/** Survivors of the rows, night by night. */
function nightly(
  rows: readonly CatchRow[],
  aliveOf: (row: CatchRow) => number,
  fishOf: (row: CatchRow) => number,
): Survivors[] {
  return [...byNight(rows)].map(([night, some]) => ({
    night,
    alive: sumOf(some, aliveOf),
    fish: sumOf(some, fishOf),
  }));
}

const countsOf = (rows: readonly CatchRow[], fishOf: (row: CatchRow) => number) => ({
  fish: sumOf(rows, fishOf),
  once: sumOf(rows, aliveAtOnce),
  later: sumOf(rows, aliveLater),
});

function delayedShareOf(
  rows: readonly CatchRow[],
  {
    group,
    fishOf,
    level,
    seed,
    resamples,
  }: {
    readonly group: Group;
    readonly fishOf: (row: CatchRow) => number;
    readonly level: number;
    readonly seed: number;
    readonly resamples: number;
  },
): DelayedShare | undefined {
  const nights = [...byNight(rows).values()].map((night) => {
    return {
      treated: countsOf(chosen(night, { group }), fishOf),
      control: countsOf(chosen(night, { group: "control" }), fishOf),
    };
  });
  if (nights.length < 2) return undefined;
  const { estimate, lower, upper } = clusterBootstrap({
    clusters: nights,
    level,
    seed,
    resamples,
    statistic(sample) {
      const total = (of: "treated" | "control", what: "fish" | "once" | "later") =>
        sumOf(sample, (night) => night[of][what]);
      const survival = (what: "once" | "later"): number =>
        total("treated", what) /
        total("treated", "fish") /
        (total("control", what) / total("control", "fish"));
      const deaths = 1 - survival("later");
      return deaths > 0 ? 1 - (1 - survival("once")) / deaths : NaN;
    },
  });
  return { method: "cluster bootstrap of nights, percentiles", estimate, lower, upper, level, seed };
}

/** One class of injury in one group. */
export interface InjuryShare {
  readonly plant: string;
  readonly net: Net;
  readonly group: Group;
  readonly nights: number;
  readonly caught: number;
  readonly uninjured: number;
  readonly lightlyInjured: number;
  readonly severelyInjured: number;
  readonly denominator: "fish caught";
}

/**
 * Shares of the catch in each class of injury, for each plant, net and group of fish.
 *
 * Returns one entry for each plant, net and group there is. The shares carry no interval: compare treated with control
 * fish by `monitoring.uninjuredRelative`, which respects nights. Throws a RangeError where no row fits.
 *
 * @example
 * monitoring.injuryShares(catches.rows, { plant: "Halvern Weir", species: "roach" })
 */
export function injuryShares(rows: readonly CatchRow[], choice: CatchChoice = {}): InjuryShare[] {
  const some = someChosen("monitoring.injuryShares", rows, choice);
  const parts = new Map(some.map((row) => [`${row.plant} ${row.net} ${row.group}`, row]));
  return [...parts.values()].map(({ plant, net, group }) => {
    const its = chosen(some, { plant, net, group });
    const caught = sumOf(its, (row) => row.caught);
    return {
      plant,
      net,
      group,
      nights: byNight(its).size,
      caught,
      uninjured: sumOf(its, (row) => row.uninjured) / caught,
      lightlyInjured: sumOf(its, (row) => row.lightlyInjured) / caught,
      severelyInjured: sumOf(its, (row) => row.severelyInjured) / caught,
      denominator: "fish caught",
    };
  });
}

/**
 * Share of fish without injury on the way through bypass or turbine, over that of control fish.
 *
 * Returns `relativeSurvival` with "uninjured" in the place of "alive". Throws a RangeError where no row fits.
 *
 * @example
 * monitoring.uninjuredRelative(catches.rows, { plant: "Halvern Weir", net: "turbine", species: "roach" })
 */
export function uninjuredRelative(
  rows: readonly CatchRow[],
  {
    level = 0.95,
    ...choice
  }: { readonly net: Net; readonly plant?: string; readonly species?: string; readonly level?: number },
): RelativeSurvival {
  const where = "monitoring.uninjuredRelative";
  const counts = (group: Group): Survivors[] =>
    nightly(
      someChosen(where, rows, { ...choice, group }),
      ({ uninjured }) => uninjured,
      ({ caught }) => caught,
    );
  return relativeSurvival({ treated: counts("treated"), control: counts("control"), level });
}
