import { builtRackQuestions } from "./builtRacks";
import { checkSurvey, type Correction, type PlausibleRanges, withRanges } from "./checkSurvey";
import { builtRackDoubts, type CleanRow, type Doubt, type DoubtRule, doubtsAbout } from "./doubts";
import type { Answer, AnswerState, AnswerTo, Questions } from "./question";
import { printAnswer, readAnswer, type Reading } from "./reading";

/** A row as it was written: an id and one text a question. */
export type WrittenRow = Readonly<Record<string, string | number | undefined>>;

/** What was changed in one answer. */
export interface Change {
  readonly plantId: string;
  readonly question: string;
  /** The text of the answer. */
  readonly written: string;
  /** What it was taken as, in the unit that was asked for. */
  readonly taken: string;
  readonly why: string;
}

/** An answer that is not used until somebody decides: by a correction with a reason, or by leaving it out. */
export interface Undecided {
  readonly plantId: string;
  readonly question: string;
  readonly written: string;
  readonly why: string;
}

/** Answers in order, with a record of what was done to them. */
export interface CleanSurvey<Q extends Questions = Questions> {
  readonly questions: Q;
  /** How many plants were asked. */
  readonly asked: number;
  /** How many of them answered any question. */
  readonly answered: number;
  /** The plants that answered, in the order of the file. */
  readonly rows: readonly CleanRow<Q>[];
  /** For each question what became of its answer, in the order of `rows`. */
  readonly states: { readonly [N in keyof Q]: readonly AnswerState[] };
  readonly changes: readonly Change[];
  readonly setAside: readonly Undecided[];
  /** Answers that are used although they do not fit each other; look at them one by one. */
  readonly doubts: readonly Doubt[];
  /** The answers to a question that are known. */
  column<N extends keyof Q>(question: N): readonly AnswerTo<Q[N]>[];
}

/** What `clean` can be told. */
export interface CleanOptions<Q extends Questions> {
  /** The questions of the survey by column; those on built racks unless told. */
  readonly questions?: Q;
  /** The column that names the plant; `plantId` unless told. */
  readonly id?: string;
  /** Columns that are no questions and may stand beside them; `answered`, the day, unless told. */
  readonly besides?: readonly string[];
  /** Other ranges of what can well be true, from the least to the most. */
  readonly plausible?: PlausibleRanges<Q>;
  /** What must fit together; for built racks that discharge, width and depth make a likely velocity. */
  readonly mustFit?: readonly DoubtRule<Q>[];
  /** What was decided about single answers, each with its reason. */
  readonly corrections?: readonly Correction[];
}

/**
 * Reads the answers of a questionnaire: units, "about", free words; what is missing stays missing.
 *
 * Returns the answers with a record of each change, and those that are set aside: implausible, contradictory or not
 * understood. None of them is used or corrected until a correction says what is meant, and why; the record names it.
 * `doubts` lists answers that are used but do not fit each other.
 * A number without unit is taken in the unit that was asked for, and said so. Throws a RangeError for a column that no
 * question belongs to, a question without column, a plant that stands twice, and a correction of what isn't there.
 *
 * @example
 * survey.clean([{ plantId: "P1", clearSpacing: "about 2 cm" }],
 *   { questions: { clearSpacing: survey.builtRackQuestions.clearSpacing } }).changes[0].why
 * // => "\"about\" dropped; cm turned into mm"
 */
export function clean(
  written: readonly WrittenRow[],
  options?: CleanOptions<typeof builtRackQuestions> & { readonly questions?: undefined },
): CleanSurvey<typeof builtRackQuestions>;
export function clean<const Q extends Questions>(
  written: readonly WrittenRow[],
  options: CleanOptions<Q> & { readonly questions: Q },
): CleanSurvey<Q>;
export function clean<Q extends Questions>(
  written: readonly WrittenRow[],
  options: CleanOptions<Q> = {},
): CleanSurvey<Q> {
  const { id = "plantId", besides = ["answered"], corrections = [] } = options;
  // Without questions of its own the survey is the one on built racks, which Q then stands for.
  const questions = withRanges((options.questions ?? builtRackQuestions) as Q, options.plausible ?? {});
  checkSurvey(written, questions, { id, besides, corrections });
  const names = Object.keys(questions);
  const answering = written.filter((row) => names.some((name) => textOf(row[name]) !== ""));
  const plants = answering.map((row) => {
    const plantId = textOf(row[id]);
    const own = corrections.filter((one) => one.plantId === plantId);
    return { plantId, row, readings: readPlant(questions, row, own) };
  });
  const entries = plants.flatMap(({ plantId, row, readings }) =>
    names.map((question) => ({
      plantId,
      question,
      written: textOf(row[question]),
      reading: readings[question],
    })),
  );
  // A boundary: each reading has the kind of its question, which the compiler can't follow through the record.
  const rows = plants.map(({ plantId, readings }) => ({
    plantId,
    ...valuesOf(readings),
  })) as unknown as readonly CleanRow<Q>[];
  // Without questions of its own the survey is the one on built racks.
  const usual =
    options.questions === undefined ? (builtRackDoubts as unknown as readonly DoubtRule<Q>[]) : [];
  return {
    questions,
    asked: written.length,
    answered: answering.length,
    rows,
    doubts: doubtsAbout(rows, questions, options.mustFit ?? usual),
    states: Object.fromEntries(
      names.map((name) => [name, plants.map(({ readings }) => readings[name].state)]),
    ) as unknown as CleanSurvey<Q>["states"], // the names are those of the questions
    changes: entries
      .filter(({ reading }) => reading.state !== "set aside" && reading.changes.length > 0)
      .map(({ plantId, question, written: text, reading }) => ({
        plantId,
        question,
        written: text,
        taken: reading.state === "in words" ? "no number" : printAnswer(questions[question], reading.value),
        why: reading.changes.join("; "),
      })),
    setAside: entries
      .filter(({ reading }) => reading.state === "set aside")
      .map(({ plantId, question, written: text, reading }) => ({
        plantId,
        question,
        written: text,
        why: [reading.fault ?? "", ...reading.changes.map((change) => `(${change})`)].join(" "),
      })),
    column: (name) => {
      if (!names.includes(String(name))) {
        throw new RangeError(
          `survey: there is no question "${String(name)}"; the questions are ${names.join(", ")}.`,
        );
      }
      return rows
        .map((row: Readonly<Record<string, Answer>>) => row[String(name)])
        .filter((value) => value !== undefined) as unknown as readonly AnswerTo<Q[typeof name]>[]; // as in rows above
    },
  };
}

const textOf = (value: string | number | undefined): string =>
  value === undefined ? "" : String(value).trim();

const valuesOf = (readings: Readonly<Record<string, Reading>>): Record<string, Answer> =>
  Object.fromEntries(
    Object.entries(readings).map(([name, { state, value }]) => [
      name,
      state === "answered" ? value : undefined,
    ]),
  );

/** Reads the answers of one plant, then holds them against each other. */
function readPlant(
  questions: Questions,
  row: WrittenRow,
  corrections: readonly Correction[],
): Readonly<Record<string, Reading>> {
  const readings: Record<string, Reading> = {};
  const known = (name: string): Answer =>
    readings[name]?.state === "answered" ? readings[name].value : undefined;
  const read = (name: string): Reading => {
    const correction = corrections.find(({ question }) => question === name);
    const reading = readAnswer(questions[name], correction?.value ?? textOf(row[name]), known);
    return correction === undefined ? reading : corrected(reading, correction);
  };
  // An answer that refers to another one is read after it.
  const names = Object.keys(questions);
  const refers = (name: string): boolean => {
    const question = questions[name];
    return question.kind === "quantity" && question.orShareOf !== undefined;
  };
  for (const name of [...names.filter((one) => !refers(one)), ...names.filter(refers)]) {
    readings[name] = read(name);
  }
  return Object.fromEntries(
    names.map((name) => [name, heldAgainstOthers(questions, name, readings[name], known)]),
  );
}

/** What the reader of the survey decided holds, even outside the plausible range; the record says so. */
function corrected(reading: Reading, { value, reason }: Correction): Reading {
  const decided = value.trim() === "" ? `left out: ${reason}` : `corrected to "${value}": ${reason}`;
  if (reading.state !== "set aside") return { ...reading, changes: [decided, ...reading.changes] };
  return {
    state: "answered",
    value: reading.value,
    changes: [decided, ...reading.changes, "outside the plausible range, as decided"],
  };
}

function heldAgainstOthers(
  questions: Questions,
  name: string,
  reading: Reading,
  known: (name: string) => Answer,
): Reading {
  const question = questions[name];
  const { onlyIf } = question;
  if (onlyIf !== undefined) {
    const other = known(onlyIf.question);
    const due = other === undefined || other === onlyIf.is;
    if (!due && reading.state === "missing") return { ...reading, state: "not applicable" };
    if (!due && reading.state === "answered") {
      return { ...reading, state: "set aside", fault: `answered, although ${onlyIf.question} is ${other}.` };
    }
  }
  if (question.kind !== "quantity" || question.atMost === undefined || reading.state !== "answered") {
    return reading;
  }
  const most = known(question.atMost);
  if (typeof most !== "number" || Number(reading.value) <= most) return reading;
  const [here, there] = [reading.value, most].map((value) => printAnswer(question, value));
  return {
    ...reading,
    state: "set aside",
    fault: `${here} is more than the plant's ${question.atMost}, ${there}.`,
  };
}
