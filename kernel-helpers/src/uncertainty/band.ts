import { checkLevel, checkNumber, refuse } from "../statistics/checks";
import {
  caller,
  cutOffs,
  type Drawn,
  fillings,
  placedInputs,
  reader,
  type UncertainInputs,
  valueColumns,
} from "./inputs";
import { checkDraws, type DrawOptions, methodOf, shiftsOfDraws } from "./monteCarlo";
import { momentsOf, quantilesOf } from "./quantiles";

/** A curve under the uncertainty of its inputs; one entry a place in every list. */
export interface UncertainCurve<Q extends number = number> {
  readonly method: string;
  readonly places: readonly Q[];
  readonly mean: readonly number[];
  readonly standardDeviation: readonly number[];
  readonly lower: readonly number[];
  readonly median: readonly number[];
  readonly upper: readonly number[];
  readonly level: number;
  readonly draws: number;
  readonly seed: number;
  readonly cautions: readonly string[];
}

/**
 * The band of a whole curve: any calculation at several places, under the uncertainty of its inputs.
 *
 * Returns mean, standard deviation and quantiles of the output at each place: over lengths, flows, days. The same draws are
 * used at every place. The band is pointwise: a single curve may leave it somewhere. Throws a RangeError for what
 * `uncertainty.monteCarlo` refuses.
 *
 * @example
 * uncertainty.band({ inputs: { slope: uncertainty.uniform({ from: 1, to: 3 }) }, places: [0, 10],
 *   output: ({ slope }, place) => slope * place, seed: 1 }).median[1] // => 20.0
 */
export function band<const I extends UncertainInputs, Q extends number>({
  inputs,
  places,
  output,
  seed,
  draws = 2 ** 12,
  sequence = "sobol",
  level = 0.95,
}: {
  readonly inputs: I;
  readonly places: readonly Q[];
  readonly output: (values: Drawn<I>, place: Q) => number;
} & DrawOptions): UncertainCurve<Q> {
  const where = "uncertainty.band";
  checkDraws(where, draws);
  checkLevel(where, level);
  if (places.length === 0) refuse(where, "places is empty; give at least one");
  places.forEach((place, at) => checkNumber(where, `places[${at}]`, place));
  const { placed, dimensions } = placedInputs(where, inputs);
  const points = draws / shiftsOfDraws;
  const read = reader(placed);
  const rows = places.map(() => new Float64Array(draws));
  const calls = places.map((place) => caller<I>(where, (values) => output(values, place)));
  fillings(where, { dimensions, points, shifts: shiftsOfDraws, seed, sequence }).forEach(
    (uniforms, shift) => {
      const columns = valueColumns(placed, uniforms);
      for (let point = 0; point < points; point++) {
        const values = read(columns, point);
        for (let at = 0; at < rows.length; at++) rows[at][shift * points + point] = calls[at](values);
      }
    },
  );
  const results = rows.map((row) => ({
    ...momentsOf(row),
    ends: quantilesOf(row, [(1 - level) / 2, 0.5, (1 + level) / 2]),
  }));
  return {
    method: `${methodOf(sequence)}, percentiles at each place`,
    places: [...places],
    mean: results.map(({ mean }) => mean),
    standardDeviation: results.map(({ standardDeviation }) => standardDeviation),
    lower: results.map(({ ends }) => ends[0]),
    median: results.map(({ ends }) => ends[1]),
    upper: results.map(({ ends }) => ends[2]),
    level,
    draws,
    seed,
    cautions: cutOffs(placed),
  };
}
