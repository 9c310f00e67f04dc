import { units } from "../../quantity/unit";

const symbols = [...new Set(Object.values(units).map(({ symbol }) => symbol)), "%"]
  // Longer ones first: m/s is not a metre with something behind it.
  .toSorted((a, b) => b.length - a.length);
const numberAndUnit = new RegExp(`(\\d) (?=(?:${symbols.join("|")})(?![\\p{L}\\p{N}/]))`, "gu");

/** Puts no-break spaces where a line must not end: between a number and its unit, and in "at most 45°". */
export const tied = (text: string): string =>
  text.replace(numberAndUnit, "$1\u00a0").replace(/\b(at) (most|least) (?=-?\d)/g, "$1\u00a0$2\u00a0");
