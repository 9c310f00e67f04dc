const refuse = (where: string, sentence: string): never => {
  throw new RangeError(`survey.${where}: ${sentence}`);
};

/** Refuses values that are not finite numbers, and returns them in rising order. */
export function sorted(where: string, values: readonly number[]): readonly number[] {
  if (!Array.isArray(values) || values.length === 0) {
    return refuse(where, "there are no values; give at least one answer.");
  }
  const at = values.findIndex((value) => typeof value !== "number" || !Number.isFinite(value));
  if (at >= 0) {
    const text = String(values[at]);
    refuse(where, `values[${at}] is ${text}; leave missing answers out, as column() does, and never put 0.`);
  }
  return values.toSorted((one, other) => one - other);
}

/** The quantile of values in rising order: straight between the ranks 1 + (n − 1) p, definition 7 of Hyndman and Fan. */
export function quantileOf(rising: readonly number[], share: number): number {
  const rank = (rising.length - 1) * share;
  const below = Math.floor(rank);
  const above = Math.min(below + 1, rising.length - 1);
  return rising[below] + (rank - below) * (rising[above] - rising[below]);
}

/**
 * Quantiles of a sample: the value below which a share of the answers lies.
 *
 * Returns one value a share, in the unit of the values: straight between neighbours in order, definition 7 of Hyndman
 * and Fan 1996 (Am. Stat. 50), the usual one of spreadsheets. Throws a RangeError for no values, values that are not
 * finite and shares outside 0..1.
 *
 * @example
 * survey.quantiles([2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37], [0.25])[0] // => 6.5
 */
export function quantiles<V extends number>(values: readonly V[], shares: readonly number[]): readonly V[] {
  const rising = sorted("quantiles", values);
  return shares.map((share) => {
    if (!(share >= 0 && share <= 1)) {
      refuse("quantiles", `a share is ${String(share)}; it must lie from 0 to 1.`);
    }
    return quantileOf(rising, share) as V; // between two values of one dimension
  });
}
