import type { PlainNumber, Quantity } from "./dimension";
import { u } from "./u";
import { type DimensionOf, type UnitName, units } from "./unit";

/**
 * Prints a plain number as the trade does: three significant digits unless told otherwise, whole digits never
 * rounded away, thousands apart by a thin space.
 *
 * @example
 * formatNumber(0.0071849) // => "0.00718"
 */
export function formatNumber(value: PlainNumber, digits = 3): string {
  if (!Number.isFinite(value)) return String(value);
  if (value === 0) return "0";
  const whole = Math.floor(Math.log10(Math.abs(value))) + 1;
  const text =
    whole > digits
      ? Math.round(value).toString()
      : Math.abs(value) < 1e-4
        ? value.toExponential(digits - 1)
        : Number(value.toPrecision(digits)).toFixed(Math.max(0, Math.min(100, digits - whole)));
  if (text.includes("e")) {
    const [mantissa = "", exponent = ""] = text.split("e");
    return `${mantissa}·10${superscript(exponent.replace("+", ""))}`;
  }
  const [integer = "", fraction] = text.split(".");
  // Trailing zeros go: 17.0 reads 17, and 0.500 reads 0.5.
  const kept = fraction?.replace(/0+$/, "");
  const grouped = integer.replace(/\B(?=(\d{3})+$)/g, integer.replace("-", "").length > 4 ? "\u2009" : "");
  return kept ? `${grouped}.${kept}` : grouped;
}

function superscript(digits: string): string {
  const raised: Record<string, string> = {
    "-": "⁻",
    0: "⁰",
    1: "¹",
    2: "²",
    3: "³",
    4: "⁴",
    5: "⁵",
    6: "⁶",
    7: "⁷",
    8: "⁸",
    9: "⁹",
  };
  return [...digits].map((digit) => raised[digit] ?? digit).join("");
}

/**
 * Prints a quantity in a unit: `format(u.m(0.018), "mm")` gives "18 mm".
 *
 * `digits` counts significant digits (3 unless told otherwise); whole digits are never rounded away.
 *
 * @example
 * format(u.deg(38), "deg") // => "38°"
 */
export function format<K extends UnitName>(quantity: Quantity<DimensionOf<K>>, unit: K, digits = 3): string {
  const known: boolean = Object.hasOwn(units, unit);
  if (!known) {
    throw new RangeError(
      `format: there is no unit "${unit}"; the units are ${Object.keys(units).join(", ")}.`,
    );
  }
  // The reader of unit K takes a quantity of K's dimension; the compiler can't pair the two for an unknown K.
  const number = (u.to[unit] as (q: number) => number)(quantity);
  return withSymbol(formatNumber(number, digits), units[unit].symbol);
}

/** Puts a unit's symbol behind a printed number: a space between, but none before the sign of degrees. */
export function withSymbol(number: string, symbol: string): string {
  return symbol === "" ? number : symbol === "°" ? `${number}°` : `${number} ${symbol}`;
}

/**
 * Prints a ratio as a percentage: `percent(0.807)` gives "80.7 %".
 *
 * @example
 * percent(0.8071) // => "80.7 %"
 */
export function percent(ratio: PlainNumber, digits = 3): string {
  return `${formatNumber(100 * ratio, digits)} %`;
}
