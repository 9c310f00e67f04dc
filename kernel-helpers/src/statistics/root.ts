/**
 * Finds where a function changes its sign, by halving the bracket.
 *
 * Returns the root to the last digit that halving can reach (at most 200 steps). The function must have different signs
 * at `from` and `to`, or be 0 at one of them; otherwise a RangeError names both values.
 */
export function rootBetween(evaluate: (at: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  const [atLow, atHigh] = [evaluate(low), evaluate(high)];
  if (atLow === 0) return low;
  if (atHigh === 0) return high;
  if (!(atLow < 0 !== atHigh < 0) || Number.isNaN(atLow) || Number.isNaN(atHigh)) {
    throw new RangeError(
      `rootBetween: the function is ${atLow} at ${from} and ${atHigh} at ${to}; a root between them needs ` +
        "different signs.",
    );
  }
  const rising = atHigh > 0;
  for (let step = 0; step < 200; step++) {
    const middle = low + (high - low) / 2;
    if (middle <= Math.min(low, high) || middle >= Math.max(low, high)) break;
    const value = evaluate(middle);
    if (value === 0) return middle;
    if (value > 0 === rising) high = middle;
    else low = middle;
  }
  return low + (high - low) / 2;
}
