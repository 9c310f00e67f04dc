import type { Quantity } from "../../quantity/dimension";
import type { DimensionOf, UnitName } from "../../quantity/unit";

interface Common {
  /** What is asked for, in words: "clear spacing". */
  readonly title: string;
  /** The question is due only where another has this answer: no bypass, no bypass discharge. */
  readonly onlyIf?: { readonly question: string; readonly is: string };
}

/** A question that is answered with a number and a unit. */
export interface QuantityQuestion<K extends UnitName = UnitName> extends Common {
  readonly kind: "quantity";
  /** The unit that was asked for; a number without unit is taken in it. */
  readonly unit: K;
  /** From the least to the most that can well be true; what lies outside is set aside for a decision. */
  readonly plausible: readonly [Quantity<DimensionOf<K>>, Quantity<DimensionOf<K>>];
  /** "none" means that there is none of it: 0. */
  readonly noneIsZero?: boolean;
  /** An angle may be given to the normal of the flow instead. */
  readonly orToNormal?: boolean;
  /** It may be given in per cent of another answer. */
  readonly orShareOf?: string;
  /** It can't be more than another answer. */
  readonly atMost?: string;
  /** Answers in words that are answers, although no number. */
  readonly inWords?: readonly string[];
}

/** A question that is answered with a whole number without unit, such as a year. */
export interface WholeQuestion extends Common {
  readonly kind: "whole";
  readonly plausible: readonly [number, number];
}

/** A question that is answered in free words which stand for one of some categories. */
export interface ChoiceQuestion<W extends string = string> extends Common {
  readonly kind: "choice";
  /** The spellings of each category besides its own name; upper and lower case do not matter. */
  readonly choices: Readonly<Record<W, readonly string[]>>;
  /** A spelling may stand anywhere in a longer text, not only as the whole answer. */
  readonly anywhere?: boolean;
}

/** A question whose answer is kept as it was written. */
export interface TextQuestion extends Common {
  readonly kind: "text";
}

export type Question = QuantityQuestion | WholeQuestion | ChoiceQuestion | TextQuestion;

/** The questions of a survey by the names of their columns. */
export type Questions = Readonly<Record<string, Question>>;

/** What an answer becomes: a quantity in SI, a number, a category, a text. */
export type AnswerTo<Q extends Question> =
  Q extends QuantityQuestion<infer K>
    ? Quantity<DimensionOf<K>>
    : Q extends WholeQuestion
      ? number
      : Q extends ChoiceQuestion<infer W>
        ? W
        : string;

/** What became of an answer. */
export type AnswerState =
  | "answered"
  /** An answer, but no number: "by the clock" to a question for a head difference. */
  | "in words"
  | "missing"
  /** Not due: no bypass, no bypass discharge. */
  | "not applicable"
  /** Implausible or not understood, and not used until somebody decides. */
  | "set aside";

/** What an answer can be once it is read. */
export type Answer = number | string | undefined;
