export type { Column, RowOf, Schema } from "./column";
export { defineSchema } from "./schema";
