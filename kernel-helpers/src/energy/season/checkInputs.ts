import { relativeWidth } from "../../fish/body";
import { checkNumber } from "../../formula/check";
import { length, mass, number, ratio } from "../../formula/input";
import { format } from "../../quantity/format";
import type { LengthClass } from "./populations";
import { checkEffectiveness } from "./routeShares";
import type { SeasonInputs } from "./seasonSurvival";

/** One species, its classes ready for the loop: everything that no day changes. */
export interface PlannedSpecies {
  readonly species: string;
  readonly classes: readonly LengthClass[];
  /** Share of each class in the species' fish. */
  readonly share: Float64Array;
  /** Mass of one fish in kg; not a number where the classes have none. */
  readonly mass: Float64Array;
  readonly protection: Float64Array;
  readonly protectedSurvival: Float64Array;
}

const share = ratio("S", {});
const lengthInput = length("L", { above: 0, unit: "mm" });
const massInput = mass("W", { above: 0, unit: "g" });
const countInput = number("n", { atLeast: 0 });
const isCount = (value: number): boolean => Number.isFinite(value) && value >= 0;

/** Refuses what the season can't be computed with; returns the species with their classes laid out. */
export function checkInputs(where: string, inputs: SeasonInputs): readonly PlannedSpecies[] {
  const { clearSpacing, protection, protectedSurvival } = inputs;
  checkNumber(where, "clearSpacing", clearSpacing, lengthInput);
  checkNumber(where, "bypassSurvival", inputs.bypassSurvival, share);
  checkNumber(where, "weirSurvival", inputs.weirSurvival, share);
  checkEffectiveness(where, inputs);
  checkMigration(where, inputs);
  return inputs.species.map((one) => {
    const law = "of" in protection ? protection.of(one.species) : protection;
    const classes = checkClasses(where, one.species, one.classes);
    const all = classes.reduce((sum, { count }) => sum + count, 0);
    const of = (name: string, value: (one: LengthClass) => number): Float64Array =>
      Float64Array.from(classes, (fish) =>
        checkNumber(
          where,
          `${name} of ${one.species} at ${format(fish.totalLength, "mm")}`,
          value(fish),
          share,
        ),
      );
    return {
      species: one.species,
      classes,
      share: Float64Array.from(classes, ({ count }) => count / all),
      mass: Float64Array.from(classes, (fish) => fish.mass ?? Number.NaN),
      // The checked call refuses a body ratio outside 0 to 1.
      protection: of("protection", ({ totalLength }) =>
        law(relativeWidth({ totalLength, widthRatio: one.bodyRatio, clearSpacing })),
      ),
      protectedSurvival: of("protectedSurvival", ({ totalLength }) =>
        typeof protectedSurvival === "number" ? protectedSurvival : protectedSurvival(totalLength),
      ),
    };
  });
}

function checkClasses(
  where: string,
  species: string,
  classes: readonly LengthClass[],
): readonly LengthClass[] {
  classes.forEach(({ totalLength, count, mass: one }, at) => {
    const label = (name: string): string => `${name} of classes[${at}] of ${species}`;
    checkNumber(where, label("totalLength"), totalLength, lengthInput);
    checkNumber(where, label("count"), count, countInput);
    if (one !== undefined) checkNumber(where, label("mass"), one, massInput);
    if ((one === undefined) !== (classes[0].mass === undefined))
      throw new RangeError(
        `${where}: ${species} has masses for some classes only; give one for every class or none.`,
      );
  });
  if (!classes.some(({ count }) => count > 0))
    throw new RangeError(`${where}: ${species} has no fish in its length classes.`);
  return classes.filter(({ count }) => count > 0);
}

function checkMigration(where: string, { days, migration, species }: SeasonInputs): void {
  const dates = new Map(days.map((day) => [day.date, day]));
  const names = new Set<string>();
  for (const one of species) {
    if (names.has(one.species))
      throw new RangeError(
        `${where}: species has ${one.species} twice; put all its length classes into one entry.`,
      );
    names.add(one.species);
  }
  let fish = 0;
  for (const { date, species: name, byDay, byNight } of migration) {
    // The label is written only where it is needed: a record may have very many rows.
    if (!isCount(byDay)) checkNumber(where, `byDay of ${name} on ${date}`, byDay, countInput);
    if (!isCount(byNight)) checkNumber(where, `byNight of ${name} on ${date}`, byNight, countInput);
    const day = dates.get(date);
    if (day === undefined)
      throw new RangeError(
        `${where}: ${name} come on ${date}, a day that the operation does not have; ` +
          "cut the migration to the days of the flow record, for example with energy.inYear.",
      );
    if (!names.has(name))
      throw new RangeError(
        `${where}: ${name} come on ${date}, but species has no length classes for them; it has ${[...names].join(", ")}.`,
      );
    if (day.riverFlow === 0 && byDay + byNight > 0)
      throw new RangeError(
        `${where}: ${byDay + byNight} ${name} come on ${date}, when no water flows: fish have no way past the plant.`,
      );
    fish += byDay + byNight;
  }
  if (fish === 0) throw new RangeError(`${where}: no fish come in the season; give at least one migrant.`);
}
