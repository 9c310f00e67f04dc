export { allowedIn } from "./allowed";
export type { Column, Limits, RowOf, Schema } from "./column";
export { defineSchema } from "./schema";
export {
  type RowFault,
  type RowRule,
  type RowsRule,
  type Rule,
  sameWithin,
  uniqueTogether,
  withRules,
} from "./rule";
