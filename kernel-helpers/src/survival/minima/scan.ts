/** How close two survivals must be to count as equal: rounding is smaller, an effect is larger. */
export const equalSurvivals = 1e-12;

/** How far to either side of a break the law is looked at, as a share of the length. */
const besideBreak = 1e-12;

/** Which side of a break a scanned point lies on, so that no bracket reaches across a jump. */
export interface ScanPoint {
  readonly at: number;
  readonly side: "before" | "after" | undefined;
}

/**
 * Points from the shortest to the longest length, one step apart, and two beside each break.
 *
 * Returns them in rising order; lengths in metres.
 */
export function scanPoints(
  shortest: number,
  longest: number,
  step: number,
  breaks: readonly number[],
): readonly ScanPoint[] {
  const inside = breaks.filter((at) => at > shortest && at < longest);
  const steps = Math.floor((longest - shortest) / step + 1e-9);
  const regular = Array.from({ length: steps + 1 }, (_, index) => Math.min(longest, shortest + index * step));
  if ((regular.at(-1) ?? longest) < longest) regular.push(longest);
  const free = regular.filter((at) => inside.every((edge) => Math.abs(at - edge) > 4 * besideBreak * edge));
  return [
    ...free.map((at): ScanPoint => ({ at, side: undefined })),
    ...inside.flatMap((edge): ScanPoint[] => [
      { at: edge * (1 - besideBreak), side: "before" },
      { at: edge * (1 + besideBreak), side: "after" },
    ]),
  ].toSorted((one, other) => one.at - other.at);
}

/** A run of neighbouring points of equal value, lower than the points on both of its sides. */
export interface Valley {
  readonly first: number;
  readonly last: number;
}

/** Finds the valleys in a list of values. Runs at either end are none: nobody knows how they go on. */
export function valleys(values: readonly number[]): readonly Valley[] {
  const found: Valley[] = [];
  let first = 0;
  for (let index = 1; index <= values.length; index++) {
    const level = values[first] ?? Number.NaN;
    const next = values[index];
    if (next !== undefined && Math.abs(next - level) <= equalSurvivals) continue;
    const before = values[first - 1];
    if (before !== undefined && next !== undefined && before > level && next > level) {
      found.push({ first, last: index - 1 });
    }
    first = index;
  }
  return found;
}
