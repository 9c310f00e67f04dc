export { type Outcome, outcomeMeanings, outcomes } from "./outcome";
export { runRecord } from "./runRecord";
