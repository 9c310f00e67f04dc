/** The library's search, as far as it is used. */
type Minimize = (
  f: (at: readonly number[]) => number,
  start: readonly number[],
  options: { readonly tolerance: number; readonly lineTolerance: number; readonly maxIter: number },
) => number[];

let loaded: Minimize | undefined;

/** Stands in for the infinite: the library's line search adds and compares values. */
const impossible = 1e300;

const lost = (value: number): number => (Number.isFinite(value) ? -value : impossible);

/**
 * Powell's search for the greatest value of a function, by a library that loads when first called.
 *
 * Returns a place near a maximum; the start where the search lost its way. The place needs refining: the library stops
 * early, and is not told of bounds (its way of keeping to them fails on steps backwards).
 */
export function powellSearch(f: (at: readonly number[]) => number, start: readonly number[]): number[] {
  // The library has no types of its own; the type above is read off its documentation.
  loaded ??= require("minimize-powell") as Minimize;
  const found = loaded((at) => lost(f(at)), [...start], {
    tolerance: 1e-2,
    lineTolerance: 1e-2,
    maxIter: 12,
  });
  const better = found.every(Number.isFinite) && f(found) >= f(start);
  return better ? found : [...start];
}
