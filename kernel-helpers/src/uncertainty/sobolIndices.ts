import { checkWhole, refuse } from "../statistics/checks";
import { studentQuantile } from "../statistics/distributions";
import {
  caller,
  cutOffs,
  type Drawn,
  fillings,
  type Placed,
  placedInputs,
  reader,
  type Sequence,
  type UncertainInputs,
  valueColumns,
} from "./inputs";
import { meanOfShifts, momentsOf } from "./quantiles";

/** An index with its error: the mean over shifts, its standard error and Student's t interval. */
export interface SobolIndex {
  readonly value: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
}

/** What one input has to do with the variance of the output. */
export interface InputIndices {
  readonly input: string;
  /** The part of the output's variance that knowing this input would take away, on average. */
  readonly first: SobolIndex;
  /** The part that would be left if everything but this input were known: its own and what it does together with others. */
  readonly total: SobolIndex;
}

/** First-order and total indices of every uncertain input, the largest first order first. */
export interface SobolIndices {
  readonly method: string;
  readonly indices: readonly InputIndices[];
  readonly mean: number;
  readonly standardDeviation: number;
  /** Points of one shift; the output was evaluated `evaluations` times in all. */
  readonly base: number;
  readonly shifts: number;
  readonly seed: number;
  readonly evaluations: number;
  readonly level: number;
  /** The estimates from ever more points of each shift. */
  readonly convergence: readonly { readonly base: number; readonly indices: readonly InputIndices[] }[];
  readonly cautions: readonly string[];
}

/** What the draws of one shift gave: the output at A, at B, and at A with one input taken from B. */
interface Evaluated {
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly mixed: readonly Float64Array[];
}

const level = 0.95;
const fewestPoints = 64;

/**
 * First-order and total Sobol' indices: which inputs make the output uncertain, alone and together with others.
 *
 * Returns an index of each kind for every uncertain input, each with its standard error and 95 % interval from the scatter
 * over shifted copies of Sobol's sequence, and the running estimates. First order by Saltelli's estimator of 2010, total by
 * Jansen's. A fitted curve's parameters count as one input, as they are not independent of each other. `base` is the number
 * of points of one shift, a power of 2; the output is evaluated base × shifts × (inputs + 2) times. Throws a RangeError
 * for a base that is no power of 2 from 64 on, fewer than 4 shifts, and an output that doesn't vary.
 *
 * @example
 * uncertainty.sobolIndices({ inputs: { a: uncertainty.uniform({ from: 0, to: 1 }), b: uncertainty.uniform({ from: 0, to: 2 }) },
 *   output: ({ a, b }) => a + b, seed: 1 }).indices[0].first.value // => 0.800
 */
export function sobolIndices<const I extends UncertainInputs>({
  inputs,
  output,
  seed,
  base = 2 ** 11,
  shifts = 8,
  sequence = "sobol",
}: {
  readonly inputs: I;
  readonly output: (values: Drawn<I>) => number;
  readonly seed: number;
  readonly base?: number;
  readonly shifts?: number;
  readonly sequence?: Sequence;
}): SobolIndices {
  const where = "uncertainty.sobolIndices";
  checkWhole(where, "base", base, fewestPoints, 2 ** 20);
  if (!Number.isInteger(Math.log2(base)))
    refuse(where, `base is ${base}; it must be a power of 2, such as ${2 ** Math.round(Math.log2(base))}`);
  checkWhole(where, "shifts", shifts, 4, 1000);
  const { placed, dimensions } = placedInputs(where, inputs);
  const uncertain = placed.filter((one) => one.dimensions > 0);
  const [read, call] = [reader(placed), caller<I>(where, output)];
  const evaluated = fillings(where, { dimensions: 2 * dimensions, points: base, shifts, seed, sequence }).map(
    (uniforms) =>
      evaluate({
        a: valueColumns(placed, uniforms.slice(0, dimensions)),
        b: valueColumns(placed, uniforms.slice(dimensions)),
        uncertain,
        at: (columns, point) => call(read(columns, point)),
      }),
  );
  const all = momentsOf(Float64Array.from(evaluated.flatMap(({ a, b }) => [...a, ...b])));
  if (!(all.standardDeviation > 1e-12 * Math.abs(all.mean)))
    refuse(where, `the output doesn't vary: it is ${all.mean} for every draw`);
  const names = uncertain.map(({ name }) => name);
  const estimates = indicesFrom(names, evaluated, base);
  const order = estimates
    .map((_, at) => at)
    .toSorted((one, other) => estimates[other].first.value - estimates[one].first.value);
  const steps: number[] = [];
  for (let points = fewestPoints; points <= base; points *= 2) steps.push(points);
  return {
    method:
      `first order by Saltelli et al. 2010, total by Jansen 1999; ${sequence === "sobol" ? "Sobol's sequence under" : "random numbers,"} ` +
      `${shifts} ${sequence === "sobol" ? "random shifts" : "parts"}, Student's t intervals`,
    indices: order.map((at) => estimates[at]),
    mean: all.mean,
    standardDeviation: all.standardDeviation,
    base,
    shifts,
    seed,
    evaluations: base * shifts * (uncertain.length + 2),
    level,
    convergence: steps.map((points) => {
      const running = indicesFrom(names, evaluated, points);
      return { base: points, indices: order.map((at) => running[at]) };
    }),
    cautions: cutOffs(placed),
  };
}

function evaluate({
  a,
  b,
  uncertain,
  at,
}: {
  readonly a: readonly Float64Array[];
  readonly b: readonly Float64Array[];
  readonly uncertain: readonly Placed[];
  readonly at: (columns: readonly Float64Array[], point: number) => number;
}): Evaluated {
  const outputs = (columns: readonly Float64Array[]): Float64Array =>
    Float64Array.from({ length: columns[0].length }, (_, point) => at(columns, point));
  return {
    a: outputs(a),
    b: outputs(b),
    mixed: uncertain.map(({ place, width }) =>
      outputs(a.map((column, other) => (other >= place && other < place + width ? b[other] : column))),
    ),
  };
}

/** The indices from the first points of each shift. */
function indicesFrom(
  names: readonly string[],
  evaluated: readonly Evaluated[],
  points: number,
): InputIndices[] {
  const byShift = evaluated.map((one) => indicesOfShift(one, points));
  const reach = studentQuantile((1 + level) / 2, { degreesOfFreedom: evaluated.length - 1 });
  const estimated = (values: readonly number[]): SobolIndex => {
    const { value, standardError } = meanOfShifts(values);
    return {
      value,
      standardError,
      lower: value - reach * standardError,
      upper: value + reach * standardError,
    };
  };
  return names.map((input, at) => ({
    input,
    first: estimated(byShift.map((shift) => shift[at].first)),
    total: estimated(byShift.map((shift) => shift[at].total)),
  }));
}

function indicesOfShift(
  { a, b, mixed }: Evaluated,
  points: number,
): { readonly first: number; readonly total: number }[] {
  let sum = 0;
  for (let point = 0; point < points; point++) sum += a[point] + b[point];
  const mean = sum / (2 * points);
  let squares = 0;
  for (let point = 0; point < points; point++) squares += (a[point] - mean) ** 2 + (b[point] - mean) ** 2;
  const variance = squares / (2 * points);
  return mixed.map((swapped) => {
    let [first, total] = [0, 0];
    for (let point = 0; point < points; point++) {
      const change = swapped[point] - a[point];
      // About the mean: the product's noise grows with the size of what is multiplied.
      first += (b[point] - mean) * change;
      total += change ** 2;
    }
    return { first: first / points / variance, total: total / (2 * points) / variance };
  });
}
