const bins = 4096;

/**
 * Quantiles of numbers in any order, between ranks in a straight line; the numbers stay as they are.
 *
 * The numbers are counted into bins, and only those of a bin that holds a wanted rank are put in order: several times faster
 * than sorting them all, and the same to the last digit.
 */
export function quantilesOf(values: Float64Array, shares: readonly number[]): number[] {
  const last = values.length - 1;
  const ranks = shares.map((share) => Math.floor(share * last));
  const valueAt = ordered(values, new Set(ranks.flatMap((rank) => [rank, Math.min(last, rank + 1)])));
  return shares.map((share, at) => {
    const low = valueAt(ranks[at]);
    return low + (share * last - ranks[at]) * (valueAt(Math.min(last, ranks[at] + 1)) - low);
  });
}

/** The values at some ranks. */
function ordered(values: Float64Array, ranks: ReadonlySet<number>): (rank: number) => number {
  let [least, most] = [Infinity, -Infinity];
  for (let at = 0; at < values.length; at++) {
    if (values[at] < least) least = values[at];
    if (values[at] > most) most = values[at];
  }
  // Numbers of no spread, or of one too wide for a difference, all go into the first bin.
  const scale = most > least && Number.isFinite(most - least) ? (bins - 1) / (most - least) : 0;
  const counts = new Int32Array(bins);
  for (let at = 0; at < values.length; at++) counts[((values[at] - least) * scale) | 0]++;
  const before = new Int32Array(bins);
  for (let bin = 1; bin < bins; bin++) before[bin] = before[bin - 1] + counts[bin - 1];
  const binOf = (rank: number): number => {
    let [low, high] = [0, bins - 1];
    // The last bin that begins at or before the rank and is not empty holds it.
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (before[middle] <= rank) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  const wanted = new Map([...ranks].map((rank) => [binOf(rank), [] as number[]]));
  const isWanted = new Uint8Array(bins);
  for (const bin of wanted.keys()) isWanted[bin] = 1;
  for (let at = 0; at < values.length; at++) {
    const bin = ((values[at] - least) * scale) | 0;
    if (isWanted[bin] === 1) wanted.get(bin)?.push(values[at]);
  }
  const sorted = new Map([...wanted].map(([bin, members]) => [bin, Float64Array.from(members).toSorted()]));
  return (rank) => {
    const bin = binOf(rank);
    return sorted.get(bin)?.[rank - before[bin]] ?? Number.NaN;
  };
}

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
