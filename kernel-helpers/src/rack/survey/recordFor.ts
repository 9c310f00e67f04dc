import { defineSchema, type Schema } from "../../schema";
import type { Questions } from "./question";

const optionalText = (note: string) => ({ kind: "text", optional: true, note }) as const;

/**
 * The record of a survey with questions of its own, for `readRecords`.
 *
 * Returns a schema with one column of texts for the plant's id, one for each question, and one for each column in
 * `besides`, which `clean` leaves alone. Throws an Error for a name that a column can't have.
 *
 * @example
 * Object.keys(survey.recordFor({ head: survey.builtRackQuestions.head }, { id: "site" }).columns).length // => 2
 */
export function recordFor(
  questions: Questions,
  { id = "plantId", besides = [] }: { readonly id?: string; readonly besides?: readonly string[] } = {},
): Schema {
  return defineSchema({
    title: "answers to a questionnaire",
    columns: {
      [id]: { kind: "text", unique: true, note: "the plant that was asked" },
      ...Object.fromEntries(
        Object.entries(questions).map(([name, { title }]) => [
          name,
          optionalText(`${title}, as it was written`),
        ]),
      ),
      ...Object.fromEntries(besides.map((name) => [name, optionalText("left alone")])),
    },
  });
}
