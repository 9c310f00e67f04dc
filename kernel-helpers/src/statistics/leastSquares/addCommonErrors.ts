import { inverse } from "ml-matrix";
import { checkLevel, checkNumber, refuse } from "../checks";
import { studentQuantile } from "../distributions";
import type { LeastSquaresFit } from "./fitLeastSquares";

const where = "statistics.addCommonErrors";

/**
 * Adds errors that all observations share to the errors of a fit.
 *
 * Residuals can't show what moves every observation together, such as a gauge that reads too high. Each cause is the list
 * of what it moves in the observations when it is off by one standard error; causes are independent of each other. Returns
 * the fit with larger covariance, standard errors and intervals, estimates unchanged. Valid where the shared errors are
 * small enough that the fit follows them along a straight line. Throws a RangeError where a cause does not have one number
 * a row.
 *
 * @example
 * statistics.addCommonErrors(
 *   statistics.fitLeastSquares({
 *     x: [1, 1, 2, 2], y: [1.1, 0.9, 2.2, 2.0], model: ({ slope }, x) => slope * x, start: { slope: 1 },
 *   }),
 *   { causes: [[0.1, 0.1, 0.1, 0.1]] },
 * ).parameters[0].standardError // => 0.07118
 */
export function addCommonErrors<X, N extends string>(
  fit: LeastSquaresFit<X, N>,
  { causes, level = fit.level }: { readonly causes: readonly (readonly number[])[]; readonly level?: number },
): LeastSquaresFit<X, N> {
  checkLevel(where, level);
  const covariance = fit.covariance.clone();
  const { jacobian } = fit;
  const unscaled = inverse(jacobian.transpose().mmul(jacobian));
  causes.forEach((moves, cause) => {
    if (moves.length !== fit.y.length) {
      refuse(
        where,
        `causes[${cause}] has ${moves.length} values and the fit ${fit.y.length} rows; each row needs one`,
      );
    }
    moves.forEach((value, row) => checkNumber(where, `causes[${cause}][${row}]`, value));
    const pulls = fit.parameters.map((_, column) =>
      moves.reduce(
        (sum, move, row) => sum + jacobian.get(row, column) * Math.sqrt(fit.weights[row]) * move,
        0,
      ),
    );
    const shifts = fit.parameters.map((_, at) =>
      pulls.reduce((sum, pull, column) => sum + unscaled.get(at, column) * pull, 0),
    );
    shifts.forEach((one, row) =>
      shifts.forEach((other, column) =>
        covariance.set(row, column, covariance.get(row, column) + one * other),
      ),
    );
  });
  const reach = studentQuantile(1 - (1 - level) / 2, fit);
  return {
    ...fit,
    method: `${fit.method}; errors shared by all rows added`,
    level,
    covariance,
    parameters: fit.parameters.map(({ name, estimate }, at) => {
      const standardError = Math.sqrt(covariance.get(at, at));
      return {
        name,
        estimate,
        standardError,
        lower: estimate - reach * standardError,
        upper: estimate + reach * standardError,
      };
    }),
  };
}
