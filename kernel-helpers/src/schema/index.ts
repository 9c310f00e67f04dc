export { allowedIn } from "./allowed";
export type { Column, Limits, RowOf, Schema } from "./column";
export { defineSchema } from "./schema";
