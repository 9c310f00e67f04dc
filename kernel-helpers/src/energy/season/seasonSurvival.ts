import { relativeWidth } from "../../fish/body";
import { noteUse } from "../../formula/usage";
import type { Discharge, Length } from "../../quantity/dimension";
import { spillShare } from "../../survival/routes";
import type { ProtectionOfWidth, SurvivalOfLength } from "../../survival/sizeClass";
import { total } from "../../survival/total";
import type { OperatingDay } from "../operation/operation";
import { checkInputs } from "./checkInputs";
import type { MigrationRow } from "./migrationRecord";
import type { MigratingSpecies } from "./populations";
import { type RouteEffectiveness, routesOf } from "./routeShares";
import { addTo, emptyTally, type SeasonTally, summary, type SurvivalOfSeason, type Tally } from "./tally";
import { turbineByFlow } from "./turbineByFlow";

/** What the fish of a season meet. Every survival is a share 0..1. */
export interface SeasonLaws extends RouteEffectiveness {
  readonly clearSpacing: Length;
  /** One law for all species, or the law of each by its name. */
  readonly protection: ProtectionOfWidth | { readonly of: (species: string) => ProtectionOfWidth };
  /** One law at every load, or the law at a unit's flow. */
  readonly turbineSurvival: SurvivalOfLength | { readonly at: (unitFlow: Discharge) => SurvivalOfLength };
  /** Of fish that the rack turns away: guided to the bypass, or refused. An assumption to state. */
  readonly protectedSurvival: number | SurvivalOfLength;
  /** Of fish that enter the bypass with its flow. An assumption to state. */
  readonly bypassSurvival: number;
  /** Of fish over the weir. An assumption to state. */
  readonly weirSurvival: number;
}

/** What `seasonSurvival` takes. */
export interface SeasonInputs extends SeasonLaws {
  /** The days of `energy.operation`. */
  readonly days: readonly OperatingDay[];
  /** The fish of each species and day, all of them on days of `days`. */
  readonly migration: readonly Pick<MigrationRow, "date" | "species" | "byDay" | "byNight">[];
  readonly species: readonly MigratingSpecies[];
}

const where = "energy.seasonSurvival";

/**
 * Survival of the fish of a season, day by day as they come.
 *
 * Returns survival by numbers and by biomass, shares of the fish by their ways, the same for every species and length
 * class, and each day's fish and survival. Each day's fish part between weir, bypass and rack as the flows of that day
 * and night do; at the rack protection by relative width parts those that are turned away from those that pass the
 * turbines, whose survival is that at the units' flow. Valid where the sample's length classes stand for the fish of every
 * day. Throws a RangeError for migrants on a day without operation, of a species that has no length classes, or on a day
 * without any water, for laws that give anything but a share, and for an empty season.
 *
 * @example
 * energy.seasonSurvival({ days: energy.operation({ record: [{ date: "2026-10-05", discharge: u.m3ps(40) }],
 *   units: [energy.efficiencyCurve([{ discharge: u.m3ps(4), efficiency: 0.9 }, { discharge: u.m3ps(28), efficiency: 0.9 }])],
 *   residualFlow: u.m3ps(2.5), bypassFlow: u.m3ps(2), grossHead: u.m(5.4), channelWidth: u.m(17),
 *   channelDepth: u.m(3.6), rackLoss: () => u.m(0) }).days,
 *   migration: [{ date: "2026-10-05", species: "eel", byDay: 0, byNight: 100 }],
 *   species: [{ species: "eel", bodyRatio: 0.03, classes: [{ totalLength: u.mm(700), count: 1 }] }],
 *   clearSpacing: u.mm(35), protection: protection.rampLaw({ threshold: 0.2, exponent: 1 }), turbineSurvival: () => 0.6,
 *   protectedSurvival: 0.98, bypassSurvival: 1, weirSurvival: 1 }).byNumbers // => 0.853
 */
export function seasonSurvival(inputs: SeasonInputs): SurvivalOfSeason {
  const plan = checkInputs(where, inputs);
  for (const { id } of [relativeWidth, spillShare, total]) noteUse(id);
  const turbine = turbineByFlow(where, inputs.turbineSurvival, plan);
  const tallies = plan.map((one) => emptyTally(one.classes.length));
  const days = new Map<string, SeasonTally>();
  const byDate = new Map(inputs.days.map((day) => [day.date, day]));
  const at = new Map(plan.map((one, index) => [one.species, index]));

  for (const { date, species, byDay, byNight } of inputs.migration) {
    const index = at.get(species);
    const day = byDate.get(date);
    // checkInputs has refused rows whose day or species is unknown.
    if (index === undefined || day === undefined || byDay + byNight === 0) continue;
    const ofDay = days.get(date) ?? { migrants: 0, survivors: 0, biomass: 0, survivingBiomass: 0 };
    days.set(date, ofDay);
    const turbineSurvival = turbine(day, index);
    for (const part of ["day", "night"] as const) {
      const fish = part === "day" ? byDay : byNight;
      if (fish === 0) continue;
      const turbineFlow = day.stopped[part] ? 0 : day.turbineFlow;
      const weirFlow = day.riverFlow - day.bypassFlow - turbineFlow;
      const shares = routesOf(Math.max(0, weirFlow), day.bypassFlow, turbineFlow, inputs);
      addTo({ tally: tallies[index], ofDay, fish, shares, plan: plan[index], turbineSurvival, inputs });
    }
  }
  return summary(plan, tallies as readonly Tally[], days, cautionsOf(inputs));
}

function cautionsOf({
  protection,
  turbineSurvival,
  species,
  bypassEffectiveness = 1,
}: SeasonInputs): string[] {
  const laws = "of" in protection ? species.map((one) => protection.of(one.species)) : [protection];
  const lengths = species.flatMap(({ classes }) => classes.map(({ totalLength }) => totalLength));
  const turbine = "at" in turbineSurvival ? undefined : turbineSurvival.cautions;
  return [
    ...new Set([
      ...laws.flatMap((law) => law.cautions ?? []),
      ...(turbine === undefined ? [] : lengths.flatMap((totalLength) => turbine(totalLength))),
      ...total.cautions({ protection: 0, turbineSurvival: 0, protectedSurvival: 0 }),
      ...(bypassEffectiveness === 0 ? [] : [countedTwice]),
    ]),
  ];
}

const countedTwice =
  "energy.seasonSurvival: fish enter the bypass with its flow before the rack turns any away; where the protection comes " +
  "from trials with an open bypass its guided fish are counted in it already: give bypassEffectiveness 0.";
