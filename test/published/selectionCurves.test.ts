import { describe, expect, test } from "vitest";
import { fitLogistic } from "../../kernel-helpers/src/protection";
import { fitBinomial } from "../../kernel-helpers/src/statistics";

describe("beetle mortality (data Bliss 1935, Ann. Appl. Biol. 22:134; logit fit printed in Dobson, An Introduction to Generalized Linear Models: −60.717, 34.270)", () => {
  const rows = [
    [1.6907, 6, 59],
    [1.7242, 13, 60],
    [1.7552, 18, 62],
    [1.7842, 28, 56],
    [1.8113, 52, 63],
    [1.8369, 53, 59],
    [1.861, 61, 62],
    [1.8839, 60, 60],
  ].map(([relativeWidth, held, fish]) => ({ relativeWidth, held, fish }));

  test("the S-shaped curve has the printed slope as its steepness and −intercept/slope as its midpoint", () => {
    const { steepness, midpoint } = fitLogistic({ fish: rows }).parameters;
    expect(steepness.estimate).toBeCloseTo(34.27, 2);
    expect(midpoint.estimate).toBeCloseTo(60.717 / 34.27, 4);
    // Printed beside it: a standard error of 2.912 of the slope.
    expect(steepness.standardError).toBeCloseTo(2.912, 2);
  });
});

describe("haddock held by a codend of 113 mm (data Clark 1957, used by Wileman et al. 1996, ICES Coop. Res. Rep. 215; fit recomputed by regression)", () => {
  const cover = [
    2, 5, 11, 28, 53, 46, 35, 27, 5, 3, 2, 0, 2, 2, 4, 12, 9, 14, 15, 8, 9, 3, 3, 2, 1, 0, 0, 0, 0, 1, 0, 0,
    0, 0, 0, 0, 0,
  ];
  const codend = [
    0, 0, 0, 0, 1, 5, 1, 3, 1, 0, 1, 0, 0, 3, 4, 5, 8, 13, 29, 29, 34, 30, 29, 18, 16, 11, 12, 9, 3, 5, 3, 5,
    2, 2, 1, 1, 4,
  ];
  const lengths = cover.map((_, at) => 19.5 + at);
  const fish = lengths.map((length, at) => ({
    // Lengths in decimetres: any measure of size serves a selection curve.
    relativeWidth: length / 10,
    held: codend[at],
    fish: codend[at] + cover[at],
  }));

  test("the midpoint is the length at which half are held, and steepness gives the selection range 2 ln 3 / k", () => {
    const { midpoint, steepness } = fitLogistic({ fish }).parameters;
    const { coefficients } = fitBinomial({
      successes: codend,
      trials: fish.map((one) => one.fish),
      terms: { length: lengths },
      link: "logit",
    });
    const [intercept, slope] = coefficients.map((one) => one.estimate);
    expect(10 * midpoint.estimate).toBeCloseTo(-intercept / slope, 3);
    expect((20 * Math.log(3)) / steepness.estimate).toBeCloseTo((2 * Math.log(3)) / slope, 3);
    // Half of the fish between 35 and 37 cm are held in the counts themselves.
    expect(10 * midpoint.estimate).toBeGreaterThan(33);
    expect(10 * midpoint.estimate).toBeLessThan(37);
  });
});
