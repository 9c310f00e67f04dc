/** Parsed JSON: telling objects apart, and putting their keys in order. */
import { inOrder } from "./order";

export type JsonObject = Record<string, unknown>;

/** Returns whether a parsed JSON value is an object, and neither null nor an array. */
export function isJsonObject(value: unknown): value is JsonObject {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Returns a copy of a JSON value with the keys of every object in order. */
export function inKeyOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inKeyOrder);
  if (!isJsonObject(value)) return value;
  const keys = inOrder(Object.keys(value));
  return Object.fromEntries(keys.map((key) => [key, inKeyOrder(value[key])]));
}
