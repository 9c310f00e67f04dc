import { CholeskyDecomposition, Matrix } from "ml-matrix";
import { powellSearch } from "./powell";

/** A place at which a log-likelihood is greatest, and how it bends there. */
export interface Maximum {
  readonly at: readonly number[];
  readonly value: number;
  /** Inverse of the observed information. */
  readonly covariance: Matrix;
  /** What one more Newton step would gain: half the square of the distance to the top in standard errors. */
  readonly gainLeft: number;
}

type LogLikelihood = (at: readonly number[]) => number;

/** A maximum is taken as reached where a further step would gain no more log-likelihood than this, or its rounding. */
const enough = (value: number): number => Math.max(1e-9, 1e-11 * Math.abs(value));
/** By how much the other parameters may widen the variance of one. */
const ridge = 1e6;
const mostSteps = 40;
const mostHalvings = 25;

/**
 * Finds where a smooth log-likelihood is greatest, on a scale without bounds.
 *
 * Powell's search comes near, Newton's steps with central differences sharpen; from a start that is `near` already the
 * search is left out unless the steps fail. Undefined where no place is found at which the slope vanishes and the
 * log-likelihood bends down in every direction: what is no maximum is not called one.
 */
export function maximumNear(
  f: LogLikelihood,
  start: readonly number[],
  { near = false }: { readonly near?: boolean } = {},
): Maximum | undefined {
  if (start.length === 0) return { at: [], value: f([]), covariance: Matrix.zeros(0, 0), gainLeft: 0 };
  return (near ? climb(f, start) : undefined) ?? climb(f, powellSearch(f, start));
}

function climb(f: LogLikelihood, start: readonly number[]): Maximum | undefined {
  let at = start;
  let value = f(at);
  if (!Number.isFinite(value)) return undefined;
  for (let step = 0; step < mostSteps; step++) {
    const { slope, information } = shapeAt(f, at, value);
    // Beside a place where the data are impossible there are no differences to take.
    if (![...slope, ...information.to1DArray()].every(Number.isFinite)) return undefined;
    const bent = new CholeskyDecomposition(information);
    if (!bent.isPositiveDefinite()) return undefined;
    const move = bent.solve(Matrix.columnVector(slope)).getColumn(0);
    const gainLeft = 0.5 * slope.reduce((sum, one, place) => sum + one * move[place], 0);
    if (!Number.isFinite(gainLeft)) return undefined;
    if (gainLeft <= enough(value)) {
      const covariance = bent.solve(Matrix.eye(at.length));
      // Differences can't tell such a ridge from a flat one.
      if (at.some((_, place) => covariance.get(place, place) * information.get(place, place) > ridge))
        return undefined;
      // One step more: near the top each one doubles the digits.
      const closer = moved(at, move, 1);
      const there = f(closer);
      const gained = there >= value;
      return {
        at: gained ? closer : at,
        value: gained ? there : value,
        gainLeft,
        covariance,
      };
    }
    let share = 1;
    let halvings = 0;
    let next = moved(at, move, share);
    let there = f(next);
    while (!(there > value)) {
      if (++halvings > mostHalvings) return undefined;
      share /= 2;
      next = moved(at, move, share);
      there = f(next);
    }
    at = next;
    value = there;
  }
  return undefined;
}

const moved = (at: readonly number[], move: readonly number[], share: number): number[] =>
  at.map((one, place) => one + share * move[place]);

/** Slope and observed information by central differences. */
function shapeAt(
  f: LogLikelihood,
  at: readonly number[],
  value: number,
): { readonly slope: number[]; readonly information: Matrix } {
  const steps = at.map((_, place) => stepOf(f, at, value, place));
  const shifted = (...moves: readonly (readonly [place: number, by: number])[]): number => {
    const there = [...at];
    for (const [place, by] of moves) there[place] += by;
    return f(there);
  };
  const ahead = steps.map((step, place) => shifted([place, step]));
  const behind = steps.map((step, place) => shifted([place, -step]));
  const information = Matrix.zeros(at.length, at.length);
  for (let row = 0; row < at.length; row++) {
    information.set(row, row, (2 * value - ahead[row] - behind[row]) / steps[row] ** 2);
    for (let column = 0; column < row; column++) {
      const [a, b] = [steps[row], steps[column]];
      const mixed =
        (shifted([row, a], [column, b]) -
          shifted([row, a], [column, -b]) -
          shifted([row, -a], [column, b]) +
          shifted([row, -a], [column, -b])) /
        (4 * a * b);
      information.set(row, column, -mixed);
      information.set(column, row, -mixed);
    }
  }
  return { slope: steps.map((step, place) => (ahead[place] - behind[place]) / (2 * step)), information };
}

/**
 * A step that changes the log-likelihood by about a millionth: small against a standard error, large against rounding.
 */
function stepOf(f: LogLikelihood, at: readonly number[], value: number, place: number): number {
  const trial = 1e-3 * Math.max(0.1, Math.abs(at[place]));
  const there = [...at];
  there[place] = at[place] + trial;
  const ahead = f(there);
  there[place] = at[place] - trial;
  const bend = (2 * value - ahead - f(there)) / trial ** 2;
  const wanted = 1e-6 * Math.max(1, 1e-3 * Math.abs(value));
  return bend > 0 && Number.isFinite(bend) ? Math.min(10 * trial, Math.sqrt((2 * wanted) / bend)) : trial;
}
