export { answerRecord, builtRackQuestions } from "./builtRacks";
export type { Correction, PlausibleRanges } from "./checkSurvey";
export { type Change, clean, type CleanOptions, type CleanSurvey, type Undecided } from "./clean";
export type {
  AnswerState,
  AnswerTo,
  ChoiceQuestion,
  QuantityQuestion,
  Question,
  Questions,
  TextQuestion,
  WholeQuestion,
} from "./question";
export { type ClassOfValues, type Combination, combinations, type Combinations } from "./combinations";
export { type Distribution, distribution } from "./distribution";
export { quantiles } from "./quantiles";
export { nonResponse, type QuestionResponse, responseRate, type ResponseRate } from "./responseRate";
export { type CategoryShare, shares } from "./shares";
export { recordFor } from "./recordFor";
export type { CleanRow, Doubt, DoubtRule } from "./doubts";
