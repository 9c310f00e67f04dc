import { type DayNumber, dayNumber, isoDate } from "./calendar";
import { csvText } from "./csv";
import { plantFacts } from "./plant";
import { type Draws, seededDraws } from "./random";
import { type DemoSpecies, demoSpecies } from "./species";

/** What the sample is made from, beside the species' own parameters. */
export interface FishLengthsTruth {
  readonly seed: number;
  readonly firstYear: number;
  readonly lastYear: number;
}

/** The true parameters of `fish-lengths.csv` that belong to no species. */
export const fishLengthsTruth: FishLengthsTruth = { seed: 5201, firstYear: 2022, lastYear: 2023 };

/** One sampled fish: length in mm, weight in g. */
export interface SampledFish {
  readonly day: DayNumber;
  readonly species: string;
  readonly totalLength: number;
  readonly weight: number;
}

/**
 * Fish sampled at Halvern Weir in the migration seasons, in order of date.
 *
 * Returns one entry a fish: day number, species, total length in whole mm, weight in g.
 */
export function fishSample(
  truth: FishLengthsTruth = fishLengthsTruth,
  list: readonly DemoSpecies[] = demoSpecies,
): SampledFish[] {
  // One stream a species: a change to one leaves the fish of the others as they were.
  const fish = list.flatMap((species, index) => {
    const draws = seededDraws(truth.seed + index);
    return Array.from({ length: species.count }, () => sampleOne(truth, species, draws));
  });
  // The sort is stable: fish of one day stay in the order of the species list.
  fish.sort((one, other) => one.day - other.day);
  return fish;
}

/** Returns `fish-lengths.csv` as text, one row a fish. */
export function fishLengthsCsv(
  truth: FishLengthsTruth = fishLengthsTruth,
  list: readonly DemoSpecies[] = demoSpecies,
): string {
  const rows = fishSample(truth, list).map((fish, index) => [
    `F${String(index + 1).padStart(4, "0")}`,
    isoDate(fish.day),
    fish.species,
    String(fish.totalLength),
    fish.weight.toFixed(1),
  ]);
  return csvText(["fishId", "date", "species", "totalLength [mm]", "weight [g]"], rows);
}

function sampleOne(truth: FishLengthsTruth, species: DemoSpecies, draws: Draws): SampledFish {
  const day = sampleDay(truth, species, draws);
  const totalLength = sampleLength(species, draws);
  // The weight belongs to the length on record, so that a fit meets no rounding error.
  const weight =
    species.weightCoefficient *
    (totalLength / 10) ** species.weightExponent *
    draws.lognormal(1, species.weightSpread);
  return { day, species: species.species, totalLength, weight };
}

function sampleDay(truth: FishLengthsTruth, species: DemoSpecies, draws: Draws): DayNumber {
  const year = draws.integer(truth.firstYear, truth.lastYear);
  const season = species.seasons[draws.integer(0, species.seasons.length - 1)];
  const first = dayNumber(year, month(`${season}MigrationFirstMonth`), 1);
  const last = dayNumber(year, month(`${season}MigrationLastMonth`) + 1, 0);
  return draws.integer(first, last);
}

/** A length in whole mm from the species' age classes, drawn again outside its limits. */
export function sampleLength(species: DemoSpecies, draws: Draws): number {
  for (;;) {
    const age = species.ageClasses[draws.categorical(species.ageClasses.map(({ share }) => share))];
    const length = Math.round(draws.lognormal(age.medianLength, age.spread));
    if (length >= species.shortest && length <= species.longest) return length;
  }
}

function month(key: string): number {
  const fact = plantFacts.find((candidate) => candidate.key === key);
  if (fact === undefined) throw new Error(`fish-lengths: plant.csv has no fact "${key}".`);
  return fact.value;
}
