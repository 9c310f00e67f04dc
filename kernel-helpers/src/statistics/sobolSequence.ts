import { checkWhole } from "./checks";
import { library } from "./library";
import { checkSeed, uniforms } from "./random";

/** Dimensions in the shorter of the library's two tables. */
const mostDimensions = 160;
/** The library's numbers carry 20 bits: after so many points it begins anew. */
const bits = 20;
export const mostSobolPoints = 2 ** bits;

/** One column of numbers from 0 (included) to 1 (excluded) a dimension. */
export type UniformColumns = readonly Float64Array[];

/**
 * Points that fill a cube of many dimensions evenly: Sobol's sequence under a random digital shift.
 *
 * Returns one column of numbers between 0 and 1 a dimension. A shift leaves the points as even as they were and makes each of
 * them uniform: several seeds give several estimates, whose scatter is their error. Most even for a power of 2. Throws
 * a RangeError for more than 160 dimensions or 1048576 points, and for a seed that is not whole.
 *
 * @example
 * statistics.lowDiscrepancy({ dimensions: 2, points: 8, seed: 1 })[0].filter((one) => one < 0.5).length // => 4
 */
export function lowDiscrepancy({
  dimensions,
  points,
  seed,
}: {
  readonly dimensions: number;
  readonly points: number;
  readonly seed: number;
}): UniformColumns {
  const where = "statistics.lowDiscrepancy";
  checkWhole(where, "dimensions", dimensions, 1, mostDimensions);
  checkWhole(where, "points", points, 1, mostSobolPoints);
  checkSeed(where, seed);
  return shifted(sobolPoints(dimensions, points), seed);
}

/** The sequence itself as whole numbers of 20 bits, one column a dimension; it begins at the corner of the cube. */
export function sobolPoints(dimensions: number, points: number): readonly Int32Array[] {
  const columns = Array.from({ length: dimensions }, () => new Int32Array(points));
  const generator = library.sobolGenerator(dimensions);
  for (let point = 0; point < points; point++) {
    const place = generator.nextVector();
    for (let dimension = 0; dimension < dimensions; dimension++)
      columns[dimension][point] = place[dimension] * mostSobolPoints;
  }
  return columns;
}

/**
 * Points under a random digital shift: one shift a dimension, the same for every point. Below the 20 bits of the sequence
 * the shift goes on, so that no number is exactly 0 and the ends of a distribution are not met.
 */
export function shifted(columns: readonly Int32Array[], seed: number): UniformColumns {
  const uniform = uniforms(seed);
  return columns.map((column) => {
    const shift = Math.floor(uniform() * mostSobolPoints);
    const rest = uniform();
    const moved = new Float64Array(column.length);
    for (let at = 0; at < moved.length; at++) moved[at] = ((column[at] ^ shift) + rest) / mostSobolPoints;
    return moved;
  });
}

/**
 * Independent random numbers, one column a dimension.
 *
 * Returns numbers from 0 (included) to 1 (excluded), the same for the same seed. Throws a RangeError for a number of
 * dimensions or points that is not whole or not above 0, and for a seed that is not whole.
 *
 * @example
 * statistics.randomNumbers({ dimensions: 2, points: 8, seed: 1 })[1].length // => 8
 */
export function randomNumbers({
  dimensions,
  points,
  seed,
}: {
  readonly dimensions: number;
  readonly points: number;
  readonly seed: number;
}): UniformColumns {
  const where = "statistics.randomNumbers";
  checkWhole(where, "dimensions", dimensions, 1);
  checkWhole(where, "points", points, 1);
  checkSeed(where, seed);
  const uniform = uniforms(seed);
  const columns = Array.from({ length: dimensions }, () => new Float64Array(points));
  for (let point = 0; point < points; point++) for (const column of columns) column[point] = uniform();
  return columns;
}
