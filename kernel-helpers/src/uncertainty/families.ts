import type { PlainNumber } from "../quantity/dimension";
import { checkNumber, refuse } from "../statistics/checks";
import { library } from "../statistics/library";
import { betaTable } from "./betaTable";
import { type Distribution, inUnit, type Law, type Limits, limited, type Of } from "./distribution";

/**
 * A normal distribution: errors that add up from many small causes, such as a measured mean with its standard error.
 *
 * Returns a distribution for `uncertainty.monteCarlo` and its like. Limits in the second argument (`above`, `atLeast`,
 * `below`, `atMost`, in SI units) say what can't be: a normal that reaches beyond them is refused, or cut with
 * `truncated: true`, and then says in `cutOff` how much was cut. Throws a RangeError for a standard deviation that is not
 * above 0.
 *
 * @example
 * uncertainty.normal({ mean: u.mm(18), standardDeviation: u.mm(0.5) }, { above: 0, unit: "mm" }).quantile(0.975)
 * // => 18.97998 mm
 */
export function normal<Q extends number>(
  { mean, standardDeviation }: { readonly mean: Q; readonly standardDeviation: Q | PlainNumber },
  limits: Limits = {},
): Distribution<Of<Q>> {
  const where = "uncertainty.normal";
  checkNumber(where, "mean", mean);
  checkNumber(where, "standardDeviation", standardDeviation, { above: 0 });
  const law: Law = {
    kind: "normal",
    title: (unit) => `normal, ${inUnit(mean, unit)} ± ${inUnit(standardDeviation, unit)}`,
    quantile: (probability) => mean + standardDeviation * library.normalQuantile(probability, 0, 1),
    cdf: (value) => library.normalCdf(value, mean, standardDeviation),
    least: -Infinity,
    most: Infinity,
  };
  return limited<Q>(where, law, limits);
}

/**
 * A lognormal distribution: what is above 0 and uncertain by a factor.
 *
 * Returns a distribution whose logarithm is normal about the median's, `spread` being the standard deviation of the natural
 * logarithm: 0.1 is about 10 %. Throws a RangeError for a median or a spread that is not above 0.
 *
 * @example
 * uncertainty.lognormal({ median: u.mm(133), spread: 0.31 }, { unit: "mm" }).quantile(0.9) // => 197.874 mm
 */
export function lognormal<Q extends number>(
  { median, spread }: { readonly median: Q; readonly spread: PlainNumber },
  limits: Limits = {},
): Distribution<Of<Q>> {
  const where = "uncertainty.lognormal";
  checkNumber(where, "median", median, { above: 0 });
  checkNumber(where, "spread", spread, { above: 0 });
  const middle = Math.log(median);
  const law: Law = {
    kind: "lognormal",
    title: (unit) => `lognormal, median ${inUnit(median, unit)}, spread ${spread}`,
    quantile: (probability) => Math.exp(middle + spread * library.normalQuantile(probability, 0, 1)),
    cdf: (value) => (value <= 0 ? 0 : library.normalCdf(Math.log(value), middle, spread)),
    least: 0,
    most: Infinity,
  };
  return limited<Q>(where, law, limits);
}

/**
 * A triangular distribution: a judgement of the least, the most likely and the most.
 *
 * Returns a distribution. The most likely value may lie at an end. Throws a RangeError for values that don't rise.
 *
 * @example
 * uncertainty.triangular({ least: 0.9, mostLikely: 0.98, most: 1 }).quantile(0.8) // => 0.98
 */
export function triangular<Q extends number>(
  { least, mostLikely, most }: { readonly least: Q; readonly mostLikely: Q; readonly most: Q },
  limits: Limits = {},
): Distribution<Of<Q>> {
  const where = "uncertainty.triangular";
  checkNumber(where, "least", least);
  checkNumber(where, "mostLikely", mostLikely, { atLeast: least });
  checkNumber(where, "most", most, { above: least, atLeast: mostLikely });
  const span = most - least;
  const rise = (mostLikely - least) / span;
  const law: Law = {
    kind: "triangular",
    title: (unit) => `triangular, ${[least, mostLikely, most].map((one) => inUnit(one, unit)).join(", ")}`,
    quantile: (probability) =>
      probability < rise
        ? least + Math.sqrt(probability * span * (mostLikely - least))
        : most - Math.sqrt((1 - probability) * span * (most - mostLikely)),
    cdf: (value) =>
      value <= least
        ? 0
        : value >= most
          ? 1
          : value <= mostLikely
            ? (value - least) ** 2 / (span * (mostLikely - least))
            : 1 - (most - value) ** 2 / (span * (most - mostLikely)),
    least,
    most,
  };
  return limited<Q>(where, law, limits);
}

/**
 * A uniform distribution: between two ends, and nothing known within.
 *
 * Returns a distribution. Throws a RangeError where `to` is not above `from`.
 *
 * @example
 * uncertainty.uniform({ from: u.mm(17), to: u.mm(19) }, { unit: "mm" }).median // => 18 mm
 */
export function uniform<Q extends number>(
  { from, to }: { readonly from: Q; readonly to: Q },
  limits: Limits = {},
): Distribution<Of<Q>> {
  const where = "uncertainty.uniform";
  checkNumber(where, "from", from);
  checkNumber(where, "to", to, { above: from });
  const law: Law = {
    kind: "uniform",
    title: (unit) => `uniform, ${inUnit(from, unit)} to ${inUnit(to, unit)}`,
    quantile: (probability) => from + probability * (to - from),
    cdf: (value) => Math.min(1, Math.max(0, (value - from) / (to - from))),
    least: from,
    most: to,
  };
  return limited<Q>(where, law, limits);
}

/** A beta distribution by its shape, by mean and standard deviation, or by fish counted. */
export type BetaChoice =
  | { readonly alpha: PlainNumber; readonly beta: PlainNumber }
  | { readonly mean: PlainNumber; readonly standardDeviation: PlainNumber };

/**
 * A beta distribution: a share that is never below 0 or above 1.
 *
 * Returns a distribution of shares, by `alpha` and `beta` or by `mean` and `standardDeviation`. Throws a RangeError for
 * shapes that are not above 0 and for a standard deviation too large for a share of that mean.
 *
 * @example
 * uncertainty.beta({ mean: 0.9, standardDeviation: 0.05 }).quantile(0.5) // => 0.907597
 */
export function beta(choice: BetaChoice, limits: Limits = {}): Distribution {
  const where = "uncertainty.beta";
  const { alpha, beta: second } = "alpha" in choice ? choice : shapeOf(where, choice);
  checkNumber(where, "alpha", alpha, { above: 0 });
  checkNumber(where, "beta", second, { above: 0 });
  const law: Law = {
    kind: "beta",
    title: (unit) =>
      "alpha" in choice
        ? `beta, ${alpha} and ${second}`
        : `beta, ${inUnit(choice.mean, unit)} ± ${inUnit(choice.standardDeviation, unit)}`,
    quantile: (probability) => library.betaQuantile(probability, alpha, second),
    tabled: betaTable(alpha, second),
    cdf: (value) => (value <= 0 ? 0 : value >= 1 ? 1 : library.betaCdf(value, alpha, second)),
    least: 0,
    most: 1,
  };
  return limited(where, law, limits);
}

function shapeOf(
  where: string,
  { mean, standardDeviation }: { readonly mean: number; readonly standardDeviation: number },
): { readonly alpha: number; readonly beta: number } {
  checkNumber(where, "mean", mean, { above: 0, below: 1 });
  checkNumber(where, "standardDeviation", standardDeviation, { above: 0 });
  const size = (mean * (1 - mean)) / standardDeviation ** 2 - 1;
  if (!(size > 0))
    refuse(
      where,
      `standardDeviation is ${standardDeviation}; a share of mean ${mean} has one below ` +
        `${Number(Math.sqrt(mean * (1 - mean)).toPrecision(3))}`,
    );
  return { alpha: mean * size, beta: (1 - mean) * size };
}

/**
 * A value that is known.
 *
 * Returns a distribution of one value. A plain number among the inputs of `uncertainty.monteCarlo` means the same.
 *
 * @example
 * uncertainty.fixed(u.mm(18)).quantile(0.2) // => 18 mm
 */
export function fixed<Q extends number>(value: Q, limits: Limits = {}): Distribution<Of<Q>> {
  const where = "uncertainty.fixed";
  checkNumber(where, "value", value);
  const law: Law = {
    kind: "fixed",
    title: (unit) => `fixed, ${inUnit(value, unit)}`,
    quantile: () => value,
    cdf: (at) => (at < value ? 0 : 1),
    least: value,
    most: value,
  };
  return limited<Q>(where, law, limits);
}
