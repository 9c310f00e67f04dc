import type { DimensionName, PlainNumber, Quantity } from "../quantity/dimension";
import { remedies } from "../quantity/dimension";
import { formatNumber, withSymbol } from "../quantity/format";
import { u } from "../quantity/u";
import { defaultUnit, type UnitName, type UnitOf, units } from "../quantity/unit";

/** What a number can be: a dimension, a ratio 0..1 by nature, a number without unit, a whole number. */
export type Kind = DimensionName | "ratio" | "number" | "count";

/** What the caller passes for a kind. */
export type ValueOfKind<K extends Kind> = K extends DimensionName ? Quantity<K> : PlainNumber;

/** Limits and meaning of one input. Limits are in SI; outside `tested` a formula answers with a caution. */
interface InputLimits {
  /** Must be greater than this. */
  readonly above?: number;
  /** Must not be less than this. */
  readonly atLeast?: number;
  /** Must be less than this. */
  readonly below?: number;
  /** Must not be greater than this. */
  readonly atMost?: number;
  /** The range that the source tested. */
  readonly tested?: readonly [number, number];
  /** The range met in practice; a value outside it is more often a slip of units, so it gets a caution. */
  readonly usual?: readonly [number, number];
  /** Taken where the caller leaves the input out. */
  readonly default?: number;
  /** What the input means, where its name does not say enough. */
  readonly note?: string;
}

/** What an input builder takes: limits, meaning, and a unit of the input's own dimension. */
export interface InputOptions<K extends Kind> extends InputLimits {
  /** The unit it is shown in; the usual one of its dimension unless told otherwise. */
  readonly unit?: K extends DimensionName ? UnitOf<K> : never;
}

/** One input of a formula. `many` inputs take a list. */
export interface InputSpec<K extends Kind = Kind> extends InputLimits {
  readonly kind: K;
  /** The unit it is shown in. Not tied to K here: any formula must pass where a formula of any inputs is taken. */
  readonly unit?: UnitName;
  /** The symbol in LaTeX. */
  readonly symbol: string;
  readonly many?: boolean;
}

/** The inputs of a formula by name. */
export type InputSpecs = Readonly<Record<string, InputSpec>>;

/** Inputs of a formula that is known only at run time. */
export type InputValues = Readonly<Record<string, number | readonly number[]>>;

/** Of all options only a default changes what the caller must pass; the type keeps just that, to stay readable. */
type Defaulted<O> = O extends { readonly default: number } ? { readonly default: number } : unknown;

const input =
  <K extends Kind>(kind: K) =>
  <O extends InputOptions<K>>(symbol: string, options: O): InputSpec<K> & Defaulted<O> =>
    // The options hold the default where their type says so; the compiler can't follow the conditional type.
    ({ ...options, kind, symbol }) as InputSpec<K> & Defaulted<O>;

export const length = input("length");
export const area = input("area");
export const velocity = input("velocity");
export const discharge = input("discharge");
export const angle = input("angle");
export const time = input("time");
export const rotationalSpeed = input("rotationalSpeed");
export const kinematicViscosity = input("kinematicViscosity");
export const pressure = input("pressure");
export const frequency = input("frequency");
export const force = input("force");
export const mass = input("mass");
export const temperature = input("temperature");
/** A number without unit that may take any value within its limits: a coefficient, an exponent. */
export const number = input("number");
/** A whole number, at least one unless told otherwise. */
export const count = <O extends InputOptions<"count">>(symbol: string, options: O) =>
  input("count")(symbol, { atLeast: 1, ...options });
/** A share, probability or efficiency: 0 to 1 unless told otherwise. */
export const ratio = <O extends InputOptions<"ratio">>(symbol: string, options: O) =>
  input("ratio")(symbol, { atLeast: 0, atMost: 1, ...options });
/** A list of shares, probabilities or survivals. */
export const ratios = <O extends InputOptions<"ratio">>(symbol: string, options: O) => ({
  ...ratio(symbol, options),
  many: true as const,
});

/** The unit that a kind of number is shown in; none for numbers without unit. */
export function shownUnit(kind: Kind, unit?: UnitName): UnitName | undefined {
  if (kind === "ratio" || kind === "number" || kind === "count") return undefined;
  return unit ?? defaultUnit[kind];
}

/** Prints an SI number in the unit that its kind is shown in: 0.018 of a length in mm gives "18 mm". */
export function printValue(value: number, kind: Kind, unit?: UnitName, digits = 3): string {
  const name = shownUnit(kind, unit);
  if (name === undefined) return formatNumber(value, digits);
  // The unit comes from the same kind as the value; the compiler can't pair the two for an unknown kind.
  const inUnit = Number.isFinite(value) ? (u.to[name] as (q: number) => number)(value) : value;
  return withSymbol(formatNumber(inUnit, digits), units[name].symbol);
}

/** The words of an input's name: `clearSpacing` reads "clear spacing". */
export const words = (name: string): string =>
  name.replace(/([A-Z])/g, (capital) => ` ${capital.toLowerCase()}`);

/** Says in words what an input may be, as in "above 0 mm and at most 90°". */
export function describeLimits(spec: InputSpec): string {
  const print = (limit: number) => printValue(limit, spec.kind, spec.unit);
  const { above, atLeast, below, atMost } = spec;
  const parts: string[] = [];
  // Of two limits on one side only the one that binds is worth saying: a ratio below 1 is at most 1 anyway.
  if (above !== undefined && above >= (atLeast ?? -Infinity)) parts.push(`above ${print(above)}`);
  else if (atLeast !== undefined) parts.push(`at least ${print(atLeast)}`);
  if (below !== undefined && below <= (atMost ?? Infinity)) parts.push(`below ${print(below)}`);
  else if (atMost !== undefined) parts.push(`at most ${print(atMost)}`);
  const range = parts.length > 0 ? parts.join(" and ") : "any finite number";
  return spec.kind === "count" ? `a whole number, ${range}` : range;
}

/** Says what is wrong with one number for an input, or undefined where it is allowed. */
export function refuseNumber(value: number, spec: InputSpec): string | undefined {
  const allowed =
    Number.isFinite(value) &&
    !(spec.above !== undefined && value <= spec.above) &&
    !(spec.atLeast !== undefined && value < spec.atLeast) &&
    !(spec.below !== undefined && value >= spec.below) &&
    !(spec.atMost !== undefined && value > spec.atMost) &&
    !(spec.kind === "count" && !Number.isInteger(value));
  if (allowed) return undefined;
  const limits = describeLimits(spec);
  // A value just past a limit needs more digits, or the sentence would say that 90° must be at most 90°.
  const short = printValue(value, spec.kind, spec.unit);
  const printed =
    limits.endsWith(short) || limits.includes(`${short} `)
      ? printValue(value, spec.kind, spec.unit, 17)
      : short;
  return `is ${printed}; it must be ${limits}`;
}

/** Says what to give for an input that is missing or not a number. */
export function remedy(spec: InputSpec): string {
  const one =
    spec.kind === "ratio" || spec.kind === "number"
      ? "a plain number without unit"
      : spec.kind === "count"
        ? "a whole number"
        : remedies[spec.kind];
  return spec.many ? `a list, each ${one}` : one;
}
