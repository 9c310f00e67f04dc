import type { QuestionResponse } from "../rack/survey";
import { axis, bar, layout, seriesName } from "./look";
import { checkSome } from "./numbers";
import type { FigureSpec } from "./spec";

/** What `answersByQuestion` draws. */
export interface AnswersByQuestionInput {
  readonly title?: string;
  /** As `survey.nonResponse` returns them. */
  readonly responses: readonly QuestionResponse[];
  readonly caption?: string;
}

/** Room that a question takes down the figure, in pixels. */
const rowHeight = 24;

/**
 * What became of each question on the sheets that came back: answered, set aside, missing, not due.
 *
 * Returns a figure for `figure`, one bar a question in the order of the sheet.
 *
 * @example
 * answersByQuestion({ responses: survey.nonResponse(cleaned) })
 */
export function answersByQuestion({ title, responses, caption }: AnswersByQuestionInput): FigureSpec {
  checkSome("answersByQuestion", "responses", responses);
  const sheets = Math.max(...responses.map(({ due }) => due));
  const counts: readonly { readonly name: string; readonly of: (one: QuestionResponse) => number }[] = [
    { name: "answered", of: ({ answered, inWords }) => answered + inWords },
    { name: "set aside", of: ({ setAside }) => setAside },
    { name: "missing", of: ({ missing }) => missing },
    { name: "not due", of: ({ due }) => sheets - due },
  ];
  const titles = responses.map((one) => one.title);
  const data = counts.map(({ name, of }, index) => ({
    ...bar([0, 1, 3, 6][index]),
    orientation: "h",
    name: seriesName(name),
    y: titles,
    x: responses.map(of),
    hovertemplate: `%{y}: %{x} ${name}`,
  }));
  const height = 150 + rowHeight * responses.length;
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Sheets", "", { range: [0, sheets] }),
      y: axis("Question", "", { type: "category", autorange: "reversed", ticks: "", showgrid: false }),
      more: { barmode: "stack", bargap: 0.25, height },
    }),
    alt: altText(responses, sheets),
    caption,
  };
}

function altText(responses: readonly QuestionResponse[], sheets: number): string {
  const ordered = responses.toSorted((one, other) => other.missing - one.missing);
  const most = ordered[0];
  const least = ordered[ordered.length - 1];
  const aside = responses.reduce((sum, { setAside }) => sum + setAside, 0);
  return [
    `What became of ${responses.length} questions on ${sheets} sheets.`,
    `Most often missing is ${most.title}, ${most.missing} of ${most.due} due;`,
    `least often ${least.title}, ${least.missing} of ${least.due}.`,
    `${aside} answers are set aside for a decision.`,
  ].join(" ");
}
