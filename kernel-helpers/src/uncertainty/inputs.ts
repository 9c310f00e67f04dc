import { checkNumber, checkWhole, refuse } from "../statistics/checks";
import { checkSeed, uniforms } from "../statistics/random";
import {
  mostSobolPoints,
  randomNumbers,
  shifted,
  sobolPoints,
  type UniformColumns,
} from "../statistics/sobolSequence";
import type { Distribution, Of } from "./distribution";
import { fixed } from "./families";
import type { Joint } from "./joint";

/** An input of a calculation: a distribution, a fitted curve's parameters together, or a number that is known. */
export type UncertainInput = Distribution | Joint | number;
export type UncertainInputs = Readonly<Record<string, UncertainInput>>;

/** One draw of the inputs as a calculation reads it. */
export type Drawn<I extends UncertainInputs> = {
  readonly [K in keyof I]: I[K] extends Joint<infer N>
    ? Readonly<Record<N, number>>
    : I[K] extends Distribution<infer Q>
      ? Q
      : I[K] extends number
        ? Of<I[K]>
        : never;
};

/** How the cube of probabilities is filled: evenly by Sobol's sequence, or at random. */
export type Sequence = "sobol" | "random";

/** An input with its place among the uniform numbers and among the columns of values. */
export interface Placed {
  readonly name: string;
  readonly input: Distribution | Joint;
  /** The first of its uniform numbers, and how many there are: none for a number that is known. */
  readonly from: number;
  readonly dimensions: number;
  /** The first of its columns of values, and how many there are: one, or one a parameter of a fit. */
  readonly place: number;
  readonly width: number;
}

export const isJoint = (input: Distribution | Joint): input is Joint => "draw" in input;

/** Gives each input its places. Throws a RangeError where there is nothing uncertain. */
export function placedInputs(
  where: string,
  inputs: UncertainInputs,
): { readonly placed: readonly Placed[]; readonly dimensions: number } {
  let [from, place] = [0, 0];
  const placed = Object.entries(inputs).map(([name, given]): Placed => {
    if (typeof given !== "number" && (typeof given !== "object" || given === null || !("kind" in given)))
      refuse(where, `inputs.${name} is no number and no distribution of uncertainty`);
    if (typeof given === "number") checkNumber(where, `inputs.${name}`, given);
    const input = typeof given === "number" ? fixed(given) : given;
    const dimensions = isJoint(input) ? input.dimensions : input.kind === "fixed" ? 0 : 1;
    const width = isJoint(input) ? input.names.length : 1;
    const one = { name, input, from, dimensions, place, width };
    from += dimensions;
    place += width;
    return one;
  });
  if (from === 0) refuse(where, "none of the inputs is uncertain; give at least one distribution");
  return { placed, dimensions: from };
}

/** The values of all inputs, one column a number, for columns of uniform numbers. */
export function valueColumns(placed: readonly Placed[], cube: UniformColumns): readonly Float64Array[] {
  const points = cube[0].length;
  return placed.flatMap(({ input, from, dimensions, width }) => {
    const columns = Array.from({ length: width }, () => new Float64Array(points));
    if (isJoint(input)) {
      const uniform = Array.from({ length: dimensions }, () => 0);
      const drawn = input.names.map(() => 0);
      for (let point = 0; point < points; point++) {
        for (let at = 0; at < dimensions; at++) uniform[at] = inside(cube[from + at][point]);
        input.draw(uniform, drawn);
        for (let at = 0; at < width; at++) columns[at][point] = drawn[at];
      }
    } else if (dimensions === 0) columns[0].fill(input.median);
    else {
      const [own, quantile] = [cube[from], input.manyQuantiles ?? input.quantile];
      for (let point = 0; point < points; point++) columns[0][point] = quantile(inside(own[point]));
    }
    return columns;
  });
}

/**
 * Reads one draw from columns of values. The object, and that of a fit in it, is one and filled anew at each call: most of
 * the time of a fast calculation would go into making objects.
 */
export function reader(
  placed: readonly Placed[],
): (columns: readonly Float64Array[], point: number) => Record<string, unknown> {
  const values: Record<string, unknown> = {};
  const fillers = placed.map(({ name, input, place }) => {
    if (!isJoint(input))
      return (columns: readonly Float64Array[], point: number): void => {
        values[name] = columns[place][point];
      };
    const parameters: Record<string, number> = {};
    values[name] = parameters;
    return (columns: readonly Float64Array[], point: number): void => {
      for (let at = 0; at < input.names.length; at++)
        parameters[input.names[at]] = columns[place + at][point];
    };
  });
  return (columns, point) => {
    for (const fill of fillers) fill(columns, point);
    return values;
  };
}

/** The ends themselves would be infinite for a normal. */
const inside = (uniform: number): number => (uniform > 0 ? uniform : 2 ** -54);

/** The inputs at their middles: medians, and the estimates of a fit. */
export function middles(placed: readonly Placed[]): Record<string, unknown> {
  return Object.fromEntries(
    placed.map(({ name, input }) => [
      name,
      isJoint(input)
        ? Object.fromEntries(input.names.map((parameter, at) => [parameter, input.middle[at]]))
        : input.median,
    ]),
  );
}

/** What of each input was cut off. */
export const cutOffs = (placed: readonly Placed[]): readonly string[] =>
  placed.flatMap(({ name, input }) =>
    isJoint(input) || input.cutOff === 0
      ? []
      : [
          `${name}: ${Number((100 * input.cutOff).toPrecision(2))} % of the distribution was cut off (${input.title}).`,
        ],
  );

/** Calls a calculation with drawn values and checks what it gives. */
export function caller<I extends UncertainInputs>(
  where: string,
  output: (values: Drawn<I>) => number,
): (values: Record<string, unknown>) => number {
  return (values) => {
    let result: number;
    try {
      // A boundary: the record holds what the inputs' types say.
      result = output(values as Drawn<I>);
    } catch (error) {
      throw error instanceof RangeError
        ? new RangeError(`${where}: at ${inWords(values)}: ${error.message}`)
        : error;
    }
    if (!Number.isFinite(result))
      refuse(where, `the output is ${String(result)} at ${inWords(values)}; it must be a number`);
    return result;
  };
}

const inWords = (values: Readonly<Record<string, unknown>>): string =>
  Object.entries(values)
    .map(
      ([name, value]) =>
        `${name} = ${typeof value === "number" ? Number(value.toPrecision(5)) : JSON.stringify(value)}`,
    )
    .join(", ");

/** Several fillings of the same cube, each under a shift of its own, or each with random numbers of its own. */
export function fillings(
  where: string,
  {
    dimensions,
    points,
    shifts,
    seed,
    sequence,
  }: {
    readonly dimensions: number;
    readonly points: number;
    readonly shifts: number;
    readonly seed: number;
    readonly sequence: Sequence;
  },
): readonly UniformColumns[] {
  checkSeed(where, seed);
  // Seeds of their own from one stream: neighbouring seeds of the reader must share no shift.
  const uniform = uniforms(seed);
  const seeds = Array.from({ length: shifts }, () => Math.floor(uniform() * 2 ** 32));
  if (sequence === "random") return seeds.map((own) => randomNumbers({ dimensions, points, seed: own }));
  if (sequence !== "sobol")
    refuse(where, `sequence is "${String(sequence)}"; it must be "sobol" or "random"`);
  checkWhole(where, "points of one shift", points, 1, mostSobolPoints);
  checkWhole(where, "the number of uncertain dimensions", dimensions, 1, 160);
  const base = sobolPoints(dimensions, points);
  return seeds.map((own) => shifted(base, own));
}
