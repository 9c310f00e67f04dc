import type { DimensionName } from "./dimension";
import { type UnitName, units } from "./unit";

/** Spellings that differ from the printed symbol by more than its raised digits and its sign of degrees. */
const otherSpellings: Readonly<Record<string, UnitName>> = {
  "l/s": "Lps",
  l: "L",
  "1/min": "rpm",
};

/** m³/s, m3/s and m^3/s are one spelling; so are ° and deg, °C and degC. */
function plain(symbol: string): string {
  return symbol.normalize("NFKC").replace(/[\s^]/g, "").replace("°", "deg");
}

const names = Object.keys(units) as UnitName[]; // the keys of a constant object

/** The units of a dimension, in the order in which they are declared. */
function unitsOf(dimension: DimensionName): UnitName[] {
  return names.filter((name) => units[name].dimension === dimension);
}

/** The unit of a dimension that a header spells, or undefined: upper and lower case matter, as in MW and mW. */
export function unitSpelled(text: string, dimension: DimensionName): UnitName | undefined {
  const wanted = plain(text);
  const other = Object.hasOwn(otherSpellings, wanted) ? otherSpellings[wanted] : undefined;
  if (other !== undefined && units[other].dimension === dimension) return other;
  return unitsOf(dimension).find((name) => plain(units[name].symbol) === wanted || name === wanted);
}

/** The dimension of a unit, whatever it is; undefined if no unit is spelled like this. */
export function dimensionSpelled(text: string): DimensionName | undefined {
  const wanted = plain(text);
  return names.map((name) => units[name]).find(({ symbol }) => plain(symbol) === wanted)?.dimension;
}

/** How a keyboard writes a unit: m3/s, deg. */
export function keyboardSpelling(unit: UnitName): string {
  return plain(units[unit].symbol);
}

/** The units that a header may name for a dimension, as a keyboard writes them: "m, cm, mm or km". */
export function spellingsOf(dimension: DimensionName): string {
  const spellings = unitsOf(dimension).map(keyboardSpelling);
  return spellings.length === 1
    ? spellings[0]
    : `${spellings.slice(0, -1).join(", ")} or ${spellings[spellings.length - 1]}`;
}
