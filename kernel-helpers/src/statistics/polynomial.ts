import { Matrix, solve } from "ml-matrix";

/**
 * A polynomial fitted to points by least squares.
 *
 * Returns the function. The caller sees to more places than the degree; places are scaled to lie from -1 to 1 so that
 * their powers stay apart.
 */
export function fittedPolynomial(
  places: readonly number[],
  values: readonly number[],
  degree: number,
): (place: number) => number {
  const low = Math.min(...places);
  const high = Math.max(...places);
  const powers = (place: number): number[] => {
    const scaled = high > low ? (2 * place - low - high) / (high - low) : 0;
    return Array.from({ length: degree + 1 }, (_, power) => scaled ** power);
  };
  const coefficients = solve(new Matrix(places.map(powers)), Matrix.columnVector([...values])).to1DArray();
  return (place) => powers(place).reduce((sum, power, at) => sum + power * coefficients[at], 0);
}
