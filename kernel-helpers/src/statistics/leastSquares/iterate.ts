import { type Matrix, QrDecomposition } from "ml-matrix";
import { library } from "../library";
import { columnLengths, jacobianAt, type Problem, residualsAt, sumOfSquares } from "./problem";

/** The part of the residuals that a step could still take away, over the part that it can't. */
const smallOffset = 1e-8;
/** The same where rounding stops the steps earlier. */
const roundedOffset = 1e-5;
/** Residuals below this share of the observations are rounding: the model goes through every point. */
const exact = 1e-13;
const mostSteps = 3000;
const leastDamping = 1e-14;
const mostDamping = 1e12;
/** Stands for a value that is no number, so that the step which led there counts as a bad one. */
const farAway = 1e75;

export interface Iterated {
  readonly parameters: readonly number[];
  readonly iterations: number;
  readonly converged: boolean;
}

/**
 * Levenberg–Marquardt steps from the start until no step can lower the sum of squares.
 *
 * The library is asked for one step at a time: left to itself it keeps a step that makes the fit worse, takes the same
 * damping for parameters of any size, and does not say whether it arrived. Here each step is taken in units in which every
 * parameter moves the fit alike, is kept only where it lowers the sum, and arrival is judged by the relative offset
 * of Bates & Watts.
 */
export function iterate(problem: Problem, start: readonly number[]): Iterated {
  let parameters = start;
  let damping = 1e-3;
  for (let iterations = 1; iterations <= mostSteps; iterations++) {
    const residuals = residualsAt(problem, parameters);
    const jacobian = jacobianAt(problem, parameters);
    const offset = relativeOffset(problem, jacobian, residuals);
    if (offset <= smallOffset) return { parameters, iterations, converged: true };
    const next = stepFrom(problem, parameters, { residuals, jacobian, damping });
    if (next === undefined) {
      damping *= 11;
      if (damping > mostDamping) return { parameters, iterations, converged: offset <= roundedOffset };
    } else {
      parameters = next;
      damping = Math.max(damping / 9, leastDamping);
    }
  }
  return { parameters, iterations: mostSteps, converged: false };
}

/** How far the residuals still lean towards the directions in which parameters can move them. */
function relativeOffset(
  { observed, roots }: Problem,
  jacobian: Matrix,
  residuals: readonly number[],
): number {
  const size = Math.sqrt(sumOfSquares(observed.map((value, row) => roots[row] * value)));
  const length = Math.sqrt(sumOfSquares(residuals));
  if (length <= exact * size) return 0;
  const basis = new QrDecomposition(jacobian).orthogonalMatrix;
  const within = Math.sqrt(
    sumOfSquares(
      Array.from({ length: basis.columns }, (_, column) =>
        basis.getColumn(column).reduce((sum, value, row) => sum + value * residuals[row], 0),
      ),
    ),
  );
  const beyond = Math.sqrt(Math.max(length ** 2 - within ** 2, (exact * size) ** 2));
  const freedom = Math.max(residuals.length - jacobian.columns, 1);
  return within / Math.sqrt(jacobian.columns) / (beyond / Math.sqrt(freedom));
}

/** One step of the library in scaled parameters; undefined where it does not lower the sum of squares. */
function stepFrom(
  problem: Problem,
  parameters: readonly number[],
  {
    residuals,
    jacobian,
    damping,
  }: { readonly residuals: readonly number[]; readonly jacobian: Matrix; readonly damping: number },
): readonly number[] | undefined {
  const before = sumOfSquares(residuals);
  const size = Math.sqrt(before);
  const rows = residuals.map((_, row) => row);
  // In these units every column of the Jacobian has length 1 and the residuals together too.
  const scales = columnLengths(jacobian).map((length) => (length > 0 ? size / length : 1));
  const back = (scaled: readonly number[]) => scaled.map((value, at) => parameters[at] + value * scales[at]);
  const { parameterValues } = library.levenbergMarquardt(
    { x: rows, y: residuals.map((value) => value / size) },
    (scaled) => {
      const moved = residualsAt(problem, back(scaled));
      // The library fits residuals by how much they have shrunk.
      return (row) => {
        const shrunk = (residuals[row] - moved[row]) / size;
        return Number.isFinite(shrunk) ? shrunk : farAway;
      };
    },
    {
      initialValues: parameters.map(() => 0),
      jacobianFunction: () => (row) =>
        scales.map((scale, column) => (jacobian.get(row, column) * scale) / size),
      damping,
      maxIterations: 1,
      errorTolerance: 0,
    },
  );
  const next = back(parameterValues);
  return sumOfSquares(residualsAt(problem, next)) < before ? next : undefined;
}
