import type { InputIndices, SobolIndices } from "./sobolIndices";

/** What knowing one input would do for the uncertainty of the output. */
export interface WorthMeasuring {
  readonly input: string;
  /** Standard deviation of the output if this input were known, all others being as uncertain as now. */
  readonly left: number;
  /** By how much the standard deviation would fall; in the output's own unit: a share of fish, or money. */
  readonly reduction: number;
  /** From the interval of the first-order index. */
  readonly lower: number;
  readonly upper: number;
  /** The reduction as a part of the standard deviation now. */
  readonly part: number;
}

/** The inputs in the order in which they are worth measuring. */
export interface MeasureNext {
  readonly method: string;
  /** Standard deviation of the output as things stand. */
  readonly now: number;
  readonly inputs: readonly WorthMeasuring[];
  /** The first input whose interval lies above that of the second; undefined where the order of the first two is open. */
  readonly clearFirst: string | undefined;
}

/**
 * Which input to measure next: by how much the output's standard deviation falls when one input becomes known.
 *
 * Returns, for every input, the standard deviation that is left, √(V·(1 − S)), and the reduction in the output's own unit:
 * times 100 it is percentage points of survival; for an output in money it is money. What is left is the root of the mean
 * variance over the values that the input may turn out to have. Valid for inputs that are independent of each other, and as
 * an upper end: a measurement has an error of its own. It says nothing of what measuring costs.
 *
 * @example
 * uncertainty.measureNext(uncertainty.sobolIndices({ inputs: { a: uncertainty.normal({ mean: 0, standardDeviation: 3 }),
 *   b: uncertainty.normal({ mean: 0, standardDeviation: 4 }) }, output: ({ a, b }) => a + b, seed: 1 })).inputs[0].left
 * // => 3.00
 */
export function measureNext(indices: SobolIndices): MeasureNext {
  const now = indices.standardDeviation;
  const leftWith = (share: number): number =>
    now * Math.sqrt(Math.max(0, 1 - Math.min(1, Math.max(0, share))));
  const inputs = indices.indices.map(({ input, first }: InputIndices): WorthMeasuring => {
    const left = leftWith(first.value);
    return {
      input,
      left,
      reduction: now - left,
      lower: now - leftWith(first.lower),
      upper: now - leftWith(first.upper),
      part: (now - left) / now,
    };
  });
  const [best, second] = inputs;
  return {
    method: `standard deviation with one input known, from first-order indices (${indices.method})`,
    now,
    inputs,
    clearFirst: second === undefined || best.lower > second.upper ? best.input : undefined,
  };
}
