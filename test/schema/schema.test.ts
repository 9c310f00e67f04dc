import { describe, expect, expectTypeOf, test } from "vitest";
import type { Discharge } from "../../kernel-helpers/src/quantity";
import {
  allowedIn,
  type Column,
  defineSchema,
  type RowOf,
  type Schema,
} from "../../kernel-helpers/src/schema";

test("defineSchema keeps the literal types, so that rows are typed column by column", () => {
  const schema = defineSchema({
    title: "trial",
    columns: {
      run: { kind: "number", whole: true },
      outcome: { kind: "choice", oneOf: ["bypass", "rack"] },
      discharge: { kind: "quantity", unit: "m3ps", optional: true },
    },
  });
  expectTypeOf<RowOf<typeof schema>>().toEqualTypeOf<{
    readonly run: number;
    readonly outcome: "bypass" | "rack";
    readonly discharge: Discharge | undefined;
  }>();
  expect(schema.columns.outcome.oneOf).toEqual(["bypass", "rack"]);
});

const define = (columns: Schema["columns"]) => (): unknown => defineSchema({ title: "trial", columns });

describe("defineSchema refuses a schema that no file can fit", () => {
  test.each<[Record<string, Column>, string]>([
    [{}, "columns is empty"],
    [{ "flow [m3/s]": { kind: "number" } }, '"flow [m3/s]" is no name for a column'],
    [
      { flow: { kind: "quantity", unit: "furlong" as "m" } },
      'flow has unit "furlong"; the units are m, cm, mm',
    ],
    [{ word: { kind: "choice", oneOf: [] } }, "word has an empty oneOf"],
    [{ x: { kind: "number", atLeast: 2, below: 2 } }, "x may be neither under 2 nor over 2: no number fits."],
    [{ x: { kind: "number", above: 3, atMost: 2 } }, "x may be neither under 3 nor over 2"],
    [{ x: { kind: "number", above: NaN } }, "x has a limit of NaN"],
  ])("%j", (columns, sentence) => {
    expect(define(columns)).toThrow(`defineSchema, "trial": ${sentence}`);
  });

  test("but takes a single allowed number", () => {
    expect(define({ x: { kind: "number", atLeast: 2, atMost: 2 } })).not.toThrow();
  });
});

test.each<[Column, string]>([
  [{ kind: "quantity", unit: "mm", above: 0, atMost: 2000 }, "a number above 0 mm and at most 2000 mm"],
  [{ kind: "quantity", unit: "deg", below: 90 }, "a number below 90°"],
  [
    { kind: "number", whole: true, atLeast: 0, optional: true },
    "a whole number at least 0; or an empty cell",
  ],
  [{ kind: "choice", oneOf: ["yes", "no"] }, "one of yes, no"],
  [
    { kind: "day", unique: true },
    "a day written year-month-day, such as 2026-03-01, in no two rows the same",
  ],
  [{ kind: "text" }, "a text"],
])("allowedIn(%j) is %j", (column, words) => {
  expect(allowedIn(column)).toBe(words);
});
