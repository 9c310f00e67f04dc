import { checkLevel, checkNumber } from "../checks";
import { studentQuantile } from "../distributions";
import { covarianceOf } from "../glm/predict";
import type { LeastSquaresFit, ParameterValues } from "./fitLeastSquares";
import { jacobianAt } from "./problem";

const where = "statistics.predictLeastSquares";

/** What a fitted curve says about one place. */
export interface CurvePrediction {
  readonly method: string;
  readonly level: number;
  readonly estimate: number;
  /** Of the curve at this place. */
  readonly standardError: number;
  /** Where the curve lies. */
  readonly confidence: readonly [lower: number, upper: number];
  /** Where one more observation lies. */
  readonly prediction: readonly [lower: number, upper: number];
}

/** Derivatives of a fitted curve at a place, in the order of the parameters. */
export function gradientAt<X, N extends string>(fit: LeastSquaresFit<X, N>, at: X): readonly number[] {
  const names = fit.parameters.map(({ name }) => name);
  const parameters = fit.parameters.map(({ estimate }) => estimate);
  const valuesAt = (values: readonly number[]) => [
    // A boundary: the names are those that the model was fitted with.
    fit.model(Object.fromEntries(names.map((name, i) => [name, values[i]])) as ParameterValues<N>, at),
  ];
  return jacobianAt({ names, observed: [0], roots: [1], valuesAt }, parameters).getRow(0);
}

/**
 * What a fitted curve says at one place, and where one more observation would lie.
 *
 * Returns the estimate with its standard error, a confidence interval for the curve and a prediction interval for an
 * observation of the stated weight (1 where none is stated), both by Student's t. Valid within the places that were
 * fitted. Throws a RangeError for a level outside 0..1 and a weight that is not above 0.
 *
 * @example
 * statistics.predictLeastSquares(
 *   statistics.fitLeastSquares({
 *     x: [1.309, 1.471, 1.49, 1.565, 1.611, 1.68],
 *     y: [2.138, 3.421, 3.597, 4.34, 4.882, 5.66],
 *     model: ({ scale, exponent }, x) => scale * x ** exponent,
 *     start: { scale: 1, exponent: 5 },
 *   }),
 *   { at: 1.5 },
 * ).estimate // => 3.67817
 */
export function predictLeastSquares<X, N extends string>(
  fit: LeastSquaresFit<X, N>,
  { at, weight = 1, level = 0.95 }: { readonly at: X; readonly weight?: number; readonly level?: number },
): CurvePrediction {
  checkLevel(where, level);
  checkNumber(where, "weight", weight, { above: 0 });
  const estimate = fit.model(fit.estimates, at);
  const gradient = gradientAt(fit, at);
  const standardError = Math.sqrt(covarianceOf(fit.covariance, gradient, gradient));
  const reach = studentQuantile(1 - (1 - level) / 2, fit);
  const around = (error: number): readonly [number, number] => [
    estimate - reach * error,
    estimate + reach * error,
  ];
  return {
    method: `${fit.method}; Student's t, ${fit.degreesOfFreedom} degrees of freedom`,
    level,
    estimate,
    standardError,
    confidence: around(standardError),
    prediction: around(Math.hypot(standardError, fit.residualStandardError / Math.sqrt(weight))),
  };
}
