import { describe, expect, test } from "vitest";
import { fittedPolynomial } from "../../kernel-helpers/src/statistics/polynomial";

const cubic = (t: number): number => 2 - 3 * (t - 5000) + 0.5 * (t - 5000) ** 3;

describe("fittedPolynomial", () => {
  test("gives a polynomial of its degree back, far from zero as well", () => {
    const places = [4988, 4990, 4993, 5001, 5004, 5010];
    const fitted = fittedPolynomial(places, places.map(cubic), 3);
    for (const at of [4995, 5000, 5007]) expect(fitted(at)).toBeCloseTo(cubic(at), 6);
  });

  test("of degree 1 is the line of least squares", () => {
    // By hand: slope 1.4 and intercept 3.5 through (1, 6), (2, 5), (3, 7), (4, 10).
    const fitted = fittedPolynomial([1, 2, 3, 4], [6, 5, 7, 10], 1);
    expect(fitted(0)).toBeCloseTo(3.5, 10);
    expect(fitted(1) - fitted(0)).toBeCloseTo(1.4, 10);
  });
});
