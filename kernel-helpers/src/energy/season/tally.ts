import type { Length, Mass } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import type { PlannedSpecies } from "./checkInputs";
import type { RouteShares } from "./routeShares";
import type { SeasonLaws } from "./seasonSurvival";

/** Shares of the fish by the way that they take; they sum to 1. */
export interface SeasonRoutes {
  /** Over the weir and down the old river course. */
  readonly weir: number;
  /** Into the bypass with its flow. */
  readonly bypass: number;
  /** Turned away by the rack: guided, or refused. */
  readonly rack: number;
  readonly turbine: number;
}

/** One length class over the season. */
export interface ClassOfSeason {
  readonly totalLength: Length;
  /** Fish of the class that come. */
  readonly migrants: number;
  readonly protection: number;
  /** Of those that pass the turbines; not a number where none does. */
  readonly turbineSurvival: number;
  readonly survival: number;
}

/** Survival of a group of fish over a season. */
interface GroupOfSeason {
  readonly migrants: number;
  readonly survivors: number;
  readonly byNumbers: number;
  /** Undefined where the length classes have no masses. */
  readonly byBiomass: number | undefined;
  readonly biomass: Mass | undefined;
  readonly routes: SeasonRoutes;
}

/** One species over the season. */
export interface SpeciesOfSeason extends GroupOfSeason {
  readonly species: string;
  readonly classes: readonly ClassOfSeason[];
}

/** All fish of a season. */
export interface SurvivalOfSeason extends GroupOfSeason {
  /** The species that come, in the order given. */
  readonly species: readonly SpeciesOfSeason[];
  /** Days with fish, in order of date. */
  readonly days: readonly { readonly date: string; readonly migrants: number; readonly survival: number }[];
  /** Every caution of the laws, once. */
  readonly cautions: readonly string[];
}

/** Fish and mass of a day. */
export interface SeasonTally {
  migrants: number;
  survivors: number;
  biomass: number;
  survivingBiomass: number;
}

/** Fish of one species so far. */
export interface Tally extends SeasonTally {
  weir: number;
  bypass: number;
  atRack: number;
  /** Of each class: that survive, and for the turbines those that pass them and those that survive it. */
  readonly surviving: Float64Array;
  readonly inTurbine: Float64Array;
  readonly throughTurbine: Float64Array;
}

/** Nothing counted yet. */
export const emptyTally = (classes: number): Tally => ({
  migrants: 0,
  survivors: 0,
  biomass: 0,
  survivingBiomass: 0,
  weir: 0,
  bypass: 0,
  atRack: 0,
  surviving: new Float64Array(classes),
  inTurbine: new Float64Array(classes),
  throughTurbine: new Float64Array(classes),
});

/** Adds the fish of a species in one part of one day to its tally and the day's. */
export function addTo({
  tally,
  ofDay,
  fish,
  shares,
  plan,
  turbineSurvival,
  inputs,
}: {
  readonly tally: Tally;
  readonly ofDay: SeasonTally;
  readonly fish: number;
  readonly shares: RouteShares;
  readonly plan: PlannedSpecies;
  readonly turbineSurvival: Float64Array;
  readonly inputs: Pick<SeasonLaws, "weirSurvival" | "bypassSurvival">;
}): void {
  const free = shares.weir * inputs.weirSurvival + shares.bypass * inputs.bypassSurvival;
  let survivors = 0;
  let biomass = 0;
  let survivingBiomass = 0;
  for (let at = 0; at < plan.share.length; at++) {
    const own = fish * plan.share[at];
    const held = plan.protection[at];
    const passing = own * shares.atRack * (1 - held);
    const through = passing * turbineSurvival[at];
    const alive = own * (free + shares.atRack * held * plan.protectedSurvival[at]) + through;
    tally.inTurbine[at] += passing;
    tally.throughTurbine[at] += through;
    tally.surviving[at] += alive;
    survivors += alive;
    biomass += own * plan.mass[at];
    survivingBiomass += alive * plan.mass[at];
  }
  for (const sum of [tally, ofDay]) {
    sum.migrants += fish;
    sum.survivors += survivors;
    sum.biomass += biomass;
    sum.survivingBiomass += survivingBiomass;
  }
  tally.weir += fish * shares.weir;
  tally.bypass += fish * shares.bypass;
  tally.atRack += fish * shares.atRack;
}

/** The season in shares. */
export function summary(
  plan: readonly PlannedSpecies[],
  tallies: readonly Tally[],
  days: ReadonlyMap<string, SeasonTally>,
  cautions: readonly string[],
): SurvivalOfSeason {
  const all = emptyTally(1);
  for (const tally of tallies) {
    for (const key of [
      "migrants",
      "survivors",
      "biomass",
      "survivingBiomass",
      "weir",
      "bypass",
      "atRack",
    ] as const)
      // A species without fish adds nothing, whether or not it has masses.
      all[key] += tally.migrants === 0 ? 0 : tally[key];
    all.inTurbine[0] += tally.inTurbine.reduce((sum, fish) => sum + fish, 0);
  }
  return {
    ...groupOf(all),
    species: plan.flatMap((one, index) =>
      tallies[index].migrants === 0 ? [] : [speciesOf(one, tallies[index])],
    ),
    days: [...days]
      .toSorted(([one], [other]) => (one < other ? -1 : 1))
      .map(([date, day]) => ({ date, migrants: day.migrants, survival: day.survivors / day.migrants })),
    cautions,
  };
}

function groupOf(tally: Tally): GroupOfSeason {
  const { migrants, survivors, biomass } = tally;
  const inTurbine = tally.inTurbine.reduce((sum, fish) => sum + fish, 0);
  const weighed = Number.isFinite(biomass);
  return {
    migrants,
    survivors,
    byNumbers: survivors / migrants,
    byBiomass: weighed ? tally.survivingBiomass / biomass : undefined,
    biomass: weighed ? u.kg(biomass) : undefined,
    routes: {
      weir: tally.weir / migrants,
      bypass: tally.bypass / migrants,
      rack: (tally.atRack - inTurbine) / migrants,
      turbine: inTurbine / migrants,
    },
  };
}

function speciesOf(plan: PlannedSpecies, tally: Tally): SpeciesOfSeason {
  return {
    species: plan.species,
    ...groupOf(tally),
    classes: plan.classes.map(({ totalLength }, at) => {
      const migrants = tally.migrants * plan.share[at];
      return {
        totalLength,
        migrants,
        protection: plan.protection[at],
        turbineSurvival: tally.throughTurbine[at] / tally.inTurbine[at],
        survival: tally.surviving[at] / migrants,
      };
    }),
  };
}
