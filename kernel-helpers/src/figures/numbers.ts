import { formatNumber, withSymbol } from "../quantity/format";
import { u } from "../quantity/u";
import { type UnitName, units } from "../quantity/unit";

/** Numbers in a row, in SI units. */
export type Numbers = ArrayLike<number>;

/**
 * A unit of the course such as "cm", into which SI numbers are turned; "%" for ratios; or any other text, shown as it
 * is, with its numbers.
 */
export type ShownUnit = UnitName | "%" | (string & {});

function isUnitName(unit: string): unit is UnitName {
  return Object.hasOwn(units, unit);
}

/** The symbol that stands in an axis title. */
export function symbolOf(unit: ShownUnit): string {
  return isUnitName(unit) ? units[unit].symbol : unit;
}

/** SI numbers, or ratios for "%", in the unit they are shown in. Numbers that are not finite become gaps. */
export function shown(values: Numbers, unit: ShownUnit): (number | null)[] {
  // A table of readers, one a unit, takes the number that its own dimension's brand was put on.
  const read = isUnitName(unit)
    ? (u.to[unit] as (value: number) => number)
    : (value: number) => (unit === "%" ? 100 * value : value);
  return Array.from(values, (value) => (Number.isFinite(value) ? read(value) : null));
}

/** One SI number with its unit, as a sentence has it. */
export function said(value: number, unit: ShownUnit, digits = 3): string {
  const [number] = shown([value], unit);
  return number === null ? "no value" : withSymbol(formatNumber(number, digits), symbolOf(unit));
}

/** Names in a sentence: "a, b and c". */
export function listed(names: readonly string[]): string {
  return names.length < 2
    ? names.join("")
    : `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;
}

/** Places of the finite numbers. */
function finitePlaces(values: Numbers): number[] {
  return Array.from(values, (_, i) => i).filter((i) => Number.isFinite(values[i]));
}

/** An axis in words: its values, their unit, and the digits that a sentence needs. */
export interface Said {
  readonly values: Numbers;
  readonly unit: ShownUnit;
  readonly digits?: number;
}

/** How a curve runs, in words: "falls from 0.93 at 5 cm to 0.71 at 60 cm". */
export function course(x: Said, y: Said): string {
  const places = finitePlaces(y.values);
  if (places.length === 0) return "has no value";
  // Rounding leaves 1e-17 where a sine or cosine is 0.
  const noise = 1e-9 * places.reduce((most, i) => Math.max(most, Math.abs(y.values[i])), 0);
  const cleaned = (i: number): number => (Math.abs(y.values[i]) < noise ? 0 : y.values[i]);
  const where = (i: number): string =>
    `${said(cleaned(i), y.unit, y.digits)} at ${said(x.values[i], x.unit, x.digits)}`;
  const ordered = places.toSorted((i, j) => x.values[i] - x.values[j]);
  const first = ordered[0];
  const last = ordered[ordered.length - 1];
  const lowest = ordered.reduce((best, i) => (y.values[i] < y.values[best] ? i : best));
  const highest = ordered.reduce((best, i) => (y.values[i] > y.values[best] ? i : best));
  const height = y.values[highest] - y.values[lowest];
  if (ordered.length === 1) return `is ${where(first)}`;
  if (height <= 1e-3 * Math.abs(y.values[highest]))
    return `stays at ${said(y.values[first], y.unit, y.digits)}`;
  const turns = (i: number): boolean =>
    Math.min(Math.abs(y.values[i] - y.values[first]), Math.abs(y.values[i] - y.values[last])) > 0.01 * height;
  if (!turns(lowest) && !turns(highest)) {
    return `${y.values[last] > y.values[first] ? "rises" : "falls"} from ${where(first)} to ${where(last)}`;
  }
  const extremes = [lowest, highest].filter(turns).toSorted((i, j) => x.values[i] - x.values[j]);
  const words = extremes.map((i) => `${i === lowest ? "is lowest" : "is highest"} with ${where(i)}`);
  return `starts with ${where(first)}, ${words.join(", ")}, and ends with ${where(last)}`;
}

/** Refuses a row that has more or fewer entries than the places it belongs to. */
export function checkCount(figure: string, what: string, values: ArrayLike<unknown>, expected: number): void {
  if (values.length === expected) return;
  throw new RangeError(
    `figures.${figure}: ${what} has ${values.length} ${values.length === 1 ? "value" : "values"}; ` +
      `it must have ${expected}, one for each place on the x axis.`,
  );
}

/** Refuses a figure without anything to show. */
export function checkSome(figure: string, what: string, values: ArrayLike<unknown>): void {
  if (values.length === 0)
    throw new RangeError(`figures.${figure}: ${what} is empty; there is nothing to draw.`);
}

/** Refuses numbers that an axis cannot show, naming the first of them. */
export function checkFinite(figure: string, what: string, values: Numbers): void {
  for (let i = 0; i < values.length; i++) {
    if (!Number.isFinite(values[i])) {
      throw new RangeError(
        `figures.${figure}: ${what}[${i}] is ${String(values[i])}; it must be a finite number.`,
      );
    }
  }
}
