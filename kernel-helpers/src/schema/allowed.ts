import { withSymbol } from "../quantity/format";
import { units } from "../quantity/unit";
import type { Column, Limits } from "./column";

/**
 * What a column allows, in words: for the README of a data set and for messages.
 *
 * @example
 * allowedIn({ kind: "quantity", unit: "mm", above: 0, atMost: 2000 }) // => "a number above 0 mm and at most 2000 mm"
 */
export function allowedIn(column: Column): string {
  return [
    entry(column),
    column.unique ? ", in no two rows the same" : "",
    column.optional ? "; or an empty cell" : "",
  ].join("");
}

function entry(column: Column): string {
  switch (column.kind) {
    case "quantity":
      return `a number${limits(column, units[column.unit].symbol)}`;
    case "number":
      return `a ${column.whole ? "whole " : ""}number${limits(column, "")}`;
    case "choice":
      return column.oneOf.length === 1 ? column.oneOf[0] : `one of ${column.oneOf.join(", ")}`;
    case "day":
      return "a day written year-month-day, such as 2026-03-01";
    case "text":
      return "a text";
  }
}

function limits({ above, atLeast, below, atMost }: Limits, symbol: string): string {
  const parts = (
    [
      ["above", above],
      ["at least", atLeast],
      ["below", below],
      ["at most", atMost],
    ] as const
  ).flatMap(([word, limit]) => (limit === undefined ? [] : [`${word} ${withSymbol(String(limit), symbol)}`]));
  return parts.length === 0 ? "" : ` ${parts.join(" and ")}`;
}
