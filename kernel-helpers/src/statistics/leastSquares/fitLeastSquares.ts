import { inverse, type Matrix, QrDecomposition } from "ml-matrix";
import { checkLevel, checkNumber, refuse } from "../checks";
import { studentQuantile } from "../distributions";
import { iterate } from "./iterate";
import { jacobianAt, type Problem, residualsAt, sumOfSquares } from "./problem";
import { checkParameters } from "./rank";

const where = "statistics.fitLeastSquares";

/** A parameter of a fit with its error and interval. */
export interface CurveParameter {
  readonly name: string;
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
}

/** Parameter values by name. */
export type ParameterValues<N extends string = string> = Readonly<Record<N, number>>;

/** A curve fitted by least squares: what it was fitted to and what came out. */
export interface LeastSquaresFit<X, N extends string = string> {
  readonly method: string;
  readonly level: number;
  readonly parameters: readonly CurveParameter[];
  readonly estimates: ParameterValues<N>;
  /** Covariance of the parameters, in their order. */
  readonly covariance: Matrix;
  /** Weighted where weights were given. */
  readonly residualSumOfSquares: number;
  /** Root of the residual sum of squares over the degrees of freedom: the error of an observation of weight 1. */
  readonly residualStandardError: number;
  readonly degreesOfFreedom: number;
  readonly fitted: readonly number[];
  /** Observed minus fitted. */
  readonly residuals: readonly number[];
  /** Each residual times the root of its weight over the residual standard error: about 1 in size. */
  readonly standardizedResiduals: readonly number[];
  readonly iterations: number;
  readonly model: (parameters: ParameterValues<N>, x: X) => number;
  readonly x: readonly X[];
  readonly y: readonly number[];
  /** All 1 where none were given. */
  readonly weights: readonly number[];
  /** Derivatives of the fitted values, one column a parameter, each row times the root of its weight. */
  readonly jacobian: Matrix;
}

/**
 * Nonlinear least squares by the method of Levenberg and Marquardt.
 *
 * Returns parameters with standard errors and Student's t intervals, their covariance from the Jacobian, the residual
 * standard error, fitted values and residuals. `x` may hold numbers or records of whatever the model reads. Weights are in
 * proportion to one over the variance of each observation; their common size doesn't matter. Valid where the model is nearly
 * straight within the errors, and for residuals that are independent of each other. Throws a RangeError where counts don't go
 * together, the model gives no number at the start, the steps do not arrive, or parameters can't be told apart.
 *
 * @example
 * statistics.fitLeastSquares({
 *   x: [1.309, 1.471, 1.49, 1.565, 1.611, 1.68],
 *   y: [2.138, 3.421, 3.597, 4.34, 4.882, 5.66],
 *   model: ({ scale, exponent }, x) => scale * x ** exponent,
 *   start: { scale: 1, exponent: 5 },
 * }).estimates.exponent // => 3.8604056
 */
export function fitLeastSquares<X, const N extends string>({
  x,
  y,
  model,
  start,
  weights,
  level = 0.95,
}: {
  readonly x: readonly X[];
  readonly y: readonly number[];
  readonly model: (parameters: ParameterValues<N>, x: X) => number;
  readonly start: ParameterValues<N>;
  readonly weights?: readonly number[];
  readonly level?: number;
}): LeastSquaresFit<X, N> {
  checkLevel(where, level);
  // A boundary: the keys of a record typed by N are its names.
  const names = Object.keys(start) as N[];
  checkData({ x, y, weights, names, start });
  const named = (values: readonly number[]): ParameterValues<N> =>
    // A boundary: every name has its value.
    Object.fromEntries(names.map((name, at) => [name, values[at]])) as ParameterValues<N>;
  const used = weights ?? y.map(() => 1);
  const problem: Problem = {
    names,
    observed: y,
    roots: used.map(Math.sqrt),
    valuesAt: (parameters) => {
      const values = named(parameters);
      return x.map((place) => model(values, place));
    },
  };
  const first = names.map((name) => start[name]);
  checkStart(problem, first);

  const { parameters, iterations, converged } = iterate(problem, first);
  const jacobian = jacobianAt(problem, parameters);
  const ended = inWords(names, parameters);
  checkParameters(where, { names, jacobian, ended });
  if (!converged) {
    refuse(
      where,
      `the steps did not arrive at a least sum of squares (${iterations} tried, from ${inWords(names, first)} to ` +
        `${ended}); start nearer to the answer, or choose a model that the data can tell`,
    );
  }

  const degreesOfFreedom = y.length - names.length;
  const residualSumOfSquares = sumOfSquares(residualsAt(problem, parameters));
  const residualStandardError = Math.sqrt(residualSumOfSquares / degreesOfFreedom);
  const triangle = new QrDecomposition(jacobian).upperTriangularMatrix;
  const back = inverse(triangle);
  const covariance = back.mmul(back.transpose()).mul(residualStandardError ** 2);
  const reach = studentQuantile(1 - (1 - level) / 2, { degreesOfFreedom });
  const fitted = problem.valuesAt(parameters);
  return {
    method: `${weights === undefined ? "" : "weighted "}nonlinear least squares, Levenberg–Marquardt`,
    level,
    parameters: names.map((name, at) =>
      curveParameter(name, parameters[at], Math.sqrt(covariance.get(at, at)), reach),
    ),
    estimates: named(parameters),
    covariance,
    residualSumOfSquares,
    residualStandardError,
    degreesOfFreedom,
    fitted,
    residuals: y.map((value, row) => value - fitted[row]),
    standardizedResiduals: residualsAt(problem, parameters).map((value) =>
      residualStandardError > 0 ? value / residualStandardError : 0,
    ),
    iterations,
    model,
    x,
    y,
    weights: used,
    jacobian,
  };
}

const curveParameter = (
  name: string,
  estimate: number,
  standardError: number,
  reach: number,
): CurveParameter => ({
  name,
  estimate,
  standardError,
  lower: estimate - reach * standardError,
  upper: estimate + reach * standardError,
});

function checkData({
  x,
  y,
  weights,
  names,
  start,
}: {
  readonly x: readonly unknown[];
  readonly y: readonly number[];
  readonly weights: readonly number[] | undefined;
  readonly names: readonly string[];
  readonly start: Readonly<Record<string, number>>;
}): void {
  if (x.length !== y.length) {
    refuse(where, `x has ${x.length} values and y ${y.length}; each row needs one of both`);
  }
  if (weights !== undefined && weights.length !== y.length) {
    refuse(where, `weights has ${weights.length} values and y ${y.length}; each row needs one of both`);
  }
  if (names.length === 0) refuse(where, "start names no parameter; give each a value to begin with");
  y.forEach((value, row) => checkNumber(where, `y[${row}]`, value));
  weights?.forEach((value, row) => checkNumber(where, `weights[${row}]`, value, { above: 0 }));
  for (const name of names) checkNumber(where, `start.${name}`, start[name]);
  if (y.length <= names.length) {
    refuse(
      where,
      `${names.length} parameters (${names.join(", ")}) can't be fitted to ${y.length} rows with errors; ` +
        `it takes at least ${names.length + 1}`,
    );
  }
}

function checkStart({ names, valuesAt }: Problem, first: readonly number[]): void {
  const values = valuesAt(first);
  const row = values.findIndex((value) => !Number.isFinite(value));
  if (row < 0) return;
  refuse(
    where,
    `the model gives ${String(values[row])} for x[${row}] at the start (${inWords(names, first)}); start where it gives numbers for all rows`,
  );
}

const inWords = (names: readonly string[], values: readonly number[]): string =>
  names.map((name, at) => `${name} = ${Number(values[at].toPrecision(4))}`).join(", ");
