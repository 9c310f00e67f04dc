import { stepped } from "../lengthClasses";

/** How close two survivals must be to count as equal: rounding is smaller, an effect is larger. */
export const equalSurvivals = 1e-12;

/** A dip shallower than this, one fish in a thousand million, is rounding. */
const shallowestDip = 1e-9;

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
  const regular = stepped(shortest, longest, step);
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

/** A run of neighbouring points of equal value, lower than what lies on both of its sides. */
export interface Valley {
  readonly first: number;
  readonly last: number;
}

/**
 * Finds the valleys in a list of values.
 *
 * A valley is confirmed once the values have fallen into it and risen out of it by more than a rounding error. A fall
 * to the end of the list is none, nor is a rise from its start: nobody knows how they go on.
 */
export function valleys(values: readonly number[]): readonly Valley[] {
  const found: Valley[] = [];
  let peak = values[0] ?? Number.NaN;
  let lowest: number | undefined;
  values.forEach((value, index) => {
    if (lowest === undefined) {
      peak = Math.max(peak, value);
      if (value < peak - shallowestDip) lowest = index;
    } else if (value < values[lowest] - equalSurvivals) {
      lowest = index;
    } else if (value > values[lowest] + shallowestDip) {
      found.push({ first: lowest, last: endOfRun(values, lowest) });
      peak = value;
      lowest = undefined;
    }
  });
  return found;
}

function endOfRun(values: readonly number[], first: number): number {
  let last = first;
  while (Math.abs((values[last + 1] ?? Number.NaN) - values[first]) <= equalSurvivals) last += 1;
  return last;
}
