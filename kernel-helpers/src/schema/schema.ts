import { units } from "../quantity/unit";
import type { Column, Limits, Schema } from "./column";

/**
 * Declares a schema and keeps its literal types, so that rows read with it are typed column by column.
 *
 * Throws an Error with a sentence for a schema that no file can fit: an unknown unit, limits that exclude each
 * other, an empty list of words, a name that a header can't hold.
 *
 * @example
 * defineSchema({ title: "daily mean flow", columns: { date: { kind: "day", unique: true },
 *   discharge: { kind: "quantity", unit: "m3ps", atLeast: 0 } } })
 */
export const defineSchema = <const S extends Schema>(schema: S): S => {
  const columns: Readonly<Record<string, Column>> = schema.columns;
  const refuse = (sentence: string): never => {
    throw new Error(`defineSchema, "${schema.title}": ${sentence}`);
  };
  if (Object.keys(columns).length === 0) refuse("columns is empty; a schema names at least one column.");
  for (const [name, column] of Object.entries(columns)) {
    if (!/^\p{L}[\p{L}\p{N}_]*$/u.test(name)) {
      refuse(`"${name}" is no name for a column; a name is letters and digits, such as "totalLength".`);
    }
    if (column.kind === "quantity" && !Object.hasOwn(units, column.unit)) {
      refuse(`${name} has unit "${column.unit}"; the units are ${Object.keys(units).join(", ")}.`);
    }
    if (column.kind === "choice" && column.oneOf.length === 0) {
      refuse(`${name} has an empty oneOf; list the words it may hold.`);
    }
    if (column.kind === "quantity" || column.kind === "number") {
      const fault = limitsFault(column);
      if (fault !== undefined) refuse(`${name} ${fault}`);
    }
  }
  return schema;
};

function limitsFault({ above, atLeast, below, atMost }: Limits): string | undefined {
  for (const limit of [above, atLeast, below, atMost]) {
    if (limit !== undefined && !Number.isFinite(limit)) {
      return `has a limit of ${limit}; a limit is a finite number.`;
    }
  }
  const lowest = Math.max(above ?? -Infinity, atLeast ?? -Infinity);
  const highest = Math.min(below ?? Infinity, atMost ?? Infinity);
  const open = above === lowest || below === highest;
  return lowest > highest || (lowest === highest && open)
    ? `may be neither under ${lowest} nor over ${highest}: no number fits.`
    : undefined;
}
