import { expect, test } from "vitest";
import { sameText, splitNumbers } from "../../kernel-helpers/src/workshop/numbers";

test("the numbers of a text are found with sign and exponent, and not inside names", () => {
  expect(splitNumbers("a1 = -0.5 m, 3.1e-7, x2y, −12 °C, (7)")).toEqual({
    numbers: ["-0.5", "3.1e-7", "−12", "7"],
    between: ["a1 = ", " m, ", ", x2y, ", " °C, (", ")"],
  });
});

test("texts agree when their words do exactly and their numbers to the digits shown", () => {
  expect(sameText("h = 1.20 m", "h = 1.20 m")).toBe(true);
  expect(sameText("h = 1.20 m", "h = 1.21 m")).toBe(false);
  expect(sameText("h = 1.20 m", "k = 1.20 m")).toBe(false);
  expect(sameText("1 2", "1 2 3")).toBe(false);
});

test("digits beyond the twelfth may differ by rounding only", () => {
  expect(sameText("0.30000000000000004", "0.30000000000000010")).toBe(true);
  expect(sameText("0.30000000000000004", "0.30000000100000004")).toBe(false);
  expect(sameText("1.234567890123e-7", "1.234567890124e-7")).toBe(true);
  expect(sameText("1.234567890123e-7", "1.234567890123e-8")).toBe(false);
  expect(sameText("1.234567890123", "-1.234567890123")).toBe(false);
});
