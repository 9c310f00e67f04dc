import { checkNumber, refuse } from "../statistics/checks";
import { lowDiscrepancy } from "../statistics/sobolSequence";
import type { Distribution } from "./distribution";
import {
  caller,
  cutOffs,
  type Drawn,
  isJoint,
  middles,
  type Placed,
  placedInputs,
  type UncertainInputs,
} from "./inputs";
import type { Joint } from "./joint";
import { quantilesOf } from "./quantiles";

/** How far one input alone moves the output. */
export interface Swing {
  readonly input: string;
  /** The output at the input's lower and at its upper quantile. */
  readonly atLower: number;
  readonly atUpper: number;
  /** The difference of the two, without its sign. */
  readonly swing: number;
  /** The input's quantiles; undefined for a fitted curve, which has several numbers. */
  readonly from: number | undefined;
  readonly to: number | undefined;
}

/** One-at-a-time swings, the widest first. */
export interface Tornado {
  readonly method: string;
  /** The output with every input at its middle. */
  readonly middle: number;
  readonly between: readonly [number, number];
  readonly swings: readonly Swing[];
  readonly cautions: readonly string[];
}

/** Draws of a fitted curve between whose outputs its swing is read. */
const drawsOfJoint = 1024;

/**
 * Moves one input at a time between two quantiles, all others held at their middles.
 *
 * Returns the output's swing for each input, the widest first. A fitted curve is moved as a whole: its swing lies between
 * the same quantiles of the output over its draws. Valid as a first look: it misses what inputs do together, and an
 * output that turns back between the quantiles looks as if the input didn't matter; `uncertainty.sobolIndices` misses
 * neither. Throws a RangeError for quantiles that don't rise from above 0 to below 1.
 *
 * @example
 * uncertainty.tornado({ inputs: { a: uncertainty.uniform({ from: 0, to: 1 }), b: uncertainty.uniform({ from: 0, to: 3 }) },
 *   output: ({ a, b }) => a + b }).swings[0].swing // => 2.7
 */
export function tornado<const I extends UncertainInputs>({
  inputs,
  output,
  between = [0.05, 0.95],
}: {
  readonly inputs: I;
  readonly output: (values: Drawn<I>) => number;
  readonly between?: readonly [number, number];
}): Tornado {
  const where = "uncertainty.tornado";
  const [low, high] = between;
  checkNumber(where, "between[0]", low, { above: 0, below: 1 });
  checkNumber(where, "between[1]", high, { above: low, below: 1 });
  const { placed } = placedInputs(where, inputs);
  const call = caller<I>(where, output);
  const held = middles(placed);
  const middle = call({ ...held });
  const at = (name: string, value: unknown): number => call({ ...held, [name]: value });
  const swings = placed
    .filter(({ dimensions }) => dimensions > 0)
    .map(({ name, input }: Placed): Swing => {
      const [atLower, atUpper] = isJoint(input)
        ? endsOfJoint(input, between, (value) => at(name, value))
        : between.map((share) => at(name, input.quantile(share)));
      const [from, to] = isJoint(input) ? [undefined, undefined] : quantilesOfInput(input, between);
      return { input: name, atLower, atUpper, swing: Math.abs(atUpper - atLower), from, to };
    })
    .toSorted((one, other) => other.swing - one.swing);
  if (swings.length === 0) refuse(where, "no input is uncertain");
  return {
    method: `one input at a time between its quantiles ${low} and ${high}, all others at their middles`,
    middle,
    between,
    swings,
    cautions: cutOffs(placed),
  };
}

const quantilesOfInput = (input: Distribution, [low, high]: readonly [number, number]): [number, number] => [
  input.quantile(low),
  input.quantile(high),
];

function endsOfJoint(
  input: Joint,
  between: readonly [number, number],
  outputAt: (value: Readonly<Record<string, number>>) => number,
): number[] {
  // The draws are evenly spread; the seed moves the ends by less than a tornado shows.
  const columns = lowDiscrepancy({ dimensions: input.dimensions, points: drawsOfJoint, seed: 1 });
  const drawn = input.names.map(() => 0);
  const outputs = Float64Array.from({ length: drawsOfJoint }, (_, point) => {
    input.draw(
      columns.map((column) => column[point]),
      drawn,
    );
    return outputAt(Object.fromEntries(input.names.map((name, place) => [name, drawn[place]])));
  });
  return quantilesOf(outputs, between);
}
