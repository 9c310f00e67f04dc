import { describe, expect, test } from "vitest";
import { correlatedMean, effectiveSamples } from "../../kernel-helpers/src/velocity";
import { normals, persistent } from "./turbulence";

describe("correlatedMean", () => {
  test("of independent samples is the plain standard error", () => {
    const series = Array.from({ length: 5000 }, normals(4));
    const { standardError, standardDeviation } = correlatedMean(series, { step: 1 });
    expect(standardError / (standardDeviation / Math.sqrt(5000))).toBeCloseTo(1, 0);
  });

  test("of a geometric correlation comes near n(1 − r)/(1 + r) independent samples and their time scale", () => {
    const series = persistent(normals(5), 200_000, 0.9);
    const { effectiveSamples: found, integralTime } = correlatedMean(series, { step: 0.04 });
    expect(found / effectiveSamples({ samples: 200_000, persistence: 0.9 })).toBeCloseTo(1, 0);
    // The sum of r^k from 1 on is 9; with half of lag 0 that is 9.5 steps.
    expect(Math.abs(integralTime / (9.5 * 0.04) - 1)).toBeLessThan(0.1);
  });

  test("agrees with the spread of the means of long blocks, a route of its own", () => {
    const [blocks, size] = [200, 1000];
    const series = persistent(normals(6), blocks * size, 0.8);
    const means = Array.from(
      { length: blocks },
      (_, b) => series.slice(b * size, (b + 1) * size).reduce((sum, value) => sum + value, 0) / size,
    );
    const all = means.reduce((sum, mean) => sum + mean, 0) / blocks;
    const ofBlocks = Math.sqrt(
      means.reduce((sum, mean) => sum + (mean - all) ** 2, 0) / (blocks - 1) / blocks,
    );
    expect(Math.abs(correlatedMean(series, { step: 1 }).standardError / ofBlocks - 1)).toBeLessThan(0.15);
  });

  test("leaves missing samples out and grows with what is missing", () => {
    const series = persistent(normals(7), 4000, 0.5);
    const whole = correlatedMean(series, { step: 1 });
    const tenth = correlatedMean(
      series.map((value, at) => (at % 10 === 0 ? value : undefined)),
      { step: 1 },
    );
    expect(tenth.samples).toBe(400);
    expect(tenth.standardError).toBeGreaterThan(1.5 * whole.standardError);
    // Ten steps apart, samples of this persistence are as good as independent.
    expect(Math.abs(tenth.effectiveSamples / 400 - 1)).toBeLessThan(0.25);
  });

  test("of a constant series has no error", () => {
    const { mean, standardError, lower, upper } = correlatedMean(
      Array.from({ length: 100 }, () => 0.5),
      { step: 1 },
    );
    expect([mean, standardError, lower, upper]).toEqual([0.5, 0, 0.5, 0.5]);
  });

  // The mean of some constants misses them by the last digit.
  test.each([0.1, 0.3, 1 / 3, -0.123, 1e-9, 0])("also of %d, whatever rounding leaves", (value) => {
    for (const length of [20, 100, 1500]) {
      const constant = correlatedMean(
        Array.from({ length }, () => value),
        { step: 0.04 },
      );
      expect(constant.mean).toBeCloseTo(value, 12);
      expect(constant).toMatchObject({ standardError: 0, effectiveSamples: length, integralTime: 0.02 });
    }
  });

  test("refuses short series, a step that is none and values that are no numbers", () => {
    expect(() => correlatedMean([1, 2, 3], { step: 1 })).toThrow(/has 3 samples; it must have at least 20/);
    const fine = Array.from({ length: 30 }, (_, at) => at);
    expect(() => correlatedMean(fine, { step: 0 })).toThrow(/step is 0; it must be above 0/);
    expect(() => correlatedMean([...fine, Infinity], { step: 1 })).toThrow(/sample 31 is Infinity/);
    expect(() => correlatedMean(fine, { step: 1, level: 95 })).toThrow(/level is 95/);
  });
});
