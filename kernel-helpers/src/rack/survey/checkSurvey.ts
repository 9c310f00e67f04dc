import type { AnswerTo, Question, Questions } from "./question";
import { readAnswer } from "./reading";

/** What was decided about one answer. */
export interface Correction {
  readonly plantId: string;
  readonly question: string;
  /** What is meant, written as an answer: "18 mm"; empty to leave the answer out. */
  readonly value: string;
  /** How one knows. */
  readonly reason: string;
}

/** For questions that are answered with numbers, from the least to the most that can well be true. */
export type PlausibleRanges<Q extends Questions> = {
  readonly [N in keyof Q]?: readonly [AnswerTo<Q[N]> & number, AnswerTo<Q[N]> & number];
};

const where = "survey.clean";
const refuse = (sentence: string): never => {
  throw new RangeError(`${where}: ${sentence}`);
};

/** The questions with other plausible ranges. */
export function withRanges<Q extends Questions>(questions: Q, ranges: PlausibleRanges<Q>): Q {
  const changed: Record<string, Question> = { ...questions };
  for (const [name, range] of Object.entries<readonly [number, number] | undefined>(ranges)) {
    if (range === undefined) continue;
    const question = Object.hasOwn(changed, name) ? changed[name] : refuse(unknownQuestion(name, questions));
    if (question.kind !== "quantity" && question.kind !== "whole") {
      return refuse(`plausible.${name}: the question is answered in words and has no range.`);
    }
    const [least, most] = range;
    if (!(Number.isFinite(least) && Number.isFinite(most) && least <= most)) {
      refuse(`plausible.${name} is ${String(least)} to ${String(most)}; give the least, then the most.`);
    }
    // A boundary: the numbers come in SI with the brand of the question's own dimension.
    changed[name] = { ...question, plausible: range } as Question;
  }
  // Every question is there again, of its own kind.
  return changed as Q;
}

const unknownQuestion = (name: string, questions: Questions): string =>
  `there is no question "${name}"; the questions are ${Object.keys(questions).join(", ")}.`;

/** Refuses a survey whose rows, questions and corrections do not belong together. */
export function checkSurvey(
  written: readonly Readonly<Record<string, string | number | undefined>>[],
  questions: Questions,
  {
    id,
    besides,
    corrections,
  }: {
    readonly id: string;
    readonly besides: readonly string[];
    readonly corrections: readonly Correction[];
  },
): void {
  if (written.length === 0) refuse("there are no rows; give one row for each plant that was asked.");
  const names = Object.keys(questions);
  const columns = [...new Set(written.flatMap((row) => Object.keys(row)))];
  if (!columns.includes(id)) {
    refuse(`no row has a column "${id}" that names the plant; the columns are ${columns.join(", ")}.`);
  }
  const without = names.filter((name) => !columns.includes(name));
  if (without.length > 0) {
    refuse(
      `${without.join(", ")}: a question without a column in the rows; the columns are ${columns.join(", ")}.`,
    );
  }
  const over = columns.filter((name) => name !== id && !besides.includes(name) && !names.includes(name));
  if (over.length > 0) {
    refuse(
      `${over.join(", ")}: a column without a question; add it to questions, or name it in besides to leave it alone.`,
    );
  }
  const seen = new Set<string>();
  for (const [at, row] of written.entries()) {
    const plant = String(row[id] ?? "").trim();
    if (plant === "") refuse(`row ${at + 1} has no ${id}; each row names its plant.`);
    if (seen.has(plant)) refuse(`plant ${plant} stands twice; keep one row, or name the racks apart.`);
    seen.add(plant);
  }
  for (const [name, { onlyIf }] of Object.entries(questions)) {
    if (onlyIf !== undefined && !names.includes(onlyIf.question)) {
      refuse(`${name} is due only if ${onlyIf.question} says so, and that is no question of the survey.`);
    }
  }
  corrections.forEach((one, at) => checkCorrection(one, corrections.slice(0, at), seen, questions));
}

function checkCorrection(
  { plantId, question, value, reason }: Correction,
  earlier: readonly Correction[],
  plants: ReadonlySet<string>,
  questions: Questions,
): void {
  const what = `the correction of ${plantId}, ${question}`;
  if (!plants.has(plantId)) refuse(`${what}: no row has this plant.`);
  if (!Object.hasOwn(questions, question)) refuse(`${what}: ${unknownQuestion(question, questions)}`);
  if (typeof reason !== "string" || reason.trim() === "") refuse(`${what} has no reason; say how you know.`);
  if (earlier.some((one) => one.plantId === plantId && one.question === question)) {
    refuse(`${what} stands twice; keep one.`);
  }
  // A share of another answer can only be read with the plant's other answers: 1 stands for them here.
  const reading = readAnswer(questions[question], value, () => 1);
  if (reading.state === "set aside" && reading.value === undefined) {
    refuse(`${what} is ${JSON.stringify(value)}: ${reading.fault ?? ""}`);
  }
  if (typeof reading.value === "number" && reading.value < 0) {
    refuse(`${what} is ${JSON.stringify(value)}; no answer of the survey can be below 0.`);
  }
}
