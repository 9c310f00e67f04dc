import { inverse, Matrix, QrDecomposition } from "ml-matrix";
import { type Counts, devianceOf } from "./likelihood";
import type { Link, LinkedShare } from "./link";
import { separatedRows } from "./separation";

/** A step that moves no row by more than this share of the largest value on the line ends the iteration. */
const smallStep = 1e-10;
const mostIterations = 200;
const mostHalvings = 30;

export interface Iterated {
  readonly kind: "fitted";
  /** Coefficients of the scaled columns, one column matrix. */
  readonly coefficients: Matrix;
  /** Inverse of the expected information on the scaled columns. */
  readonly covariance: Matrix;
  readonly shares: readonly LinkedShare[];
  readonly deviance: number;
  readonly iterations: number;
  readonly converged: boolean;
}

/** The data have no finite fit; the rows that go to a share of 1 or 0, as 1 and −1. */
export interface Separated {
  readonly kind: "separated";
  readonly moved: readonly number[];
}

/** Where the iteration stands: coefficients, and what they make of each row. */
interface Standing {
  readonly coefficients: Matrix;
  readonly line: readonly number[];
  readonly shares: readonly LinkedShare[];
  readonly deviance: number;
}

/**
 * Iteratively reweighted least squares (Fisher scoring) from the observed shares.
 *
 * Each pass solves a weighted least-squares problem by QR, halves the step while it raises the deviance, and ends once a
 * step moves nothing. A step that proves separation ends it too.
 */
export function iterate(design: Matrix, counts: Counts, link: Link): Iterated | Separated {
  const start = counts.successes.map((good, row) => {
    const share = (good + 0.5) / (counts.trials[row] + 1);
    return link.ofShare(share, 1 - share);
  });
  const standingAt = (coefficients: Matrix): Standing => {
    const line = design.mmul(coefficients).getColumn(0);
    const shares = line.map(link.at);
    return { coefficients, line, shares, deviance: devianceOf(counts, shares) };
  };
  let standing = standingAt(leastSquares(weighted(design, counts, start, start.map(link.at))));
  for (let iteration = 2; ; iteration++) {
    const next = damped(
      standing,
      standingAt,
      leastSquares(weighted(design, counts, standing.line, standing.shares)),
    );
    const change = next.line.map((value, row) => value - standing.line[row]);
    const converged = largest(change) <= smallStep * (1 + largest(next.line));
    const moved = converged ? undefined : separatedRows(change, counts.successes, counts.trials);
    if (moved !== undefined) return { kind: "separated", moved };
    standing = next;
    if (!converged && iteration < mostIterations) continue;
    const { coefficients, line, shares, deviance } = standing;
    const { rows } = weighted(design, counts, line, shares);
    const covariance = inverse(rows.transpose().mmul(rows));
    return { kind: "fitted", coefficients, covariance, shares, deviance, iterations: iteration, converged };
  }
}

const leastSquares = ({ rows, target }: WeightedRows): Matrix => new QrDecomposition(rows).solve(target);

/** Goes to the proposed coefficients, or only half, a quarter, … of the way while that raises the deviance. */
function damped(from: Standing, standingAt: (coefficients: Matrix) => Standing, proposed: Matrix): Standing {
  let next = standingAt(proposed);
  for (let halving = 0; halving < mostHalvings && worse(next.deviance, from.deviance); halving++) {
    next = standingAt(Matrix.add(next.coefficients, from.coefficients).mul(0.5));
  }
  return next;
}

/** Rounding may raise the deviance by a hair at the end. */
const worse = (next: number, before: number): boolean => !(next <= before + 1e-9 * (1 + Math.abs(before)));

const largest = (values: readonly number[]): number =>
  values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

interface WeightedRows {
  readonly rows: Matrix;
  readonly target: Matrix;
}

/** The least-squares problem of one pass: design and working response, both times the root of the weight. */
function weighted(
  design: Matrix,
  { successes, trials }: Counts,
  line: readonly number[],
  shares: readonly LinkedShare[],
): WeightedRows {
  const rows = design.clone();
  const target = Matrix.zeros(design.rows, 1);
  shares.forEach(({ share, rest, slope }, row) => {
    const variance = share * rest;
    // A share that has run into 0 or 1 to the last digit has nothing more to say.
    const root = variance > 0 && slope > 0 ? slope * Math.sqrt(trials[row] / variance) : 0;
    const response = root === 0 ? 0 : line[row] + (successes[row] / trials[row] - share) / slope;
    rows.mulRow(row, root);
    target.set(row, 0, root * response);
  });
  return { rows, target };
}
