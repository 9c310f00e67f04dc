import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type DetectorCounts, singleRelease } from "../../kernel-helpers/src/statistics/markRecapture";

const counts = fc
  .record({
    both: fc.integer({ min: 1, max: 500 }),
    firstOnly: fc.integer({ min: 0, max: 200 }),
    secondOnly: fc.integer({ min: 0, max: 200 }),
    neither: fc.integer({ min: 0, max: 500 }),
  })
  .map((one) => ({ ...one, released: one.both + one.firstOnly + one.secondOnly + one.neither }));

/** Probabilities of the four histories. */
const histories = (survival: number, detection: number, onward: number): number[] => {
  const seen = [detection * onward, detection * (1 - onward), (1 - detection) * onward].map(
    (one) => one * survival,
  );
  return [...seen, 1 - seen.reduce((sum, one) => sum + one, 0)];
};

describe("singleRelease", () => {
  test("its three estimates give back the counts of the histories that were seen", () => {
    fc.assert(
      fc.property(counts, (one) => {
        const { survival, detection, onward } = singleRelease(one);
        const expected = histories(survival.estimate, detection.estimate, onward.estimate).map(
          (p) => p * one.released,
        );
        expect(expected[0]).toBeCloseTo(one.both, 8);
        expect(expected[1]).toBeCloseTo(one.firstOnly, 8);
        expect(expected[2]).toBeCloseTo(one.secondOnly, 8);
      }),
    );
  });

  test("the survival's error is that of the inverse curvature of the likelihood", () => {
    const one = { released: 400, both: 150, firstOnly: 60, secondOnly: 70 };
    const { survival, detection, onward } = singleRelease(one);
    const seen = [one.both, one.firstOnly, one.secondOnly, 120];
    const at = [survival.estimate, detection.estimate, onward.estimate];
    const likelihood = (point: readonly number[]): number =>
      histories(point[0], point[1], point[2]).reduce((sum, p, which) => sum + seen[which] * Math.log(p), 0);
    const step = 1e-4;
    const moved = (i: number, a: number, j: number, b: number): number =>
      likelihood(
        at.map((value, which) => value + (which === i ? a * step : 0) + (which === j ? b * step : 0)),
      );
    const curvature = (i: number, j: number): number =>
      -(moved(i, 1, j, 1) - moved(i, 1, j, -1) - moved(i, -1, j, 1) + moved(i, -1, j, -1)) / (4 * step ** 2);
    const [[a, b, c], [, d, e], [, , f]] = [0, 1, 2].map((i) => [0, 1, 2].map((j) => curvature(i, j)));
    const minor = d * f - e * e;
    const determinant = a * minor - b * (b * f - e * c) + c * (b * e - d * c);
    expect(survival.standardError).toBeCloseTo(Math.sqrt(minor / determinant), 4);
  });

  test("every fish seen: survival 1 with the binomial error of 0, and cautions that the errors are so by name only", () => {
    const { survival, detection, cautions } = singleRelease({
      released: 50,
      both: 50,
      firstOnly: 0,
      secondOnly: 0,
    });
    expect(survival).toMatchObject({ estimate: 1, standardError: 0 });
    expect(detection.estimate).toBe(1);
    expect(cautions.join(" ")).toMatch(
      /passed the first detector unseen.*seen at the first detector was seen at the/,
    );
  });

  test("detection 1: survival is the share that arrives, with its binomial error", () => {
    const { survival } = singleRelease({ released: 200, both: 100, firstOnly: 60, secondOnly: 0 });
    expect(survival.estimate).toBeCloseTo(0.8, 12);
    expect(survival.standardError).toBeCloseTo(Math.sqrt((0.8 * 0.2) / 200), 12);
  });

  test("an estimate above 1 is shown, never cut off, and said to be so", () => {
    const { survival, cautions } = singleRelease({ released: 100, both: 60, firstOnly: 20, secondOnly: 20 });
    expect(survival.estimate).toBeCloseTo((80 * 80) / (100 * 60), 12);
    expect(survival.upper).toBeGreaterThan(survival.estimate);
    expect(cautions).toContainEqual(expect.stringMatching(/estimated as 1\.067, above 1: .*shown as it is/));
  });

  test("an estimate below 1 has no such caution; few fish seen twice have one of their own", () => {
    expect(singleRelease({ released: 1000, both: 560, firstOnly: 80, secondOnly: 120 }).cautions).toEqual([]);
    expect(singleRelease({ released: 100, both: 5, firstOnly: 3, secondOnly: 2 }).cautions).toEqual([
      "Only 5 fish of the release were seen at both detectors; the errors are rough.",
    ]);
  });

  test("ten times the fish: the same estimate, an error smaller by the root of ten", () => {
    const one = singleRelease({ released: 100, both: 56, firstOnly: 8, secondOnly: 12 }).survival;
    const ten = singleRelease({ released: 1000, both: 560, firstOnly: 80, secondOnly: 120 }).survival;
    expect(ten.estimate).toBeCloseTo(one.estimate, 12);
    expect(one.standardError / ten.standardError).toBeCloseTo(Math.sqrt(10), 10);
  });

  test.each<[DetectorCounts, string]>([
    [
      { released: 0, both: 0, firstOnly: 0, secondOnly: 0 },
      "released is 0; it must be a whole number of at least 1.",
    ],
    [
      { released: 10, both: 2.5, firstOnly: 0, secondOnly: 0 },
      "both is 2.5; it must be a whole number of at least 0.",
    ],
    [
      { released: 10, both: 8, firstOnly: 2, secondOnly: 1 },
      "11 fish were seen and only 10 released; more can't be seen.",
    ],
    [
      { released: 10, both: 5, firstOnly: 2, secondOnly: 1, neither: 1 },
      "both, firstOnly, secondOnly and neither add up to 9; released is 10.",
    ],
    [
      { released: 10, both: 0, firstOnly: 2, secondOnly: 1 },
      "no fish of the release was seen at both detectors, so the detection is not known.",
    ],
  ])("refuses %j", (one, sentence) => {
    expect(() => singleRelease(one)).toThrow(`statistics.singleRelease: ${sentence}`);
  });
});
