import { checkNumber, refuse } from "../checks";
import { library } from "../library";
import type { LeastSquaresFit } from "./fitLeastSquares";

/** Whether a curve misses more than repeated observations scatter. */
export interface LackOfFit {
  readonly method: string;
  /** Weighted sum of squares of the repeats about their mean. */
  readonly pureError: number;
  readonly pureErrorFreedom: number;
  /** What is left of the residual sum of squares: the means off the curve. */
  readonly lackOfFit: number;
  readonly lackOfFitFreedom: number;
  /** Mean square of the lack of fit over that of the pure error. */
  readonly f: number;
  /** The probability of an F at least as large were the model right. */
  readonly pValue: number;
}

/**
 * The probability that an F-distributed variable reaches a value.
 *
 * Returns a probability 0..1. Throws a RangeError for a value below 0 or degrees of freedom that are not above 0.
 *
 * @example
 * statistics.fTail(4.2565, { numerator: 2, denominator: 9 }) // => 0.0500
 */
export function fTail(
  value: number,
  { numerator, denominator }: { readonly numerator: number; readonly denominator: number },
): number {
  checkNumber("statistics.fTail", "value", value, { atLeast: 0 });
  checkNumber("statistics.fTail", "numerator", numerator, { above: 0 });
  checkNumber("statistics.fTail", "denominator", denominator, { above: 0 });
  return library.betaCdf(denominator / (denominator + numerator * value), denominator / 2, numerator / 2);
}

/**
 * Tests a fitted curve against the scatter of repeats.
 *
 * Returns the residual sum of squares split into the scatter of repeats about their weighted mean (pure error) and what
 * the curve misses beyond it (lack of fit), with their F ratio and p-value. `groups` holds one word or number a row, the
 * same for rows that repeat each other. Valid for repeats that are independent of each other. Throws a RangeError where nothing is repeated
 * or no more places than parameters were observed.
 *
 * @example
 * statistics.lackOfFit(
 *   statistics.fitLeastSquares({
 *     x: [1, 1, 2, 2, 3, 3],
 *     y: [1.1, 0.9, 2.2, 2.0, 3.6, 3.4],
 *     model: ({ slope }, x) => slope * x,
 *     start: { slope: 1 },
 *   }),
 *   [1, 1, 2, 2, 3, 3],
 * ).f // => 2.67857
 */
export function lackOfFit<X, N extends string>(
  fit: LeastSquaresFit<X, N>,
  groups: readonly (string | number)[],
): LackOfFit {
  const where = "statistics.lackOfFit";
  if (groups.length !== fit.y.length) {
    refuse(where, `groups has ${groups.length} values and the fit ${fit.y.length} rows; each row needs one`);
  }
  const rows = new Map<string | number, number[]>();
  groups.forEach((group, row) => rows.set(group, [...(rows.get(group) ?? []), row]));
  const parameters = fit.parameters.length;
  const pureErrorFreedom = groups.length - rows.size;
  const lackOfFitFreedom = rows.size - parameters;
  if (pureErrorFreedom === 0) refuse(where, "no group has two rows; without repeats there is no pure error");
  if (lackOfFitFreedom <= 0) {
    refuse(
      where,
      `${rows.size} groups for ${parameters} parameters leave no room to miss; it takes at least ${parameters + 1}`,
    );
  }
  const pureError = [...rows.values()].reduce((sum, members) => sum + scatter(fit, members), 0);
  const lack = Math.max(fit.residualSumOfSquares - pureError, 0);
  const f = lack / lackOfFitFreedom / (pureError / pureErrorFreedom);
  return {
    method: "F test of lack of fit against pure error",
    pureError,
    pureErrorFreedom,
    lackOfFit: lack,
    lackOfFitFreedom,
    f,
    pValue: Number.isFinite(f) ? fTail(f, { numerator: lackOfFitFreedom, denominator: pureErrorFreedom }) : 0,
  };
}

function scatter(
  { y, weights }: Pick<LeastSquaresFit<unknown>, "y" | "weights">,
  members: readonly number[],
): number {
  const weight = members.reduce((sum, row) => sum + weights[row], 0);
  const mean = members.reduce((sum, row) => sum + weights[row] * y[row], 0) / weight;
  return members.reduce((sum, row) => sum + weights[row] * (y[row] - mean) ** 2, 0);
}
