import { checkLevel, checkWhole, refuse } from "../statistics/checks";
import { type Convergence, convergenceOf } from "./convergence";
import {
  caller,
  cutOffs,
  type Drawn,
  fillings,
  placedInputs,
  reader,
  type Sequence,
  type UncertainInputs,
  valueColumns,
} from "./inputs";
import { meanOfShifts, momentsOf, quantilesOf } from "./quantiles";

/** A number estimated from draws, with the error that more draws would make smaller. */
export interface EstimatedByDraws {
  readonly value: number;
  readonly standardError: number;
}

/** How draws are made. */
export interface DrawOptions {
  readonly seed: number;
  /** 16384 unless told otherwise; a multiple of 8. With Sobol's sequence powers of 2 are most even. */
  readonly draws?: number;
  /** "sobol" unless told otherwise. */
  readonly sequence?: Sequence;
  /** The share of the draws between the ends of the interval; 0.95 unless told otherwise. */
  readonly level?: number;
}

/** What a calculation gives under the uncertainty of its inputs. */
export interface MonteCarlo {
  readonly method: string;
  readonly draws: number;
  readonly seed: number;
  readonly level: number;
  readonly mean: EstimatedByDraws;
  readonly median: EstimatedByDraws;
  readonly standardDeviation: EstimatedByDraws;
  /** The ends between which `level` of the draws lie, as much below as above. */
  readonly lower: EstimatedByDraws;
  readonly upper: EstimatedByDraws;
  /** Every draw's output, in the order drawn. */
  readonly values: Float64Array;
  readonly quantile: (share: number) => number;
  /** The shortest interval that holds `level` of the draws. */
  readonly shortest: { readonly lower: number; readonly upper: number };
  /** The running estimates of mean, standard deviation and ends, with their errors. */
  readonly convergence: readonly Convergence[];
  /** What was cut off the inputs' distributions. */
  readonly cautions: readonly string[];
}

/** Shifts of a sequence, or parts of a random stream, whose scatter tells the error. */
export const shiftsOfDraws = 8;

/**
 * Carries the uncertainty of inputs through a calculation by drawing them many times.
 *
 * Returns mean, median, standard deviation and an interval of the output, each with its standard error, all draws, and the
 * running estimates that show whether there were enough. `inputs` are distributions, fitted curves' parameters
 * (`uncertainty.jointlyNormal`, `uncertainty.resampled`) and known numbers; `output` reads one draw of them in SI units.
 * Inputs are independent of each other but for the numbers of one fit. The standard errors come from 8 shifted copies
 * of Sobol's sequence, or from 8 parts of a random stream. Throws a RangeError for inputs that are none, draws that are no
 * multiple of 8, and where the output is no number or refuses a draw, naming the draw.
 *
 * @example
 * uncertainty.monteCarlo({ inputs: { a: uncertainty.normal({ mean: 3, standardDeviation: 0.3 }),
 *   b: uncertainty.normal({ mean: 4, standardDeviation: 0.4 }) }, output: ({ a, b }) => a + b, seed: 1
 * }).standardDeviation.value // => 0.500
 */
export function monteCarlo<const I extends UncertainInputs>({
  inputs,
  output,
  seed,
  draws = 2 ** 14,
  sequence = "sobol",
  level = 0.95,
}: {
  readonly inputs: I;
  readonly output: (values: Drawn<I>) => number;
} & DrawOptions): MonteCarlo {
  const where = "uncertainty.monteCarlo";
  checkDraws(where, draws);
  checkLevel(where, level);
  const { placed, dimensions } = placedInputs(where, inputs);
  const points = draws / shiftsOfDraws;
  const shifts = fillings(where, { dimensions, points, shifts: shiftsOfDraws, seed, sequence });
  const [read, call] = [reader(placed), caller<I>(where, output)];
  const values = new Float64Array(draws);
  shifts.forEach((uniforms, shift) => {
    const columns = valueColumns(placed, uniforms);
    for (let point = 0; point < points; point++) values[shift * points + point] = call(read(columns, point));
  });
  return { ...summary(values, { level, sequence }), draws, seed, level, cautions: cutOffs(placed) };
}

export function checkDraws(where: string, draws: number): void {
  checkWhole(where, "draws", draws, 100 * shiftsOfDraws, shiftsOfDraws * 2 ** 20);
  if (draws % shiftsOfDraws !== 0)
    refuse(
      where,
      `draws is ${draws}; it must be a multiple of ${shiftsOfDraws}, the copies whose scatter tells the error, such as ` +
        `${Math.ceil(draws / shiftsOfDraws) * shiftsOfDraws}`,
    );
}

export const methodOf = (sequence: Sequence): string =>
  sequence === "sobol"
    ? `Sobol's sequence under ${shiftsOfDraws} random shifts`
    : `random numbers, in ${shiftsOfDraws} parts`;

function summary(
  values: Float64Array,
  { level, sequence }: { readonly level: number; readonly sequence: Sequence },
): Omit<MonteCarlo, "draws" | "seed" | "level" | "cautions"> {
  const points = values.length / shiftsOfDraws;
  const parts = Array.from({ length: shiftsOfDraws }, (_, shift) =>
    values.slice(shift * points, (shift + 1) * points),
  );
  const shares = [(1 - level) / 2, 0.5, (1 + level) / 2];
  const byPart = parts.map((part) => ({ ...momentsOf(part), ends: quantilesOf(part, shares) }));
  const sorted = values.toSorted();
  const quantile = (share: number): number => {
    checkShare(share);
    return quantileOfSorted(sorted, share);
  };
  // The value from all draws together; the error from the scatter of the parts.
  const whole = momentsOf(values);
  const estimated = (value: number, ofPart: (part: (typeof byPart)[number]) => number): EstimatedByDraws => ({
    value,
    standardError: meanOfShifts(byPart.map(ofPart)).standardError,
  });
  const [lower, median, upper] = shares.map((share, at) =>
    estimated(quantileOfSorted(sorted, share), ({ ends }) => ends[at]),
  );
  return {
    method: methodOf(sequence),
    mean: estimated(whole.mean, ({ mean }) => mean),
    standardDeviation: estimated(whole.standardDeviation, ({ standardDeviation }) => standardDeviation),
    lower,
    median,
    upper,
    values,
    quantile,
    shortest: shortestOf(sorted, level),
    convergence: convergenceOf(parts, level),
  };
}

function checkShare(share: number): void {
  if (!(share >= 0 && share <= 1)) refuse("quantile", `share is ${String(share)}; it must be from 0 to 1`);
}

function quantileOfSorted(sorted: Float64Array, share: number): number {
  const rank = share * (sorted.length - 1);
  const below = Math.floor(rank);
  const low = sorted[below];
  return low + (rank - below) * (sorted[Math.min(sorted.length - 1, below + 1)] - low);
}

/** The shortest stretch of sorted values that holds this share of them. */
function shortestOf(sorted: Float64Array, level: number): { readonly lower: number; readonly upper: number } {
  const held = Math.round(level * sorted.length);
  let best = 0;
  for (let first = 1; first + held < sorted.length; first++)
    if (sorted[first + held] - sorted[first] < sorted[best + held] - sorted[best]) best = first;
  return { lower: sorted[best], upper: sorted[Math.min(sorted.length - 1, best + held)] };
}
