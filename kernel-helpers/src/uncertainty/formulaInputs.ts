import { checkNumber } from "../formula/check";
import type { FormulaInfo } from "../formula/formula";
import { type InputSpec, shownUnit } from "../formula/input";
import { refuse } from "../statistics/checks";
import { within } from "./distribution";
import { isJoint, type UncertainInput, type UncertainInputs } from "./inputs";

/** The inputs given, and the defaults of those left out. */
export type FormulaInputs<F extends FormulaInfo, I extends UncertainInputs> = I &
  Readonly<Record<Exclude<keyof F["inputs"] & string, keyof I>, number>>;

/**
 * Uncertain inputs of a formula, under the limits that the formula sets.
 *
 * Returns inputs for `uncertainty.monteCarlo`, `sobolIndices` and `tornado`, whose output is then the formula's `evaluate`:
 * a distribution that reaches what the formula refuses, a spacing below 0 or a share above 1, is refused here, unless it
 * says `truncated: true`. Inputs left out take their default. Throws a RangeError for those, for names that the formula
 * doesn't have, and for inputs that it needs and that are missing.
 *
 * @example
 * uncertainty.monteCarlo({ inputs: uncertainty.formulaInputs(survival.total, { protection: 0.6, turbineSurvival: 0.85,
 *   protectedSurvival: uncertainty.uniform({ from: 0.9, to: 1 }) }), output: survival.total.evaluate, seed: 1 }).mean.value
 * // => 0.910
 */
export function formulaInputs<F extends FormulaInfo, const I extends UncertainInputs>(
  formula: F,
  inputs: I,
): FormulaInputs<F, I> {
  const where = `uncertainty.formulaInputs, ${formula.id}`;
  const unknown = Object.keys(inputs).filter((name) => !Object.hasOwn(formula.inputs, name));
  if (unknown.length > 0)
    refuse(
      where,
      `it has no input "${unknown[0]}"; its inputs are ${Object.keys(formula.inputs).join(", ")}`,
    );
  const limited = Object.entries(formula.inputs).map(([name, spec]) => [
    name,
    limitedBy(where, name, spec, inputs[name]),
  ]);
  // A boundary: every input of the formula is there, given or by its default.
  return Object.fromEntries(limited) as FormulaInputs<F, I>;
}

function limitedBy(
  where: string,
  name: string,
  spec: InputSpec,
  given: UncertainInput | undefined,
): UncertainInput {
  if (spec.many === true)
    refuse(where, `${name} takes a list; draw such a formula in a function of your own`);
  const input = given ?? spec.default;
  if (input === undefined) refuse(where, `${name} is missing; give a number or a distribution`);
  if (typeof input === "number") return checkNumber(where, name, input, spec);
  if (isJoint(input))
    refuse(where, `${name} is one number; a fit of several goes into a function of your own`);
  const { above, atLeast, below, atMost, kind, unit } = spec;
  return within(`${where}, ${name}`, input, { above, atLeast, below, atMost, unit: shownUnit(kind, unit) });
}
