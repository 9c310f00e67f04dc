import { Matrix, QrDecomposition } from "ml-matrix";
import { refuse } from "../checks";
import { betaCdf, chiSquareTail } from "../distributions";
import type { ErrorKind } from "./errorScale";
import type { BinomialFit } from "./fitBinomial";

const where = "statistics.likelihoodRatio";

/** How much better the larger of two nested fits is, and whether chance alone would do that. */
export interface LikelihoodRatio {
  readonly method: string;
  /** The drop of the deviance; for quasi-likelihood, per degree of freedom and over the dispersion. */
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

/**
 * Likelihood-ratio test of two nested binomial regressions: does the larger one explain more than chance would?
 *
 * Returns the drop of the deviance with its degrees of freedom and the p-value of the chi-square distribution. With
 * `errors: "quasi"` the drop is compared with the dispersion of the larger fit and the p-value is that of the F
 * distribution, for trials that hang together. Throws a RangeError where the fits have other data or another link, or are
 * not nested.
 *
 * @example
 * statistics.likelihoodRatio(
 *   statistics.fitBinomial({ successes: [3, 9, 14], trials: [20, 20, 20], terms: {}, link: "logit" }),
 *   statistics.fitBinomial({ successes: [3, 9, 14], trials: [20, 20, 20], terms: { x: [1, 2, 3] }, link: "logit" }),
 * ).statistic // => 13.07462
 */
export function likelihoodRatio(
  smaller: BinomialFit,
  larger: BinomialFit,
  { errors = "binomial" }: { readonly errors?: ErrorKind } = {},
): LikelihoodRatio {
  if (smaller.clusters !== undefined || larger.clusters !== undefined)
    refuse(where, "a fit has cluster-robust errors, for which the likelihood gives no test; use waldTest");
  checkNested(smaller, larger);
  const degreesOfFreedom = smaller.degreesOfFreedom - larger.degreesOfFreedom;
  // Both deviances are minima over nested sets: a drop below 0 is rounding.
  const drop = Math.max(0, smaller.deviance - larger.deviance);
  if (errors === "binomial") {
    return {
      method: "likelihood-ratio test, chi-square distribution",
      statistic: drop,
      degreesOfFreedom,
      pValue: chiSquareTail(drop, { degreesOfFreedom }),
    };
  }
  const { dispersion } = larger;
  if (dispersion === undefined) {
    return refuse(where, "the larger fit has no degrees of freedom left, so its dispersion is not known");
  }
  const statistic = drop / degreesOfFreedom / dispersion;
  const rest = larger.degreesOfFreedom;
  return {
    method: `quasi-likelihood test, F distribution with ${degreesOfFreedom} and ${rest} degrees of freedom`,
    statistic,
    degreesOfFreedom,
    pValue: betaCdf(rest / (rest + degreesOfFreedom * statistic), {
      alpha: rest / 2,
      beta: degreesOfFreedom / 2,
    }),
  };
}

function checkNested(smaller: BinomialFit, larger: BinomialFit): void {
  if (smaller.link !== larger.link)
    refuse(where, `the links are ${smaller.link} and ${larger.link}; they must agree`);
  if (!sameNumbers(smaller.successes, larger.successes) || !sameNumbers(smaller.trials, larger.trials)) {
    refuse(where, "the two fits have other successes or trials; they must be fitted to the same rows");
  }
  const [few, many] = [smaller.coefficients.length, larger.coefficients.length];
  if (few >= many) {
    refuse(
      where,
      `the first fit has ${few} coefficients and the second ${many}; give the fit with fewer first`,
    );
  }
  const used = larger.trials.flatMap((all, row) => (all > 0 ? [row] : []));
  const space = rowsOf(larger.design, used);
  const asked = rowsOf(smaller.design, used);
  const rest = Matrix.sub(asked, space.mmul(new QrDecomposition(space).solve(asked)));
  const outside = smaller.coefficients.find((_, column) => {
    return lengthOf(rest.getColumn(column)) > 1e-7 * lengthOf(asked.getColumn(column));
  });
  if (outside !== undefined) {
    refuse(where, `${outside.name} of the first fit is not contained in the second; the fits are not nested`);
  }
}

const rowsOf = (design: Matrix, rows: readonly number[]): Matrix =>
  new Matrix(rows.map((row) => design.getRow(row)));

const sameNumbers = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((value, at) => value === b[at]);

const lengthOf = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0));
