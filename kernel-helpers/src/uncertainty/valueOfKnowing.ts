import { checkWhole, refuse } from "../statistics/checks";
import {
  caller,
  cutOffs,
  type Drawn,
  fillings,
  type Placed,
  placedInputs,
  reader,
  type UncertainInputs,
  valueColumns,
} from "./inputs";
import { type EstimatedByDraws, methodOf, shiftsOfDraws } from "./monteCarlo";
import { meanOfShifts } from "./quantiles";

/** What it is worth to know an input before deciding. */
export interface WorthKnowing {
  readonly input: string;
  /** Expected gain, in the unit of the options' worth. */
  readonly value: number;
  readonly standardError: number;
}

/** A decision under uncertainty, and what knowledge would be worth to it. */
export interface ValueOfKnowing {
  readonly method: string;
  /** The expected worth of each option, the best first. */
  readonly options: readonly (EstimatedByDraws & { readonly option: string })[];
  /** What one chooses as things stand. */
  readonly best: string;
  readonly inputs: readonly WorthKnowing[];
  /** What it would be worth to know all inputs. */
  readonly everything: EstimatedByDraws;
  readonly cautions: readonly string[];
}

const pointsOfOthers = 128;
const pointsOfInput = 64;

/**
 * What it is worth, in money or any other unit, to know an input before choosing among options.
 *
 * Returns the expected worth of each option, and for every input the expected gain of choosing after having learnt its
 * value (the expected value of partial perfect information). An input that would never change the choice is worth nothing,
 * however uncertain it makes the outcome. `options` give the worth of each option from one draw of the inputs; more is
 * better. Nested draws: 64 values of the input by 128 of all others, under 8 shifts. Throws a RangeError for fewer than
 * two options and for what `uncertainty.monteCarlo` refuses.
 *
 * @example
 * uncertainty.valueOfKnowing({ inputs: { gain: uncertainty.normal({ mean: 0, standardDeviation: 100 }) },
 *   options: { build: ({ gain }) => gain, leave: () => 0 }, seed: 1 }).inputs[0].value // => 39
 */
export function valueOfKnowing<const I extends UncertainInputs>({
  inputs,
  options,
  seed,
}: {
  readonly inputs: I;
  readonly options: Readonly<Record<string, (values: Drawn<I>) => number>>;
  readonly seed: number;
}): ValueOfKnowing {
  const where = "uncertainty.valueOfKnowing";
  const names = Object.keys(options);
  checkWhole(where, "the number of options", names.length, 2);
  const { placed, dimensions } = placedInputs(where, inputs);
  const read = reader(placed);
  const calls = names.map((name) => caller<I>(`${where}, option "${name}"`, options[name]));
  const shifts = fillings(where, {
    dimensions: 2 * dimensions,
    points: Math.max(pointsOfOthers, pointsOfInput),
    shifts: shiftsOfDraws,
    seed,
    sequence: "sobol",
  });
  const worths = (columns: readonly Float64Array[], point: number): number[] => {
    const values = read(columns, point);
    return calls.map((call) => call(values));
  };
  const uncertain = placed.filter((one) => one.dimensions > 0);
  const byShift = shifts.map((uniforms) =>
    ofShift({
      others: valueColumns(placed, uniforms.slice(0, dimensions)),
      own: valueColumns(placed, uniforms.slice(dimensions)),
      uncertain,
      worths,
    }),
  );
  const worthOf = names
    .map((option, at) => ({ option, ...meanOfShifts(byShift.map(({ means }) => means[at])) }))
    .toSorted((one, other) => other.value - one.value);
  if (worthOf.some(({ value }) => !Number.isFinite(value)))
    refuse(where, "the worth of an option is no number");
  return {
    method: `expected gain of choosing after an input is known, nested draws; ${methodOf("sobol")}`,
    options: worthOf,
    best: worthOf[0].option,
    inputs: uncertain
      .map(({ name }, at) => ({ input: name, ...gainOf(byShift.map(({ byInput }) => byInput[at])) }))
      .toSorted((one, other) => other.value - one.value),
    everything: gainOf(byShift.map(({ everything }) => everything)),
    cautions: cutOffs(placed),
  };
}

/** The worth of choosing after learning, and of each option without, over the same draws. */
interface Learning {
  readonly informed: number;
  readonly means: readonly number[];
}

interface OfShift {
  readonly means: readonly number[];
  readonly byInput: readonly Learning[];
  readonly everything: Learning;
}

function ofShift({
  others,
  own,
  uncertain,
  worths,
}: {
  readonly others: readonly Float64Array[];
  readonly own: readonly Float64Array[];
  readonly uncertain: readonly Placed[];
  readonly worths: (columns: readonly Float64Array[], point: number) => number[];
}): OfShift {
  const averaged = (columns: readonly Float64Array[]): number[] =>
    meansOf(Array.from({ length: pointsOfOthers }, (_, point) => worths(columns, point)));
  const points = Array.from({ length: pointsOfOthers }, (_, point) => worths(others, point));
  return {
    means: meansOf(points),
    everything: learningOf(points),
    byInput: uncertain.map(({ place, width }) =>
      // The input at one of its values, the others as they were: the same others for every value.
      learningOf(
        Array.from({ length: pointsOfInput }, (_, value) =>
          averaged(
            others.map((column, other) =>
              other >= place && other < place + width ? column.map(() => own[other][value]) : column,
            ),
          ),
        ),
      ),
    ),
  };
}

const meansOf = (rows: readonly (readonly number[])[]): number[] =>
  rows[0].map((_, option) => rows.reduce((sum, row) => sum + row[option], 0) / rows.length);

const learningOf = (rows: readonly (readonly number[])[]): Learning => ({
  informed: rows.reduce((sum, one) => sum + Math.max(...one), 0) / rows.length,
  means: meansOf(rows),
});

/**
 * The gain over the option that is best over all shifts: within one shift chance would choose, and take some of the gain. An
 * input that never changes the choice comes out as exactly nothing.
 */
function gainOf(shifts: readonly Learning[]): EstimatedByDraws {
  const means = meansOf(shifts.map((one) => one.means));
  const best = means.indexOf(Math.max(...means));
  return meanOfShifts(shifts.map((one) => one.informed - one.means[best]));
}
