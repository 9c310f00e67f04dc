import { equalSurvivals, type ScanPoint, type Valley } from "./scan";

/** A point of a curve. */
export interface Point {
  readonly at: number;
  readonly value: number;
}

const goldenShare = (Math.sqrt(5) - 1) / 2;

/** Narrowest bracket worth having: a thousandth of a micrometre. */
const finestBracket = 1e-9;

/** Golden-section search: the lowest point of a curve that falls and then rises within the bracket. */
function goldenSection(curve: (at: number) => number, from: number, to: number): Point {
  let low = from;
  let high = to;
  let left = high - goldenShare * (high - low);
  let right = low + goldenShare * (high - low);
  let leftValue = curve(left);
  let rightValue = curve(right);
  while (high - low > finestBracket) {
    if (leftValue <= rightValue) {
      high = right;
      right = left;
      rightValue = leftValue;
      left = high - goldenShare * (high - low);
      leftValue = curve(left);
    } else {
      low = left;
      left = right;
      leftValue = rightValue;
      right = low + goldenShare * (high - low);
      rightValue = curve(right);
    }
  }
  return leftValue <= rightValue ? { at: left, value: leftValue } : { at: right, value: rightValue };
}

/**
 * Refines one valley of a scan.
 *
 * Returns the lowest point; of a flat valley its beginning. The bracket stops at a break, where the curve may jump.
 */
export function refine(
  curve: (at: number) => number,
  points: readonly ScanPoint[],
  values: readonly number[],
  { first, last }: Valley,
): Point {
  const start = points[first];
  const end = points[last];
  const from = start.side === "after" ? start.at : points[first - 1].at;
  const to = end.side === "before" ? end.at : points[last + 1].at;
  const scanned: Point = { at: start.at, value: values[first] };
  const found = goldenSection(curve, from, to);
  if (found.value < scanned.value - equalSurvivals) return found;
  return last > first && end.at - start.at > finestBracket
    ? flatBeginning(curve, from, scanned)
    : found.value < scanned.value
      ? found
      : scanned;
}

/** Where a flat valley begins, between a higher point and one in the valley. */
function flatBeginning(curve: (at: number) => number, higher: number, inside: Point): Point {
  let outside = higher;
  let bottom = inside.at;
  while (bottom - outside > finestBracket) {
    const middle = (outside + bottom) / 2;
    if (curve(middle) <= inside.value + equalSurvivals) bottom = middle;
    else outside = middle;
  }
  return { at: bottom, value: inside.value };
}
