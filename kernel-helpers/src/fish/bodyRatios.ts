import type { Length } from "../quantity/dimension";
import { format } from "../quantity/format";
import { u } from "../quantity/u";
import { derived } from "../formula/source";
import { checkLevel, refuse } from "../statistics/checks";
import { studentQuantile } from "../statistics/distributions";
import { type FishSpecies, species as speciesNamed, withSpecies } from "./species";

const where = "fish.bodyRatios";

/** A fish whose body was measured. */
export interface MeasuredBody {
  readonly species: string;
  readonly totalLength: Length;
  readonly width: Length;
  readonly height: Length;
}

/** A number with its interval. */
export interface MeasuredNumber {
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
}

/** One measure of the body over total length, among the fish of a species. */
export interface BodyRatio {
  /** Mean of the ratios, and their standard deviation. */
  readonly mean: number;
  readonly standardDeviation: number;
  /** The ratio of the middle fish of median length, with its interval. */
  readonly atMedianLength: MeasuredNumber;
  /** Exponent by which the ratio grows with length: above 0, longer fish are stouter. */
  readonly allometry: MeasuredNumber;
  /** Standard deviation of ln(ratio) among fish of one length. */
  readonly spread: number;
  /** The ratio of the middle fish of another length. */
  readonly at: (totalLength: Length) => number;
}

/** The measured bodies of a species. */
export interface SpeciesBodies {
  readonly species: string;
  readonly fish: number;
  readonly shortest: Length;
  readonly longest: Length;
  readonly medianLength: Length;
  readonly width: BodyRatio;
  readonly height: BodyRatio;
  /** Correlation of width and height among fish of one length: a well-fed fish is wider and higher at once. */
  readonly correlation: number;
}

/**
 * Body ratios of species from measured fish: width and height over total length.
 *
 * Returns, by species in order of appearance, mean and standard deviation of the ratios, the ratio of a fish of median length,
 * the exponent by which the ratio changes with length, and the spread of ln(ratio) among fish of one length, from a straight
 * line of ln(ratio) on ln(length) with Student's intervals. Valid within the lengths measured and for the population,
 * season and condition of the fish. Throws a RangeError for a measure that is not above 0 or not below the total length,
 * and for a species with fewer than four fish or fish of one length only.
 *
 * @example
 * fish.bodyRatios({ fish: [100, 130, 160, 200].map((length) => ({ species: "roach", totalLength: u.mm(length),
 *   width: u.mm(0.11 * length), height: u.mm(0.26 * length) })) })[0].width.mean // => 0.11
 */
export function bodyRatios({
  fish,
  level = 0.95,
}: {
  readonly fish: readonly MeasuredBody[];
  readonly level?: number;
}): readonly SpeciesBodies[] {
  checkLevel(where, level);
  if (fish.length === 0) refuse(where, "fish is empty; give measured fish");
  fish.forEach((one, row) => checkBody(one, row));
  return [...new Set(fish.map((one) => one.species))].map((species) =>
    bodiesOf(
      species,
      fish.filter((one) => one.species === species),
      level,
    ),
  );
}

/**
 * Puts measured bodies into a species table.
 *
 * Returns a new table in which the species measured have the width and height ratios of their fish of median length; the
 * other species stay as they are. Throws a RangeError for a measured species that the table doesn't have.
 *
 * @example
 * fish.withBodies(fish.speciesTable, fish.bodyRatios({ fish: [100, 130, 160, 200].map((length) => ({ species: "roach",
 *   totalLength: u.mm(length), width: u.mm(0.12 * length), height: u.mm(0.26 * length) })) }))[0].widthRatio // => 0.12
 */
export const withBodies = (
  table: readonly FishSpecies[],
  bodies: readonly SpeciesBodies[],
): readonly FishSpecies[] =>
  bodies.reduce(
    (changed, { species, fish, width, height }) =>
      withSpecies(changed, {
        ...speciesNamed(species, changed),
        widthRatio: width.atMedianLength.estimate,
        heightRatio: height.atMedianLength.estimate,
        source: derived(`body ratios of ${fish} measured fish; the rest as in the table`),
      }),
    table,
  );

function checkBody({ totalLength, width, height }: MeasuredBody, row: number): void {
  if (!(totalLength > 0 && Number.isFinite(totalLength)))
    refuse(where, `fish[${row}].totalLength is ${format(totalLength, "mm")}; it must be above 0`);
  for (const [name, value] of [
    ["width", width],
    ["height", height],
  ] as const) {
    if (!(value > 0 && value < totalLength))
      refuse(
        where,
        `fish[${row}].${name} is ${format(value, "mm")}; it must be above 0 and below the total length, ` +
          format(totalLength, "mm"),
      );
  }
}

function bodiesOf(species: string, fish: readonly MeasuredBody[], level: number): SpeciesBodies {
  if (fish.length < 4) refuse(where, `${species} has ${fish.length} fish; a spread needs at least 4`);
  const lengths = fish.map((one) => one.totalLength).toSorted((a, b) => a - b);
  const [shortest, longest] = [lengths[0], lengths[lengths.length - 1]];
  if (shortest === longest)
    refuse(
      where,
      `all fish of ${species} are ${format(shortest, "mm")} long; measure fish of several lengths`,
    );
  const half = lengths.length / 2;
  const median = (lengths[Math.ceil(half) - 1] + lengths[Math.floor(half)]) / 2;
  const lineOf = (measure: "width" | "height") => ratioLine(fish, measure, median, level);
  const [width, height] = [lineOf("width"), lineOf("height")];
  return {
    species,
    fish: fish.length,
    shortest,
    longest,
    medianLength: u.m(median),
    width: width.ratio,
    height: height.ratio,
    correlation: correlationOf(width.rest, height.rest),
  };
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
const sumOfProducts = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, at) => sum + value * b[at], 0);

/** The straight line of ln(ratio) on ln(length over median length), and what it leaves of each fish. */
function ratioLine(
  fish: readonly MeasuredBody[],
  measure: "width" | "height",
  median: number,
  level: number,
): { readonly ratio: BodyRatio; readonly rest: readonly number[] } {
  const count = fish.length;
  const ratios = fish.map((one) => one[measure] / one.totalLength);
  const x = fish.map((one) => Math.log(one.totalLength / median));
  const y = ratios.map(Math.log);
  const [meanX, meanY, mean] = [meanOf(x), meanOf(y), meanOf(ratios)];
  const fromMean = x.map((value) => value - meanX);
  const squares = sumOfProducts(fromMean, fromMean);
  const slope = sumOfProducts(fromMean, y) / squares;
  const atMedian = meanY - slope * meanX;
  const rest = y.map((value, at) => value - atMedian - slope * x[at]);
  const variance = sumOfProducts(rest, rest) / (count - 2);
  const reach = studentQuantile(1 - (1 - level) / 2, { degreesOfFreedom: count - 2 });
  const slopeError = Math.sqrt(variance / squares);
  const medianError = Math.sqrt(variance * (1 / count + meanX ** 2 / squares));
  const deviations = ratios.map((value) => value - mean);
  const ratioAtMedian = Math.exp(atMedian);
  return {
    rest,
    ratio: {
      mean,
      standardDeviation: Math.sqrt(sumOfProducts(deviations, deviations) / (count - 1)),
      atMedianLength: {
        estimate: ratioAtMedian,
        standardError: ratioAtMedian * medianError,
        lower: Math.exp(atMedian - reach * medianError),
        upper: Math.exp(atMedian + reach * medianError),
      },
      allometry: {
        estimate: slope,
        standardError: slopeError,
        lower: slope - reach * slopeError,
        upper: slope + reach * slopeError,
      },
      spread: Math.sqrt(variance),
      at: (totalLength) => Math.exp(atMedian + slope * Math.log(totalLength / median)),
    },
  };
}

function correlationOf(a: readonly number[], b: readonly number[]): number {
  const both = Math.sqrt(sumOfProducts(a, a) * sumOfProducts(b, b));
  return both === 0 ? Number.NaN : sumOfProducts(a, b) / both;
}
