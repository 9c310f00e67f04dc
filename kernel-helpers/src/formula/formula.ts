import type { UnitName } from "../quantity/unit";
import { type AnyFormula, register } from "./catalogue";
import { checkInputs } from "./check";
import {
  type InputSpec,
  type InputSpecs,
  type InputValues,
  type Kind,
  printValue,
  type ValueOfKind,
  words,
} from "./input";
import type { Source } from "./source";
import { bracketNumbers, inputTex, marked, quantityTex, resultTex } from "./tex";
import { noteUse } from "./usage";

/** One value or a list of them. */
type OneOrMany<S extends InputSpec, One> = S extends { readonly many: true } ? readonly One[] : One;

type DefaultedNames<I extends InputSpecs> = {
  [N in keyof I]: I[N] extends { readonly default: number } ? N : never;
}[keyof I];

/** What a caller passes: quantities by name; inputs with a default may be left out. */
export type Given<I extends InputSpecs> = {
  readonly [N in Exclude<keyof I, DefaultedNames<I>>]: OneOrMany<I[N], ValueOfKind<I[N]["kind"]>>;
} & { readonly [N in DefaultedNames<I>]?: OneOrMany<I[N], ValueOfKind<I[N]["kind"]>> };

/** What `evaluate` receives: plain SI numbers by name, every one there. */
export type Bare<I extends InputSpecs> = { readonly [N in keyof I]: OneOrMany<I[N], number> };

/** The kind of a result, or of each part of a result that has several. */
export type ResultSpec = Kind | Readonly<Record<string, Kind>>;

/** What a formula returns. */
export type ResultOf<R extends ResultSpec> = R extends Kind
  ? ValueOfKind<R>
  : { readonly [P in keyof R]: R[P] extends Kind ? ValueOfKind<R[P]> : never };

/** What `evaluate` returns. */
export type BareResult<R extends ResultSpec> = R extends Kind ? number : { readonly [P in keyof R]: number };

/** LaTeX for each input: symbols, or numbers with units. */
export type TexOf<I extends InputSpecs> = { readonly [N in keyof I]: string };

/** A value on the way to the result, shown in worked steps: an angle of a velocity triangle, a coefficient. */
export interface StepDefinition<I extends InputSpecs> {
  readonly title: string;
  readonly symbol: string;
  readonly result: Kind;
  readonly unit?: UnitName;
  readonly tex: (q: TexOf<I>, steps: Readonly<Record<string, string>>) => string;
  readonly evaluate: (inputs: Bare<I>) => number;
}

/** What `defineFormula` takes. */
export interface FormulaDefinition<I extends InputSpecs, R extends ResultSpec> {
  /** `topic.name`, fixed: part of the interface. */
  readonly id: string;
  readonly title: string;
  /** The result's symbol in LaTeX. */
  readonly symbol: string;
  readonly result: R;
  /** The unit that the result is shown in. */
  readonly unit?: UnitName;
  readonly inputs: I;
  /** The right-hand side in LaTeX, filled once with symbols and once with numbers. */
  readonly tex: (q: TexOf<I>, steps: Readonly<Record<string, string>>) => string;
  readonly steps?: Readonly<Record<string, StepDefinition<I>>>;
  readonly source: Source;
  /** Where it holds, in words. */
  readonly validity?: string;
  /** Limits across inputs: the sentence that refuses, without the formula's name; undefined where all is well. */
  readonly refuse?: (inputs: Bare<I>) => string | undefined;
  /** Cautions beside those of the tested ranges; shown with the result, never thrown. */
  readonly caution?: (inputs: Bare<I>) => readonly string[];
  readonly evaluate: (inputs: Bare<I>) => BareResult<R>;
}

/** What every formula carries, whatever its inputs. The catalogue and the pages work on this. */
export interface FormulaInfo {
  readonly id: string;
  readonly topic: string;
  readonly title: string;
  readonly symbol: string;
  readonly result: ResultSpec;
  readonly unit?: UnitName;
  readonly inputs: InputSpecs;
  readonly source: Source;
  readonly validity?: string;
  /** The equation with symbols, in LaTeX. */
  readonly equation: string;
  /** The equations of the steps with symbols, in LaTeX. */
  readonly stepEquations: readonly { readonly title: string; readonly equation: string }[];
}

/** A formula: call it with named quantities, or read what it carries. */
export interface Formula<I extends InputSpecs, R extends ResultSpec> extends FormulaInfo {
  /** Checks the inputs and returns the result. Throws a RangeError that names formula, input, value and what is allowed. */
  (inputs: Given<I>): ResultOf<R>;
  readonly inputs: I;
  readonly result: R;
  /** The bare function for loops: plain SI numbers, every input given, nothing checked. */
  readonly evaluate: (inputs: Bare<I>) => BareResult<R>;
  /** What to keep in mind about this result: inputs outside the tested range, and what the formula always warns of. */
  readonly cautions: (inputs: Given<I>) => readonly string[];
  /** Whether every input lies in the range that its source tested, as far as that range is known. */
  readonly tested: (inputs: Given<I>) => boolean;
  /** Every line of the worked calculation, in LaTeX. */
  readonly lines: (inputs: Given<I>) => readonly WorkedLine[];
}

/** One line of a worked calculation in LaTeX: symbol = equation = numbers = value. */
export interface WorkedLine {
  readonly title: string;
  readonly symbol: string;
  readonly equation: string;
  readonly numbers: string;
  readonly value: string;
}

/**
 * Defines a formula and registers it in the catalogue.
 *
 * Returns a function that takes one object of named quantities, checks them and returns the result, and that also
 * carries its equation, symbols, units, limits, tested range and source.
 *
 * Throws an Error for an id that is taken or does not read topic.name.
 */
export function defineFormula<const I extends InputSpecs, const R extends ResultSpec>(
  definition: FormulaDefinition<I, R>,
): Formula<I, R> {
  const { id, inputs, result, steps = {}, evaluate } = definition;
  const names = Object.keys(inputs);
  const symbols = Object.fromEntries(names.map((name) => [name, inputs[name].symbol])) as TexOf<I>;
  const stepSymbols = Object.fromEntries(Object.entries(steps).map(([name, step]) => [name, step.symbol]));

  // Checked at the door: after checkInputs every name is there with its kind of value.
  const check = (given: Given<I>): Bare<I> => {
    const bare = checkInputs(id, inputs, given as InputValues) as Bare<I>;
    const refusal = definition.refuse?.(bare);
    if (refusal !== undefined) throw new RangeError(`${id}: ${refusal}`);
    return bare;
  };

  const calculate = (given: Given<I>): ResultOf<R> => {
    const bare = check(given);
    noteUse(id);
    // Branded numbers are numbers at run time; the brand exists for the compiler only.
    return evaluate(bare) as unknown as ResultOf<R>;
  };

  const cautions = (given: Given<I>): readonly string[] => {
    const bare = check(given);
    return [
      ...testedRangeCautions(id, inputs, bare),
      ...usualRangeCautions(id, inputs, bare),
      ...(definition.caution?.(bare) ?? []).map((text) => `${id}: ${text}`),
    ];
  };

  const tested = (given: Given<I>): boolean => testedRangeCautions(id, inputs, check(given)).length === 0;

  const lines = (given: Given<I>): readonly WorkedLine[] => {
    const bare = check(given);
    const numbers = Object.fromEntries(
      names.map((name) => [name, inputTex(bare[name] ?? Number.NaN, inputs[name])]),
    ) as TexOf<I>;
    const stepValues: Record<string, string> = {};
    const worked: WorkedLine[] = [];
    for (const [name, step] of Object.entries(steps)) {
      const value = quantityTex(step.evaluate(bare), step.result, step.unit);
      worked.push({
        title: step.title,
        symbol: step.symbol,
        equation: step.tex(symbols, stepSymbols),
        numbers: bracketNumbers(step.tex(numbers, stepValues)),
        value,
      });
      stepValues[name] = marked(value);
    }
    worked.push({
      title: definition.title,
      symbol: definition.symbol,
      equation: definition.tex(symbols, stepSymbols),
      numbers: bracketNumbers(definition.tex(numbers, stepValues)),
      value: resultTex(evaluate(bare), result, definition.unit),
    });
    return worked;
  };

  const info: FormulaInfo = {
    id,
    topic: id.slice(0, id.indexOf(".")),
    title: definition.title,
    symbol: definition.symbol,
    result,
    unit: definition.unit,
    inputs,
    source: definition.source,
    validity: definition.validity,
    equation: `${definition.symbol} = ${definition.tex(symbols, stepSymbols)}`,
    stepEquations: Object.values(steps).map((step) => ({
      title: step.title,
      equation: `${step.symbol} = ${step.tex(symbols, stepSymbols)}`,
    })),
  };
  const formula: Formula<I, R> = Object.assign(calculate, info, {
    inputs,
    result,
    evaluate,
    cautions,
    tested,
    lines,
  });
  // A cell that evaluates a formula's name gets a line to read, not a dump of functions; node looks for this symbol.
  Object.defineProperty(formula, Symbol.for("nodejs.util.inspect.custom"), {
    value: () => `${id}({ ${names.join(", ")} }): ${definition.title}`,
  });
  // The catalogue calls formulas with inputs known only at run time; calculate checks them all.
  register(formula as unknown as AnyFormula);
  return formula;
}

function testedRangeCautions(id: string, inputs: InputSpecs, bare: InputValues): string[] {
  return outside(inputs, bare, "tested").map(
    ({ name, value, range }) => `${id}: ${name} is ${value}; its source tested ${range}.`,
  );
}

function usualRangeCautions(id: string, inputs: InputSpecs, bare: InputValues): string[] {
  return outside(inputs, bare, "usual").map(
    ({ name, value, range }) =>
      `${id}: ${name} is ${value}; usual are ${range} (common practice): look at its unit.`,
  );
}

/** Every value outside its input's range, in words. */
function outside(inputs: InputSpecs, bare: InputValues, which: "tested" | "usual") {
  return Object.entries(inputs).flatMap(([name, spec]) => {
    const range = spec[which];
    if (range === undefined) return [];
    const [low, high] = range;
    const values = [bare[name] ?? Number.NaN].flat();
    const print = (value: number) => printValue(value, spec.kind, spec.unit);
    // Half a millionth of the range: 45° typed in degrees must not fall outside 45° by its last binary digit.
    const slack = 5e-7 * (high - low);
    return (
      values
        .filter((value) => value < low - slack || value > high + slack)
        // Nothing is nothing in every unit: no slip shows there.
        .filter((value) => which === "tested" || value !== 0)
        .map((value) => ({
          name: words(name),
          value: print(value),
          range: `${print(low)} to ${print(high)}`,
        }))
    );
  });
}
