import { practice, type Source } from "../formula/source";

/** What the calculations need to know about a species. Lengths are total lengths. */
export interface FishSpecies {
  readonly name: string;
  /** Greatest body width over total length. */
  readonly widthRatio: number;
  /** Greatest body height over total length. */
  readonly heightRatio: number;
  /** Whether it turns on its side to pass a horizontal gap; if not, it meets the gap with its height. */
  readonly turnsOnSide: boolean;
  /** a of the weight relation a·L^b in grams and centimetres. */
  readonly weightCoefficient: number;
  /** b of the weight relation. */
  readonly weightExponent: number;
  readonly source: Source;
}

const magnitude = practice("invented for the demo plant, of common-practice magnitude; measure your fish");

const demoFish = (
  name: string,
  [widthRatio, heightRatio]: readonly [number, number],
  turnsOnSide: boolean,
  [weightCoefficient, weightExponent]: readonly [number, number],
): FishSpecies => ({
  name,
  widthRatio,
  heightRatio,
  turnsOnSide,
  weightCoefficient,
  weightExponent,
  source: magnitude,
});

/** The seven species of the demo plant. Change or add one with `fish.withSpecies`. */
export const speciesTable: readonly FishSpecies[] = [
  demoFish("roach", [0.11, 0.26], true, [0.01, 3.1]),
  demoFish("grayling", [0.1, 0.2], true, [0.0085, 3.05]),
  demoFish("ide", [0.11, 0.25], true, [0.011, 3.06]),
  demoFish("perch", [0.12, 0.25], false, [0.011, 3.1]),
  demoFish("bleak", [0.09, 0.19], true, [0.008, 3.03]),
  demoFish("burbot", [0.11, 0.13], false, [0.006, 3.02]),
  demoFish("silver eel", [0.03, 0.06], true, [0.001, 3.15]),
];

/**
 * Finds a species by name.
 *
 * Returns its entry in the table, the demo plant's unless another is given. Throws a RangeError that lists the known
 * names where there is none.
 *
 * @example
 * fish.species("silver eel").widthRatio // => 0.03
 */
export function species(name: string, table: readonly FishSpecies[] = speciesTable): FishSpecies {
  const found = table.find((entry) => entry.name === name);
  if (found !== undefined) return found;
  const known = table.map((entry) => entry.name).join(", ");
  throw new RangeError(`fish.species: there is no species "${name}"; the table has ${known}.`);
}

/**
 * Adds a species to a table, or replaces the one of the same name.
 *
 * Returns a new table; the given one stays as it is. Throws a RangeError for ratios outside 0 to 1 and for weight
 * numbers that are not positive.
 *
 * @example
 * fish.withSpecies(fish.speciesTable, { ...fish.species("roach"), widthRatio: 0.12 })[0].widthRatio // => 0.12
 */
export function withSpecies(table: readonly FishSpecies[], entry: FishSpecies): readonly FishSpecies[] {
  checkSpecies(entry);
  return table.some((known) => known.name === entry.name)
    ? table.map((known) => (known.name === entry.name ? entry : known))
    : [...table, entry];
}

/**
 * The ratio that a fish meets a horizontal gap with: its width if it turns on its side, else its height.
 *
 * Returns a plain number, body measure over total length.
 *
 * @example
 * fish.gapRatio(fish.species("burbot")) // => 0.13
 */
export const gapRatio = (entry: FishSpecies): number =>
  entry.turnsOnSide ? entry.widthRatio : entry.heightRatio;

function checkSpecies(entry: FishSpecies): void {
  const refuse = (what: string, value: unknown, allowed: string): never => {
    throw new RangeError(`fish.withSpecies: ${what} of "${entry.name}" is ${String(value)}; ${allowed}.`);
  };
  if (entry.name.trim() === "") refuse("the name", '""', "give the species a name");
  for (const key of ["widthRatio", "heightRatio"] as const) {
    if (!(entry[key] > 0 && entry[key] <= 1)) refuse(key, entry[key], "it must be above 0 and at most 1");
  }
  for (const key of ["weightCoefficient", "weightExponent"] as const) {
    if (!(entry[key] > 0 && Number.isFinite(entry[key]))) refuse(key, entry[key], "it must be above 0");
  }
}
