import { gapRatio, species as speciesOf, type FishSpecies, speciesTable } from "../../fish/species";
import { checkNumber } from "../../formula/check";
import { length } from "../../formula/input";
import type { Length, Mass } from "../../quantity/dimension";
import { u } from "../../quantity/u";

/** Fish of one length class of a species. */
export interface LengthClass {
  /** The length that stands for the class. */
  readonly totalLength: Length;
  /** Fish of the class in the sample, or any number in proportion to it. */
  readonly count: number;
  /** Mean mass of one fish of the class; all classes have one, or none. */
  readonly mass?: Mass;
}

/** One species as it comes to the plant: its body at the gap and its length classes. */
export interface MigratingSpecies {
  readonly species: string;
  /** What the fish meets the gap with, over its total length. */
  readonly bodyRatio: number;
  readonly classes: readonly LengthClass[];
}

/** A measured fish of a sample. */
export interface SampledFish {
  readonly species: string;
  readonly totalLength: Length;
  readonly weight: Mass;
}

const where = "energy.populations";
const lengthInput = length("L", { above: 0, unit: "mm" });

/**
 * Length classes of every species in a sample of measured fish.
 *
 * Returns one entry a species, in the order in which they first come: what it meets the gap with, and its classes, each
 * with its middle length, the fish in it and their mean mass. Valid where the sample stands for the fish that migrate.
 * Throws a RangeError for a sample without fish, a class width that is not above 0 and a species that is not in the table.
 *
 * @example
 * energy.populations({ sample: [{ species: "roach", totalLength: u.mm(94), weight: u.g(10) },
 *   { species: "roach", totalLength: u.mm(98), weight: u.g(12) }] })[0].classes[0].mass // => 11 g
 */
export function populations({
  sample,
  classWidth = u.mm(10),
  table = speciesTable,
}: {
  readonly sample: readonly SampledFish[];
  readonly classWidth?: Length;
  readonly table?: readonly FishSpecies[];
}): readonly MigratingSpecies[] {
  checkNumber(where, "classWidth", classWidth, lengthInput);
  if (sample.length === 0) throw new RangeError(`${where}: the sample has no fish.`);
  const groups = new Map<string, Map<number, { count: number; mass: number }>>();
  for (const [at, fish] of sample.entries()) {
    checkNumber(where, `the totalLength of sample[${at}]`, fish.totalLength, lengthInput);
    const classes = groups.get(fish.species) ?? new Map<number, { count: number; mass: number }>();
    groups.set(fish.species, classes);
    // A hair over, so that 120 mm opens its class of 10 mm though 0.12/0.01 is 11.999….
    const index = Math.floor(fish.totalLength / classWidth + 1e-9);
    const one = classes.get(index) ?? { count: 0, mass: 0 };
    classes.set(index, { count: one.count + 1, mass: one.mass + fish.weight });
  }
  return [...groups].map(([name, classes]) => ({
    species: name,
    bodyRatio: gapRatio(speciesOf(name, table)),
    classes: [...classes]
      .toSorted(([one], [other]) => one - other)
      .map(([index, { count, mass }]) => ({
        totalLength: u.m((index + 0.5) * classWidth),
        count,
        mass: u.kg(mass / count),
      })),
  }));
}
