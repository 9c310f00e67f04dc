import { describe, expect, test } from "vitest";
import type { DetectorCounts } from "../../kernel-helpers/src/statistics/markRecapture";
import { type DetectionModel, pairedRelease } from "../../kernel-helpers/src/statistics/pairedRelease";

const treatment = { released: 1000, both: 504, firstOnly: 72, secondOnly: 108 };
const control = { released: 800, both: 448, firstOnly: 64, secondOnly: 96 };

/** The same counts from twice the fish: half of them died on the way that both releases share. */
const halved = (counts: DetectorCounts): DetectorCounts => ({ ...counts, released: 2 * counts.released });

/** A draw of the histories of a release, from a seeded generator. */
const drawn = (random: () => number, released: number, survival: number): DetectorCounts => {
  const [detection, onward] = [0.7, 0.6];
  const found = { released, both: 0, firstOnly: 0, secondOnly: 0 };
  for (let fish = 0; fish < released; fish++) {
    if (random() >= survival) continue;
    const [first, second] = [random() < detection, random() < onward];
    if (first && second) found.both++;
    else if (first) found.firstOnly++;
    else if (second) found.secondOnly++;
  }
  return found;
};

describe("pairedRelease", () => {
  test("gives the ratio of the two survivals; errors of the logarithms add by squares", () => {
    const found = pairedRelease({ treatment, control });
    const [above, below] = [found.treatment.survival, found.control.survival];
    expect(found.survival.estimate).toBeCloseTo(above.estimate / below.estimate, 12);
    expect(found.survival.estimate).toBeCloseTo(0.9, 12);
    const squares = (above.standardError / above.estimate) ** 2 + (below.standardError / below.estimate) ** 2;
    expect(found.survival.standardError / found.survival.estimate).toBeCloseTo(Math.sqrt(squares), 12);
  });

  test("a common detection: ratio of the shares seen at least once, by hand, with a smaller error", () => {
    const { survival } = pairedRelease({ treatment, control }, { detection: "common" });
    expect(survival.estimate).toBeCloseTo(684 / 1000 / (608 / 800), 12);
    const variance = 1 / 684 - 1 / 1000 + 1 / 608 - 1 / 800;
    expect(survival.standardError).toBeCloseTo(survival.estimate * Math.sqrt(variance), 12);
    expect(survival.standardError).toBeLessThan(pairedRelease({ treatment, control }).survival.standardError);
  });

  test("what both releases suffer alike cancels", () => {
    const found = pairedRelease({ treatment: halved(treatment), control: halved(control) });
    expect(found.survival.estimate).toBeCloseTo(pairedRelease({ treatment, control }).survival.estimate, 12);
  });

  test("an estimate above 1 is shown with its interval, never cut off, and said to be so", () => {
    for (const detection of ["separate", "common"] as const) {
      const found = pairedRelease({ treatment: control, control: treatment }, { detection });
      expect(found.survival.estimate).toBeCloseTo(1 / 0.9, 12);
      expect(found.survival.upper).toBeGreaterThan(found.survival.estimate);
      expect(found.cautions).toContainEqual(
        expect.stringMatching(/^The survival of the passage is estimated as 1\.111, above 1/),
      );
    }
    expect(pairedRelease({ treatment, control }).cautions).toEqual([]);
  });

  test("equal histories speak for one detection; unequal ones against it, with a caution where it was assumed", () => {
    expect(pairedRelease({ treatment, control }).sameDetection.statistic).toBeCloseTo(0, 12);
    const unequal = { released: 1000, both: 300, firstOnly: 300, secondOnly: 60 };
    const found = pairedRelease({ treatment: unequal, control }, { detection: "common" });
    expect(found.sameDetection).toMatchObject({ degreesOfFreedom: 2 });
    expect(found.sameDetection.pValue).toBeLessThan(1e-6);
    expect(found.cautions).toContainEqual(expect.stringMatching(/a common detection is in doubt/));
    expect(pairedRelease({ treatment: unequal, control }).cautions).toEqual([]);
  });

  test("the test of histories is Pearson's of a table, by hand for two histories", () => {
    const one = { released: 100, both: 30, firstOnly: 10, secondOnly: 0 };
    const other = { released: 100, both: 20, firstOnly: 20, secondOnly: 0 };
    const { sameDetection } = pairedRelease({ treatment: one, control: other });
    // n (ad − bc)² over the product of the margins.
    expect(sameDetection.statistic).toBeCloseTo((80 * (30 * 20 - 10 * 20) ** 2) / (40 * 40 * 50 * 30), 12);
    expect(sameDetection.degreesOfFreedom).toBe(1);
  });

  test.each(["separate", "common"] as const)(
    "%s detection: the 95 % limits hold the truth in 93 to 97 of 100 seeded trials",
    (detection) => {
      let state = 7;
      const random = (): number => {
        state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
        return (state + 0.5) / 2 ** 32;
      };
      const trials = 2000;
      let held = 0;
      for (let trial = 0; trial < trials; trial++) {
        const { survival } = pairedRelease(
          { treatment: drawn(random, 300, 0.9 * 0.85), control: drawn(random, 200, 0.9) },
          { detection },
        );
        if (survival.lower <= 0.85 && 0.85 <= survival.upper) held++;
      }
      expect(held / trials).toBeGreaterThan(0.93);
      expect(held / trials).toBeLessThan(0.97);
    },
  );

  test("refuses a release without a fish seen twice, naming it, and an unknown model of detection", () => {
    const blind = { released: 100, both: 0, firstOnly: 10, secondOnly: 10 };
    expect(() => pairedRelease({ treatment, control: blind })).toThrow(
      "statistics.pairedRelease: no fish of the control was seen at both detectors, so the detection is not known.",
    );
    const detection = JSON.parse('"pooled"') as DetectionModel;
    expect(() => pairedRelease({ treatment, control }, { detection })).toThrow(
      'statistics.pairedRelease: detection is "pooled"; it must be "separate" or "common".',
    );
  });
});
