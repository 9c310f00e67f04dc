import { fittedPolynomial } from "../statistics/polynomial";

/** A cubic through the 12 good samples on either side, as Goring & Nikora 2002 replace spikes. */
const samplesEachSide = 12;
const degree = 3;

/**
 * The series with its bad samples bridged by a cubic fitted to the 12 good samples on either side.
 *
 * Bridged values only keep the differences of their neighbours sensible; no statistic reads them.
 */
export function bridged(series: readonly number[], bad: readonly boolean[]): number[] {
  const result = [...series];
  for (let start = 0; start < series.length; start++) {
    if (!bad[start]) continue;
    let end = start;
    while (end + 1 < series.length && bad[end + 1]) end++;
    const value = curveAcross(series, goodFrom(bad, start - 1, -1), goodFrom(bad, end + 1, 1));
    for (let at = start; at <= end; at++) result[at] = value(at);
    start = end;
  }
  return result;
}

function goodFrom(bad: readonly boolean[], from: number, step: 1 | -1): number[] {
  const found: number[] = [];
  for (let at = from; at >= 0 && at < bad.length && found.length < samplesEachSide; at += step) {
    if (!bad[at]) found.push(at);
  }
  return found;
}

function curveAcross(
  series: readonly number[],
  before: readonly number[],
  after: readonly number[],
): (at: number) => number {
  const places = [...before, ...after];
  const values = places.map((at) => series[at]);
  // From one side only a cubic would run away: there the mean of the nearest good samples stands in.
  if (before.length > degree && after.length > degree) return fittedPolynomial(places, values, degree);
  const level = values.reduce((sum, value) => sum + value, 0) / values.length;
  return () => level;
}
