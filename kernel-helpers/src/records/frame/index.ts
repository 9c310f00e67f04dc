export type { Aggregated, Plan } from "./aggregate";
export { type Description, frame, type Frame, type Groups } from "./frame";
