import type { Values } from "./family";
import type { Best, Lapses, Model } from "./model";
import type { WidthCounts } from "./trialFish";

/** Thresholds looked at first, from 0 to the highest possible. */
const coarse = 24;
const golden = (Math.sqrt(5) - 1) / 2;
/** The best threshold is closed in on to this width. */
const closeEnough = 1e-6;

/**
 * The most likely threshold, all others being at their best.
 *
 * With an exponent below 1 the likelihood has a corner wherever the threshold meets the width of a fish that passed, and
 * may have several tops: so the thresholds are looked through, first in even steps, then at those widths and by golden
 * sections about the best.
 */
export function overThresholds(
  counts: WidthCounts,
  lapses: Lapses,
  smooth: Model["best"],
  held: Values,
  start: Values = {},
): Best | undefined {
  let near = start;
  // With shares that go against the curve a threshold may have several tops of its own: each is searched for afresh,
  // unless there is a fit to start from.
  let afresh = Object.keys(start).length === 0 && (lapses.heldAnyway || lapses.passedAnyway);
  const at = (threshold: number): Best | undefined => {
    const found = smooth({ ...held, threshold }, afresh ? {} : near);
    if (found !== undefined) near = found.values;
    return found === undefined ? undefined : { ...found, errors: undefined };
  };
  const limit = highestThreshold(counts, lapses.heldAnyway && held.heldAnyway !== 0);
  if (!(limit >= 0)) return undefined;
  const corners = counts.widths.filter((width, row) => width < limit && counts.held[row] < counts.fish[row]);
  const steps = Array.from({ length: coarse + 1 }, (_, step) => (limit * step) / coarse);
  const grid = corners.length > coarse ? steps : [...steps, ...corners].toSorted((a, b) => a - b);
  const tops = grid.map(at);
  const first = indexOfBest(tops);
  let best = tops[first];
  if (best === undefined) return undefined;
  afresh = false;
  near = best.values;

  let [from, to] = [grid[Math.max(0, first - 1)], grid[Math.min(grid.length - 1, first + 1)]];
  const inside = corners.filter((width) => width > from && width < to);
  const places = [from, ...inside, grid[first], to].toSorted((a, b) => a - b);
  const looked = places.map((place) => (place === grid[first] ? best : at(place)));
  const second = indexOfBest(looked);
  best = looked[second] ?? best;
  [from, to] = [places[Math.max(0, second - 1)], places[Math.min(places.length - 1, second + 1)]];

  const keep = (found: Best | undefined): number => {
    if (found !== undefined && best !== undefined && found.logLikelihood > best.logLikelihood) best = found;
    return found?.logLikelihood ?? -Infinity;
  };
  let [left, right] = [to - golden * (to - from), from + golden * (to - from)];
  let [atLeft, atRight] = [keep(at(left)), keep(at(right))];
  while (to - from > closeEnough) {
    if (atLeft >= atRight) {
      [to, right, atRight] = [right, left, atLeft];
      left = to - golden * (to - from);
      atLeft = keep(at(left));
    } else {
      [from, left, atLeft] = [left, right, atRight];
      right = from + golden * (to - from);
      atRight = keep(at(right));
    }
  }
  return best;
}

const indexOfBest = (tops: readonly (Best | undefined)[]): number =>
  tops.reduce(
    (best, one, place) =>
      (one?.logLikelihood ?? -Infinity) > (tops[best]?.logLikelihood ?? -Infinity) ? place : best,
    0,
  );

/** The highest threshold that the data allow: below the slimmest fish held, unless some are held however slim. */
export function highestThreshold({ widths, held }: WidthCounts, heldAnyway: boolean): number {
  const slimmest = widths.find((_, row) => held[row] > 0) ?? 1;
  return (heldAnyway ? 0.99 : Math.min(1, slimmest)) - 1e-9;
}
