import { expect, test } from "vitest";
import { isLateError, shortError } from "../../kernel-helpers/src/workshop/failureText";

const thrown = `evalmachine.<anonymous>:2
throw new RangeError('clearSpacing is -5 mm; it must be above 0 mm.');
^

RangeError: clearSpacing is -5 mm; it must be above 0 mm.
    at evalmachine.<anonymous>:2:7
    at Script.runInThisContext (node:vm:135:14)
`;

test("an error is told without its stack and its source line", () => {
  expect(shortError(thrown)).toBe("RangeError: clearSpacing is -5 mm; it must be above 0 mm.");
});

test("an error thrown in a module is told without the module's source line", () => {
  const fromModule = thrown.replace("evalmachine.<anonymous>:2", "/modules/formula/check.js:45");
  expect(shortError(fromModule)).toBe("RangeError: clearSpacing is -5 mm; it must be above 0 mm.");
});

test("a wrong type is told with its place in words, every one of them", () => {
  expect(shortError("1:7 - Type 'number' is no string.\n3:12 - Cannot find name 'b'.\n")).toBe(
    "line 1, column 7: Type 'number' is no string.\nline 3, column 12: Cannot find name 'b'.",
  );
});

test("a long text is cut at the limit", () => {
  expect(shortError("abcdef", 3)).toBe("abc…");
});

test("an error in work that no cell awaited is told apart from one that a cell threw", () => {
  expect(isLateError("UnhandledPromiseRejection: Error: late\n    at x")).toBe(true);
  expect(isLateError("a line\nUncaughtException: Error: late")).toBe(true);
  expect(isLateError(thrown)).toBe(false);
  expect(shortError("UnhandledPromiseRejection: Error: late\n    at x")).toBe("Error: late");
});
