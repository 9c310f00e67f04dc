import { proportionInterval, type ProportionInterval } from "../../statistics/proportion";
import type { CleanSurvey } from "./clean";
import type { AnswerState, Questions } from "./question";

/** How many answered, of how many that could. */
export interface ResponseRate extends ProportionInterval {
  /** What the rate is a share of, in words. */
  readonly of: string;
}

const refuse = (where: string, sentence: string): never => {
  throw new RangeError(`survey.${where}: ${sentence}`);
};

/**
 * Share of the plants asked that answered, with its Wilson interval.
 *
 * Returns the rate, its interval and its counts. Plants that turned out to have no rack are not eligible and leave the
 * denominator; all others stay in it, whether they declined or were never reached. A survey as `clean` returns it may
 * be given instead of counts. The interval speaks of the plants that might have been asked as these were; it says
 * nothing about whether those that answered are like those that didn't. Throws a RangeError for counts that do not fit.
 *
 * @example
 * survey.responseRate({ asked: 90, answered: 60 }).lower // => 0.564
 */
export function responseRate({
  asked,
  answered,
  notEligible = 0,
  level,
}: {
  readonly asked: number;
  readonly answered: number;
  readonly notEligible?: number;
  readonly level?: number;
}): ResponseRate {
  for (const [name, count] of Object.entries({ asked, answered, notEligible })) {
    if (!Number.isSafeInteger(count) || count < 0) {
      refuse("responseRate", `${name} is ${String(count)}; it must be a whole number of at least 0.`);
    }
  }
  const eligible = asked - notEligible;
  if (eligible < 1) {
    refuse("responseRate", `of ${asked} plants asked ${notEligible} are not eligible; at least one must be.`);
  }
  if (answered > eligible) {
    refuse("responseRate", `${answered} plants answered, and only ${eligible} eligible ones were asked.`);
  }
  return {
    ...proportionInterval({ successes: answered, trials: eligible, level }),
    of: notEligible === 0 ? "plants asked" : "eligible plants asked",
  };
}

/** How a question was answered by the plants that answered at all. */
export interface QuestionResponse {
  readonly question: string;
  readonly title: string;
  /** Plants that answered the sheet and had this question to answer. */
  readonly due: number;
  /** Of these: with an answer that can be used. */
  readonly answered: number;
  /** With an answer in words where a number was asked for. */
  readonly inWords: number;
  readonly missing: number;
  /** With an answer that waits for a decision. */
  readonly setAside: number;
  /** Share of the plants in `due` without an answer, with its Wilson interval; none where none had it to answer. */
  readonly missingShare: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
}

/**
 * How often each question was left out by plants that answered the sheet.
 *
 * Returns one row a question. Plants that sent nothing back are counted by `responseRate`, not here; plants that had
 * a question not to answer, such as the discharge of a bypass that does not exist, are not due. A plant that says
 * nothing about its bypass is due.
 *
 * @example
 * survey.nonResponse(survey.clean([{ plantId: "P1", head: "4 m" }, { plantId: "P2", head: "5 m", width: "" }],
 *   { questions: { head: survey.builtRackQuestions.head, width: survey.builtRackQuestions.channelWidth } }))[1].missing
 * // => 2
 */
export function nonResponse<Q extends Questions>(
  cleaned: CleanSurvey<Q>,
  { level }: { readonly level?: number } = {},
): readonly QuestionResponse[] {
  return Object.keys(cleaned.questions).map((question) => {
    const states: readonly AnswerState[] = cleaned.states[question];
    const count = (state: AnswerState): number => states.filter((one) => one === state).length;
    const missing = count("missing");
    const due = states.length - count("not applicable");
    const share = due === 0 ? undefined : proportionInterval({ successes: missing, trials: due, level });
    return {
      question,
      title: cleaned.questions[question].title,
      due,
      answered: count("answered"),
      inWords: count("in words"),
      missing,
      setAside: count("set aside"),
      missingShare: share?.estimate,
      lower: share?.lower,
      upper: share?.upper,
    };
  });
}
