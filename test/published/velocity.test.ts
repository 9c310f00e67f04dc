import { describe, expect, test } from "vitest";
import { correlatedMean, effectiveSamples, universalThreshold } from "../../kernel-helpers/src/velocity";
import { normals, persistent } from "../velocity/turbulence";

describe("universal threshold", () => {
  // Donoho & Johnstone 1994, Biometrika 81(3): 425–455, table 2, column (2 log n)^½ (from memory).
  test.each([
    [64, 2.884],
    [128, 3.115],
    [256, 3.33],
    [512, 3.532],
    [1024, 3.723],
    [2048, 3.905],
  ])("of %i samples is %f", (samples, printed) => {
    expect(universalThreshold({ samples })).toBeCloseTo(printed, 3);
  });

  // Goring & Nikora 2002, J. Hydraul. Eng. 128(1), abstract: the expected maximum of a random series is the threshold.
  test("is what the largest of independent normal numbers comes near and seldom passes by much", () => {
    const normal = normals(31);
    const largest = Array.from({ length: 200 }, () =>
      Array.from({ length: 1500 }, normal).reduce((most, value) => Math.max(most, value), 0),
    );
    const mean = largest.reduce((sum, value) => sum + value, 0) / largest.length;
    const threshold = universalThreshold({ samples: 1500 });
    expect(mean).toBeLessThan(threshold);
    expect(mean).toBeGreaterThan(0.8 * threshold);
  });
});

describe("samples that are worth as much as independent ones", () => {
  // Goodman, "Acor, statistical analysis of a time series" (text read): "a run of length 4 million (effective sample size
  // about 200,000) gave an estimate τ = 19.13 when the exact answer was 19"; that its series had r = 0.9 is from memory.
  test("4 million samples of persistence 0.9 are worth 4 million over 19", () => {
    expect(4e6 / effectiveSamples({ samples: 4_000_000, persistence: 0.9 })).toBeCloseTo(19, 10);
  });

  test("and a long record of that persistence gives about 19 samples for one", () => {
    const series = persistent(normals(32), 100_000, 0.9);
    const { samples, effectiveSamples: found } = correlatedMean(series, { step: 1 });
    expect(Math.abs(samples / found / 19 - 1)).toBeLessThan(0.1);
  });

  // Bayley & Hammersley 1946, Suppl. J. R. Stat. Soc. 8 (from memory): 1/n_e = 1/n + 2/n² Σ (n − k) ρ_k, here summed for
  // r = 0.9 and n = 1500; the short form lacks the fading of the sum at the record's end, 2r(1 − r^n)/((1 − r)² n²).
  test("the short form n(1 − r)/(1 + r) is the sum over all pairs to within 1 % at 1500 samples", () => {
    const [n, r] = [1500, 0.9];
    let sum = 1 / n;
    for (let k = 1; k < n; k++) sum += (2 * (n - k) * r ** k) / n ** 2;
    expect(Math.abs(effectiveSamples({ samples: n, persistence: r }) * sum - 1)).toBeLessThan(0.01);
  });
});
