import type { Quantity, DimensionName } from "../quantity/dimension";
import { formatNumber, withSymbol } from "../quantity/format";
import { u } from "../quantity/u";
import { type UnitName, units } from "../quantity/unit";
import { refuse } from "../statistics/checks";

/** Keeps a quantity's dimension and forgets that a plain number was written as 0.98. */
export type Of<Q extends number> = Q extends Quantity<DimensionName> ? Q : number;

/** What can't be, such as a spacing below 0 or a share above 1, in SI units, and how a value is shown. */
export interface Limits {
  readonly above?: number;
  readonly atLeast?: number;
  readonly below?: number;
  readonly atMost?: number;
  /** Cuts the distribution at its limits instead of refusing it. The part cut off is reported in `cutOff`. */
  readonly truncated?: boolean;
  /** The unit in which values of this input are shown. */
  readonly unit?: UnitName;
}

/** What an uncertain number may be, as a quantile function. */
export interface Distribution<Q extends number = number> {
  readonly kind: "normal" | "lognormal" | "triangular" | "uniform" | "beta" | "fixed";
  /** In words: "normal, 18 mm ± 0.5 mm". */
  readonly title: string;
  /** The value that is not exceeded with this probability; limits are already in it. */
  readonly quantile: (probability: number) => Q;
  /** The same, good to some 1e-8, where the exact one is slow and many are wanted. */
  readonly manyQuantiles?: (probability: number) => Q;
  readonly median: Q;
  readonly unit: UnitName | undefined;
  /** The part of the probability that truncation took away; 0 where nothing was cut. */
  readonly cutOff: number;
  /** The bare law, to be limited again by a function that knows more limits. */
  readonly law: Law;
  readonly limits: Limits;
}

/** A family with its parameters set. */
export interface Law {
  readonly kind: Distribution["kind"];
  readonly title: (unit: UnitName | undefined) => string;
  readonly quantile: (probability: number) => number;
  /** The same by a table, where the exact one is slow. */
  readonly tabled?: (probability: number) => number;
  readonly cdf: (value: number) => number;
  /** The ends of what the law gives: infinite for a normal. */
  readonly least: number;
  readonly most: number;
}

/** A part of the probability beyond a limit that is no concern: it meets one draw in a thousand million. */
const negligible = 1e-9;

/** Shows a number of a distribution in its unit. */
export const inUnit = (value: number, unit: UnitName | undefined): string =>
  unit === undefined
    ? formatNumber(value, 4)
    : // A boundary: the unit's name is known only at run time.
      withSymbol(formatNumber((u.to[unit] as (q: number) => number)(value), 4), units[unit].symbol);

/** Puts limits on a law. Throws a RangeError where it reaches beyond them and is not to be truncated. */
export function limited<Q extends number>(where: string, law: Law, limits: Limits): Distribution<Of<Q>> {
  const title = law.title(limits.unit);
  const from = Math.max(limits.above ?? -Infinity, limits.atLeast ?? -Infinity);
  const to = Math.min(limits.below ?? Infinity, limits.atMost ?? Infinity);
  checkRange(where, law, limits, { from, to, title });
  const [first, last] = [from > law.least ? law.cdf(from) : 0, to < law.most ? law.cdf(to) : 1];
  const cutOff = first + (1 - last);
  if (cutOff > negligible && limits.truncated !== true) {
    const side = first > 1 - last ? `below ${inUnit(from, limits.unit)}` : `above ${inUnit(to, limits.unit)}`;
    refuse(
      where,
      `${title} lies ${side} with probability ${formatNumber(Math.max(first, 1 - last))}, and allowed is ` +
        `${allowedInWords(limits)}; choose a distribution that stays inside, or cut it with truncated: true`,
    );
  }
  if (last - first < 1e-6)
    refuse(where, `${title} lies beyond its limits almost altogether; allowed is ${allowedInWords(limits)}`);
  const isCut = cutOff > 0;
  const cut =
    (bare: (probability: number) => number) =>
    (probability: number): number => {
      const value = bare(isCut ? first + probability * (last - first) : probability);
      return value < from ? from : value > to ? to : value;
    };
  const quantile = cut(law.quantile);
  return {
    kind: law.kind,
    title: cutOff > negligible ? `${title}, cut to ${allowedInWords(limits)}` : title,
    // A boundary: a law of lengths gives lengths.
    quantile: quantile as (probability: number) => Of<Q>,
    manyQuantiles: law.tabled === undefined ? undefined : (cut(law.tabled) as (probability: number) => Of<Q>),
    median: quantile(0.5) as Of<Q>,
    unit: limits.unit,
    cutOff: cutOff > negligible ? cutOff : 0,
    law,
    limits,
  };
}

/** The same distribution under limits that another function knows. Throws a RangeError where it reaches beyond them. */
export const within = (where: string, given: Distribution, limits: Limits): Distribution =>
  limited(where, given.law, {
    ...limits,
    ...given.limits,
    above: larger(limits.above, given.limits.above),
    atLeast: larger(limits.atLeast, given.limits.atLeast),
    below: smaller(limits.below, given.limits.below),
    atMost: smaller(limits.atMost, given.limits.atMost),
    unit: given.limits.unit ?? limits.unit,
  });

const larger = (one: number | undefined, other: number | undefined): number | undefined =>
  one === undefined ? other : other === undefined ? one : Math.max(one, other);
const smaller = (one: number | undefined, other: number | undefined): number | undefined =>
  one === undefined ? other : other === undefined ? one : Math.min(one, other);

function checkRange(
  where: string,
  { least, most }: Law,
  limits: Limits,
  { from, to, title }: { readonly from: number; readonly to: number; readonly title: string },
): void {
  if (!(from <= to)) refuse(where, `the limits leave nothing: ${allowedInWords(limits)}`);
  // A value that is known may stand on a limit that must not be reached: 0 where above 0 is allowed.
  const isOnLimit = least === limits.above || least === limits.below;
  if (least === most && (isOnLimit || least < from || least > to))
    refuse(where, `${title} is not allowed; allowed is ${allowedInWords(limits)}`);
}

/** What limits allow, in words. */
function allowedInWords({ above, atLeast, below, atMost, unit }: Limits): string {
  const limits = { above, "at least": atLeast, below, "at most": atMost };
  return Object.entries(limits)
    .flatMap(([words, limit]) => (limit === undefined ? [] : [`${words} ${inUnit(limit, unit)}`]))
    .join(" and ");
}
