import type { Schema } from "./column";

/**
 * Declares a schema and keeps its literal types, so that rows read with it are typed column by column.
 *
 * @example
 * defineSchema({ title: "daily mean flow", columns: { date: { kind: "day", unique: true },
 *   discharge: { kind: "quantity", unit: "m3ps", atLeast: 0 } } })
 */
export const defineSchema = <const S extends Schema>(schema: S): S => schema;
