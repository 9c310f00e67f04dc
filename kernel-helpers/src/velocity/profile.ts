/**
 * Integral of measured values from one boundary to another: straight lines between the places (trapezoids), and from each
 * outermost place to its boundary the power law value·(distance/distance of the place)^exponent.
 *
 * An exponent of 0 holds the outermost value up to the boundary, 1 lets it fall to nothing in a straight line.
 */
export function integrated(
  places: readonly number[],
  values: readonly number[],
  from: { readonly at: number; readonly exponent: number },
  to: { readonly at: number; readonly exponent: number },
): { readonly total: number; readonly edges: number } {
  const last = places.length - 1;
  const first = ((places[0] - from.at) * values[0]) / (1 + from.exponent);
  const end = ((to.at - places[last]) * values[last]) / (1 + to.exponent);
  let between = 0;
  for (let i = 1; i <= last; i++) between += ((places[i] - places[i - 1]) * (values[i] + values[i - 1])) / 2;
  return { total: first + between + end, edges: first + end };
}
