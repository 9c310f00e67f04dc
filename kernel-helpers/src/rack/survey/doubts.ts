import { printValue } from "../../formula/input";
import type { builtRackQuestions } from "./builtRacks";
import type { AnswerTo, Questions } from "./question";
import { printAnswer } from "./reading";

/** Answers of one plant that do not fit each other: one of them is wrong, and nobody can see which. */
export interface Doubt {
  readonly plantId: string;
  readonly questions: readonly string[];
  /** The answers as they were taken. */
  readonly answers: readonly string[];
  readonly why: string;
}

/** The answers of one plant: quantities in SI, categories, texts; undefined where nothing is known. */
export type CleanRow<Q extends Questions> = { readonly plantId: string } & {
  readonly [N in keyof Q]: AnswerTo<Q[N]> | undefined;
};

/** What must fit together. */
export interface DoubtRule<Q extends Questions> {
  /** The rule is held against plants that answered all of these. */
  readonly questions: readonly (keyof Q & string)[];
  /** Returns what does not fit, or undefined. */
  fault(row: CleanRow<Q>): string | undefined;
}

/** Approach velocities of run-of-river plants in m/s: common practice, no source, and wide on purpose. */
const likelyVelocity = [0.1, 2.5] as const;

const print = (velocity: number): string => printValue(velocity, "velocity");

/** What is held together of a built rack: discharge, width and depth make a velocity. */
export const builtRackDoubts: readonly DoubtRule<typeof builtRackQuestions>[] = [
  {
    questions: ["designDischarge", "channelWidth", "channelDepth"],
    fault({ designDischarge = NaN, channelWidth = NaN, channelDepth = NaN }) {
      const velocity = designDischarge / (channelWidth * channelDepth);
      const [least, most] = likelyVelocity;
      if (velocity >= least && velocity <= most) return undefined;
      return `they make an approach velocity of ${print(velocity)}, outside ${print(least)} to ${print(most)}; ask which is wrong.`;
    },
  },
];

/** Returns the doubts about plants, rule by rule. */
export function doubtsAbout<Q extends Questions>(
  rows: readonly CleanRow<Q>[],
  questions: Q,
  rules: readonly DoubtRule<Q>[],
): readonly Doubt[] {
  return rows.flatMap((row) =>
    rules
      .filter((rule) => rule.questions.every((name) => row[name] !== undefined))
      .flatMap((rule) => {
        const why = rule.fault(row);
        return why === undefined
          ? []
          : [
              {
                plantId: row.plantId,
                questions: [...rule.questions],
                // The row holds an answer to each of its questions.
                answers: rule.questions.map((name) =>
                  printAnswer(questions[name], row[name] as number | string | undefined),
                ),
                why,
              },
            ];
      }),
  );
}
