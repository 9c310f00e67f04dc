import type { UnitName } from "../../quantity/unit";

/** An exercise of the course. The right answer is computed, never stored. */
export interface ExerciseDefinition<Inputs, Answer extends number | string> {
  /** The right answer for the reader's current inputs. */
  readonly expected: (inputs: Inputs) => Answer;
  /** How far an answer may lie from the right one, relative to it. */
  readonly within: number;
  /** What helps after a wrong answer, without giving the solution away. */
  readonly hint: string;
  /** The unit in which an answer is asked for and shown; none for plain numbers and words. */
  readonly unit?: UnitName;
  /** The answers to choose from, where the answer is a word. */
  readonly choices?: readonly string[];
}

/** Declares an exercise and keeps the types of its inputs and answer. */
export const defineExercise = <Inputs, Answer extends number | string>(
  definition: ExerciseDefinition<Inputs, Answer>,
): ExerciseDefinition<Inputs, Answer> => definition;
