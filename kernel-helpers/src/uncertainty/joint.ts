import { checkNumber, refuse } from "../statistics/checks";
import { library } from "../statistics/library";
import { type Law, type Limits, limited } from "./distribution";

/** Several numbers that are uncertain together: the parameters of a fitted curve. They count as one input. */
export interface Joint<N extends string = string> {
  readonly kind: "jointlyNormal" | "resampled";
  readonly title: string;
  readonly names: readonly N[];
  /** How many independent uniform numbers one draw takes. */
  readonly dimensions: number;
  /** One draw, its numbers in the order of the names, from uniform numbers between 0 and 1. */
  readonly draw: (uniform: readonly number[], into: number[]) => void;
  /** What stands for the whole where the input is held: estimates, or the medians of the rows. */
  readonly middle: readonly number[];
}

/** A covariance as a table of rows, or as a matrix that gives its entries. */
export type Covariance =
  readonly (readonly number[])[] | { readonly get: (row: number, column: number) => number };

/**
 * Parameters of a fit with their covariance, such as those of `statistics.fitLeastSquares`.
 *
 * Returns one input of several jointly normal numbers. Rows and columns of the covariance follow the order of `estimates`.
 * `limits` say, parameter by parameter, what can't be; a parameter that reaches beyond is refused, since a correlated
 * normal can't be cut one by one. Name in `logarithms` what must be above 0: its logarithm is then normal, with the
 * relative error of the fit. Throws a RangeError for a covariance that is not symmetric and positive.
 *
 * @example
 * uncertainty.jointlyNormal({ estimates: { threshold: 0.2, exponent: 0.9 },
 *   covariance: [[0.0004, -0.0006], [-0.0006, 0.0025]] }).names.length // => 2
 */
export function jointlyNormal<const N extends string>(
  {
    estimates,
    covariance,
  }: { readonly estimates: Readonly<Record<N, number>>; readonly covariance: Covariance },
  {
    limits,
    logarithms = [],
  }: {
    readonly limits?: { readonly [K in N]?: Omit<Limits, "truncated"> };
    readonly logarithms?: readonly N[];
  } = {},
): Joint<N> {
  const where = "uncertainty.jointlyNormal";
  // A boundary: the keys of a record typed by N are its names.
  const names = Object.keys(estimates) as N[];
  if (names.length === 0) refuse(where, "estimates is empty; name at least one parameter");
  for (const name of names) checkNumber(where, `estimates.${name}`, estimates[name]);
  const onLogarithm = names.map((name) => logarithms.includes(name));
  for (const name of logarithms) checkNumber(where, `estimates.${name}`, estimates[name], { above: 0 });
  const scaled = scaledCovariance(where, names, covariance, (at) =>
    onLogarithm[at] ? estimates[names[at]] : 1,
  );
  const factor = choleskyFactor(where, names, scaled);
  const means = names.map((name, at) => (onLogarithm[at] ? Math.log(estimates[name]) : estimates[name]));
  names.forEach((name, at) =>
    checkMarginal(
      where,
      name,
      { mean: means[at], variance: scaled[at][at] },
      onLogarithm[at],
      limits?.[name],
    ),
  );
  const standard = names.map(() => 0);
  return {
    kind: "jointlyNormal",
    title: `jointly normal, ${names.join(" and ")}`,
    names,
    dimensions: names.length,
    draw: (uniform, into) => {
      for (let at = 0; at < names.length; at++) {
        standard[at] = library.normalQuantile(uniform[at], 0, 1);
        let value = means[at];
        for (let other = 0; other <= at; other++) value += factor[at][other] * standard[other];
        into[at] = onLogarithm[at] ? Math.exp(value) : value;
      }
    },
    middle: names.map((name) => estimates[name]),
  };
}

function scaledCovariance(
  where: string,
  names: readonly string[],
  covariance: Covariance,
  scale: (at: number) => number,
): number[][] {
  if ("length" in covariance && covariance.length !== names.length)
    refuse(where, `covariance has ${covariance.length} rows; it must have ${names.length}, one a parameter`);
  const entry = (row: number, column: number): number =>
    "get" in covariance ? covariance.get(row, column) : (covariance[row]?.[column] ?? Number.NaN);
  return names.map((name, row) =>
    names.map((other, column) => {
      const [value, mirrored] = [entry(row, column), entry(column, row)];
      checkNumber(where, `the covariance of ${name} and ${other}`, value);
      if (Math.abs(value - mirrored) > 1e-9 * Math.sqrt(Math.abs(entry(row, row) * entry(column, column))))
        refuse(where, `the covariance of ${name} and ${other} is ${value} one way and ${mirrored} the other`);
      return value / (scale(row) * scale(column));
    }),
  );
}

/** The lower triangle whose product with its transpose is the covariance. */
function choleskyFactor(
  where: string,
  names: readonly string[],
  covariance: readonly (readonly number[])[],
): number[][] {
  const factor = covariance.map((row) => row.map(() => 0));
  covariance.forEach((row, at) => {
    if (!(row[at] > 0)) refuse(where, `the variance of ${names[at]} is ${row[at]}; it must be above 0`);
    for (let other = 0; other <= at; other++) {
      let rest = row[other];
      for (let before = 0; before < other; before++) rest -= factor[at][before] * factor[other][before];
      if (other < at) factor[at][other] = rest / factor[other][other];
      else {
        if (!(rest > 1e-12 * row[at]))
          refuse(
            where,
            `the covariance can't be: ${names[at]} would be fixed by the parameters before it, or more than fixed`,
          );
        factor[at][at] = Math.sqrt(rest);
      }
    }
  });
  return factor;
}

function checkMarginal(
  where: string,
  name: string,
  { mean, variance }: { readonly mean: number; readonly variance: number },
  onLogarithm: boolean,
  limits: Limits = {},
): void {
  const [error, value] = [Math.sqrt(variance), (normal: number) => (onLogarithm ? Math.exp(normal) : normal)];
  const law: Law = {
    kind: onLogarithm ? "lognormal" : "normal",
    title: () =>
      `${name}, ${Number(value(mean).toPrecision(4))} with ${onLogarithm ? "relative " : ""}error ${Number(error.toPrecision(3))},`,
    quantile: value,
    cdf: (at) => library.normalCdf(onLogarithm ? Math.log(Math.max(at, 0)) : at, mean, error),
    least: onLogarithm ? 0 : -Infinity,
    most: Infinity,
  };
  try {
    limited(where, law, limits);
  } catch (error_) {
    if (!(error_ instanceof RangeError)) throw error_;
    throw new RangeError(
      error_.message.replace(
        "or cut it with truncated: true",
        `name ${name} in logarithms where it is above 0, or take resampled fits, uncertainty.resampled`,
      ),
    );
  }
}

/**
 * Fits to resampled trials, each row being what the curve might have been: `protection.bootstrapFit(…).draws`.
 *
 * Returns one input of several numbers that are drawn together, a row at a time. Rows are put in order of the first
 * number, so that a low-discrepancy sequence runs through them evenly. Throws a RangeError for fewer than 50 rows and for
 * rows that lack a number.
 *
 * @example
 * uncertainty.resampled(Array.from({ length: 60 }, (_, at) => ({ threshold: 0.2 + at / 1000, exponent: 1 }))).names[0]
 * // => "threshold"
 */
export function resampled<const N extends string>(
  rows: readonly Readonly<Partial<Record<N, number>>>[],
): Joint<N> {
  const where = "uncertainty.resampled";
  if (rows.length < 50)
    refuse(where, `there are ${rows.length} rows; quantiles need at least 50, better some hundreds`);
  // A boundary: the keys of a record typed by N are its names.
  const names = Object.keys(rows[0]) as N[];
  const table = rows.map((row, at) =>
    names.map((name) => {
      const value = row[name] ?? Number.NaN;
      checkNumber(where, `rows[${at}].${name}`, value);
      return value;
    }),
  );
  const ordered = table.toSorted((one, other) => {
    const differing = one.findIndex((value, at) => value !== other[at]);
    return differing < 0 ? 0 : one[differing] - other[differing];
  });
  return {
    kind: "resampled",
    title: `${rows.length} resampled fits of ${names.join(" and ")}`,
    names,
    dimensions: 1,
    draw: ([uniform], into) => {
      const row = ordered[Math.min(ordered.length - 1, Math.floor(uniform * ordered.length))];
      for (let at = 0; at < names.length; at++) into[at] = row[at];
    },
    middle: names.map((_, at) => {
      const sorted = table.map((row) => row[at]).toSorted((a, b) => a - b);
      return sorted[Math.floor(sorted.length / 2)];
    }),
  };
}
