import { Matrix } from "ml-matrix";

/** A least-squares problem in plain numbers: `valueAt` gives the model at each row, roots of the weights beside it. */
export interface Problem {
  readonly names: readonly string[];
  readonly observed: readonly number[];
  /** Root of each row's weight. */
  readonly roots: readonly number[];
  readonly valuesAt: (parameters: readonly number[]) => readonly number[];
}

/** Weighted residuals, observed minus model. */
export const residualsAt = (
  { observed, roots, valuesAt }: Problem,
  parameters: readonly number[],
): number[] => {
  const values = valuesAt(parameters);
  return observed.map((one, row) => roots[row] * (one - values[row]));
};

export const sumOfSquares = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value ** 2, 0);

/** Third root of the smallest relative step between numbers: central differences lose least with it. */
const relativeStep = Math.cbrt(Number.EPSILON);

/**
 * The weighted derivatives of the model, one column a parameter, by central differences; by a difference to one side where
 * the model has no value on the other.
 */
export function jacobianAt({ roots, valuesAt }: Problem, parameters: readonly number[]): Matrix {
  const jacobian = Matrix.zeros(roots.length, parameters.length);
  const here = valuesAt(parameters);
  parameters.forEach((parameter, column) => {
    const step = relativeStep * (parameter === 0 ? 1 : Math.abs(parameter));
    const moved = (by: number) => parameters.map((value, at) => (at === column ? value + by : value));
    const [up, down] = [moved(step), moved(-step)];
    const [above, below] = [valuesAt(up), valuesAt(down)];
    roots.forEach((root, row) => {
      const [high, low] = [Number.isFinite(above[row]), Number.isFinite(below[row])];
      const rise = (high ? above[row] : here[row]) - (low ? below[row] : here[row]);
      // The step as it is after rounding, not as it was meant.
      const width = (high ? up[column] : parameter) - (low ? down[column] : parameter);
      jacobian.set(row, column, width === 0 ? 0 : (root * rise) / width);
    });
  });
  return jacobian;
}

/** Length of each column. */
export const columnLengths = (jacobian: Matrix): number[] =>
  Array.from({ length: jacobian.columns }, (_, column) =>
    Math.sqrt(sumOfSquares(jacobian.getColumn(column))),
  );
