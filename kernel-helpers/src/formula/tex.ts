import type { UnitName } from "../quantity/unit";
import type { ResultSpec } from "./formula";
import { type InputSpec, type Kind, printValue, words } from "./input";

/** Turns a printed value into LaTeX: "18 mm" gives 18\,\mathrm{mm}. */
const valueTex = (text: string): string => {
  const [, number = text, unit = ""] = /^(-?[\d.\u2009]+(?:·10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)?)\s?(.*)$/.exec(text) ?? [];
  const digits = number
    .replaceAll("\u2009", "\\,")
    .replace(/·10([⁻⁰-⁹¹²³]+)/u, (_, power: string) => `\\cdot 10^{${plainDigits(power)}}`);
  if (unit === "") return digits;
  if (unit === "°") return `${digits}^\\circ`;
  return `${digits}\\,\\mathrm{${unit.replace("°", "^\\circ ").replace("²", "^2").replace("³", "^3")}}`;
};

/** A value with its unit in LaTeX. */
export const quantityTex = (value: number, kind: Kind, unit?: UnitName): string =>
  // Four digits: three would show the 187.5 rpm that somebody typed as 188 rpm.
  valueTex(printValue(value, kind, unit, 4));

// A template writes U^2 whatever stands for U. Numbers go in between these two private-use characters, so that
// afterwards (0.6 m/s)² can get the brackets that a power, or a sign, asks for.
const numberStart = "\uE000";
const numberEnd = "\uE001";

/** A number that is to be filled into a template. */
export const marked = (number: string): string => `${numberStart}${number}${numberEnd}`;

/** Takes the marks away; brackets a number with unit or power of ten before an exponent, and a negative one anywhere. */
export const bracketNumbers = (tex: string): string =>
  tex.replace(
    new RegExp(`${numberStart}([^${numberStart}${numberEnd}]*)${numberEnd}(}?\\s*\\^(?!\\\\circ))?`, "g"),
    (_, number: string, power: string | undefined) => {
      const bracket = number.startsWith("-") || (power !== undefined && !/^[\d.]+$/.test(number));
      return (bracket ? `\\left(${number}\\right)` : number) + (power ?? "");
    },
  );

const plainDigits = (raised: string): string =>
  [...raised].map((digit) => (digit === "⁻" ? "-" : String("⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(digit)))).join("");

/** An input, or a list of them, to be filled into a template. */
export function inputTex(value: number | readonly number[], spec: InputSpec): string {
  const print = (one: number) => marked(quantityTex(one, spec.kind, spec.unit));
  return typeof value === "number" ? print(value) : value.map(print).join(",\\;");
}

/** A result; the parts of one that has several, each with its name. */
export function resultTex(
  value: number | Readonly<Record<string, number>>,
  result: ResultSpec,
  unit?: UnitName,
): string {
  if (typeof value === "number")
    return quantityTex(value, typeof result === "string" ? result : "number", unit);
  return Object.entries(value)
    .map(([part, one]) => {
      const kind = typeof result === "string" ? result : (result[part] ?? "number");
      return `\\text{${words(part)}: }${quantityTex(one, kind)}`;
    })
    .join(",\\;");
}
