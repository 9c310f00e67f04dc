import { expect, test } from "vitest";
import { tellError, tellValue } from "../../kernel-helpers/src/workshop/cellPrints";

const code = `const kernel_helpers_1 = require("kernel-helpers");
exports.width = 3;
exports.tsLastExpr = (0, kernel_helpers_1.show)("width", exports.width);`;

/** An error with the stack of one that a line of the cell has led to. */
function thrownAt(line: number): Error {
  const error = new RangeError("width is -1 m");
  error.stack = `check.js:45\n  throw …\n\nRangeError: width is -1 m
    at check (/modules/check.js:45:15)
    at evalmachine.<anonymous>:1:7
    at evalmachine.<anonymous>:${line}:33
    at evalmachine.<anonymous>:4:3
    at Script.runInThisContext (node:vm:135:14)`;
  return error;
}

test("an error is told by its sentence and the cell's line as it was typed, without the compiler's names", () => {
  expect(tellError(thrownAt(3), code)).toBe(
    'RangeError: width is -1 m\n    at the line: show("width", width);',
  );
});

test("an error that no line of the cell has led to is told by its sentence alone", () => {
  const error = new TypeError("no place");
  error.stack = "TypeError: no place\n    at node:vm:135:14";
  expect(tellError(error, code)).toBe("TypeError: no place");
});

test("causes are told below, and a chain of causes that never ends is cut", () => {
  const error = new Error("outer", { cause: new Error("inner") });
  expect(tellError(error, "")).toBe("Error: outer\nBecause of Error: inner");
  error.cause = error;
  expect(String(tellError(error, "")).split("\n")).toHaveLength(5);
});

test("what is thrown or evaluated and is no error or module stays as it is", () => {
  const value = { a: 1 };
  expect([tellError(value, code), tellError("text", code), tellValue(value), tellValue(3)]).toEqual([
    value,
    "text",
    value,
    3,
  ]);
});
