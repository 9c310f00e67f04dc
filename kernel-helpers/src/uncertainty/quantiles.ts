/**
 * Quantiles of numbers in any order, between ranks in a straight line. Puts the numbers partly in order in place: a
 * selection is several times faster than a sort.
 */
export function quantilesOf(values: Float64Array, shares: readonly number[]): number[] {
  const last = values.length - 1;
  const found = shares.map(() => 0);
  // From the lowest share up, so that each search begins where the one before ended.
  const order = shares.map((_, at) => at).toSorted((one, other) => shares[one] - shares[other]);
  let from = 0;
  for (const at of order) {
    const rank = shares[at] * last;
    const below = Math.floor(rank);
    select(values, below, from, last);
    from = below;
    const low = values[below];
    if (rank === below) {
      found[at] = low;
      continue;
    }
    let high = Infinity;
    for (let above = below + 1; above <= last; above++) if (values[above] < high) high = values[above];
    found[at] = low + (rank - below) * (high - low);
  }
  return found;
}

/** Puts the value of this rank in its place, nothing larger before it and nothing smaller behind (Hoare's selection). */
function select(values: Float64Array, rank: number, first: number, last: number): void {
  let [left, right] = [first, last];
  while (right > left) {
    // The median of three, so that ordered numbers are no worst case.
    const pivot = medianOf(values[left], values[(left + right) >> 1], values[right]);
    let [up, down] = [left, right];
    while (up <= down) {
      while (values[up] < pivot) up++;
      while (values[down] > pivot) down--;
      if (up <= down) {
        const held = values[up];
        values[up] = values[down];
        values[down] = held;
        up++;
        down--;
      }
    }
    if (rank <= down) right = down;
    else if (rank >= up) left = up;
    else return;
  }
}

const medianOf = (one: number, two: number, three: number): number =>
  one < two ? (two < three ? two : one < three ? three : one) : one < three ? one : two < three ? three : two;

/** Mean and standard deviation, in two passes: differences of large sums lose digits. */
export function momentsOf(values: Float64Array): {
  readonly mean: number;
  readonly standardDeviation: number;
} {
  let sum = 0;
  for (let at = 0; at < values.length; at++) sum += values[at];
  const mean = sum / values.length;
  let squares = 0;
  for (let at = 0; at < values.length; at++) squares += (values[at] - mean) ** 2;
  return { mean, standardDeviation: Math.sqrt(squares / (values.length - 1)) };
}

/** The mean of several estimates and its standard error from their scatter. */
export function meanOfShifts(estimates: readonly number[]): {
  readonly value: number;
  readonly standardError: number;
} {
  const { mean, standardDeviation } = momentsOf(Float64Array.from(estimates));
  return { value: mean, standardError: standardDeviation / Math.sqrt(estimates.length) };
}
