import type { PlainNumber } from "../quantity/dimension";
import { formatNumber, withSymbol } from "../quantity/format";
import { u } from "../quantity/u";
import { type UnitName, units } from "../quantity/unit";
import { emitMarkdown, escapeMarkdown } from "./emit";
import { type ExerciseId, exercises } from "./exercises";
import type { ExerciseDefinition } from "./exercises/definition";

type InputsOf<K extends ExerciseId> = Parameters<(typeof exercises)[K]["expected"]>[0];
type ExpectedOf<K extends ExerciseId> = Extract<
  ReturnType<(typeof exercises)[K]["expected"]>,
  number | string
>;
/** Where a plain number is asked for, a quantity is refused before the cell runs. */
type AnswerOf<K extends ExerciseId> = number extends ExpectedOf<K> ? PlainNumber : ExpectedOf<K>;

/**
 * Checks the reader's answer to an exercise of the course.
 *
 * What is right is computed from the inputs given here, so that it follows the reader's own edits. An answer within
 * the tolerance is accepted; a wrong one gets a hint, never the solution; `undefined` says how to answer.
 * Throws a RangeError for an exercise that does not exist.
 *
 * @example
 * exercise("03.1", { channelWidth: u.m(17) }, undefined)
 */
export function exercise<K extends ExerciseId>(
  id: K,
  inputs: InputsOf<K>,
  answer: AnswerOf<K> | undefined,
): void {
  const found: ExerciseDefinition<InputsOf<K>, ExpectedOf<K>> | undefined = lookUp(id);
  if (found === undefined) {
    throw new RangeError(
      `exercise: there is no exercise "${id}"; there are ${Object.keys(exercises).join(", ")}.`,
    );
  }
  const name = `Exercise ${id}`;
  if (answer === undefined) {
    return say(`${name}: replace \`undefined\` with your answer, ${howToAnswer(found)}.`);
  }
  if (typeof answer === "number" && !Number.isFinite(answer)) {
    return say(
      `✗ ${name}: your answer is ${String(answer)}; give a number${found.unit === undefined ? "" : ` with its unit: \`u.${found.unit}(…)\``}.`,
    );
  }
  const expected = found.expected(inputs);
  if (isRight(answer, expected, found.within)) {
    const [given, exact] = [answer, expected].map((one) => printAnswer(one, found.unit));
    return say(`✓ ${name}: right, ${given}${given === exact ? "" : ` (worked out: ${exact})`}.`);
  }
  if (typeof answer === "number" && typeof expected === "number") {
    const factor = unitSlip(answer / expected, found.within);
    if (factor !== undefined) {
      const where = slipAdvice(factor, expected, found.unit);
      return say(`✗ ${name}: not yet. Your number is ${factor} times the right one: ${where}.`);
    }
  }
  say(`✗ ${name}: not yet. Your answer is ${printAnswer(answer, found.unit)}. Hint: ${found.hint}`);
}

function lookUp<K extends ExerciseId>(id: K): ExerciseDefinition<InputsOf<K>, ExpectedOf<K>> | undefined {
  if (!Object.hasOwn(exercises, id)) return undefined;
  // The compiler can't follow that entry K of the list takes K's inputs; the list's own types say so.
  return exercises[id] as unknown as ExerciseDefinition<InputsOf<K>, ExpectedOf<K>>;
}

const say = (text: string): void => emitMarkdown(text);

function isRight(answer: number | string, expected: number | string, within: number): boolean {
  if (typeof answer === "string" || typeof expected === "string") return answer === expected;
  return Math.abs(answer - expected) <= within * Math.max(Math.abs(expected), 1e-12);
}

/** The factors that a slip of units gives: millimetres for metres, per cent for ratios, degrees for radians. */
function unitSlip(factor: number, within: number): string | undefined {
  const slips: readonly (readonly [number, string])[] = [
    [1000, "1000"],
    [0.001, "1/1000"],
    [100, "100"],
    [0.01, "1/100"],
    [60, "60"],
    [1 / 60, "1/60"],
    [180 / Math.PI, "180/π"],
    [Math.PI / 180, "π/180"],
  ];
  return slips.find(([slip]) => Math.abs(factor - slip) <= within * slip)?.[1];
}

/** Says where a slip of units may lie; a number without unit has none to look at. */
function slipAdvice(factor: string, expected: number, unit: UnitName | undefined): string {
  if (unit !== undefined) return "look at its unit";
  if (factor === "100" && expected <= 1) return "a share is a ratio from 0 to 1, not per cent";
  return "look at the units of what it was worked out from";
}

function howToAnswer({ unit, choices }: Pick<ExerciseDefinition<never, never>, "unit" | "choices">): string {
  if (choices !== undefined) return `one of ${choices.map((choice) => `"${choice}"`).join(", ")}`;
  return unit === undefined ? "a plain number" : `with its unit: \`u.${unit}(…)\``;
}

function printAnswer(answer: number | string, unit: UnitName | undefined): string {
  if (typeof answer === "string") return escapeMarkdown(answer);
  if (unit === undefined) return formatNumber(answer, 4);
  // The exercise's own unit belongs to its answer's dimension.
  return withSymbol(
    formatNumber((u.to[unit] as (quantity: number) => number)(answer), 4),
    units[unit].symbol,
  );
}
