import { statistics, u, uncertainty } from "kernel-helpers";
import { describe, expect, test } from "vitest";
import { quantilesOf } from "../../kernel-helpers/src/uncertainty/quantiles";

const { band, monteCarlo, normal, uniform } = uncertainty;
const inputs = {
  a: normal({ mean: 3, standardDeviation: 0.3 }),
  b: normal({ mean: 4, standardDeviation: 0.4 }),
};
const sum = ({ a, b }: { readonly a: number; readonly b: number }): number => a + b;

const errorOf = (sequence: "sobol" | "random") =>
  monteCarlo({ inputs, output: sum, seed: 7, sequence }).mean.standardError;

const valuesOf = (seed: number) => monteCarlo({ inputs, output: sum, seed, draws: 800 }).values;

const noNumber = ({ a }: { readonly a: number }) => (a > 0.99 ? Number.NaN : a);

const changed = (change: object) => () => monteCarlo({ inputs, output: sum, seed: 1, ...change });

const alongPlaces = ({ a, b }: { readonly a: number; readonly b: number }, place: number) => a + place * b;

describe("statistics.lowDiscrepancy", () => {
  test("every stretch of length 1/64 holds one of 64 points, in each dimension and under any shift", () => {
    for (const seed of [1, 2, 99]) {
      for (const column of statistics.lowDiscrepancy({ dimensions: 12, points: 64, seed }))
        expect(new Set(column.map((one) => Math.floor(64 * one))).size).toBe(64);
    }
  });

  test("no number is exactly 0 or reaches 1, and a seed gives the same points again", () => {
    const points = statistics.lowDiscrepancy({ dimensions: 3, points: 4096, seed: 5 });
    for (const column of points) {
      expect(Math.min(...column)).toBeGreaterThan(0);
      expect(Math.max(...column)).toBeLessThan(1);
    }
    expect(statistics.lowDiscrepancy({ dimensions: 3, points: 4096, seed: 5 })).toEqual(points);
  });

  test("more points than its numbers tell apart are refused", () => {
    expect(() => statistics.lowDiscrepancy({ dimensions: 2, points: 2 ** 20 + 1, seed: 1 })).toThrow(
      "1048576",
    );
    expect(() => statistics.lowDiscrepancy({ dimensions: 161, points: 8, seed: 1 })).toThrow(
      "dimensions is 161",
    );
  });
});

describe("uncertainty.monteCarlo", () => {
  test("a sum of normals has the root of the squares as its error, whichever way it is drawn", () => {
    for (const sequence of ["sobol", "random"] as const) {
      const { mean, standardDeviation, lower } = monteCarlo({ inputs, output: sum, seed: 7, sequence });
      expect(Math.abs(mean.value - 7)).toBeLessThan(5 * mean.standardError);
      expect(Math.abs(standardDeviation.value - 0.5)).toBeLessThan(5 * standardDeviation.standardError);
      expect(Math.abs(lower.value - (7 - 1.959964 * 0.5))).toBeLessThan(5 * lower.standardError);
    }
  });

  test("the low-discrepancy sequence is much surer than random numbers", () => {
    expect(errorOf("sobol")).toBeLessThan(errorOf("random") / 5);
  });

  test("the stated errors are honest: over 200 seeds the truth lies within Student's interval in 90 to 99 %", () => {
    const reach = statistics.studentQuantile(0.975, { degreesOfFreedom: 7 });
    for (const sequence of ["sobol", "random"] as const) {
      const runs = Array.from({ length: 200 }, (_, seed) =>
        monteCarlo({ inputs, output: sum, seed, sequence, draws: 2048 }),
      );
      const share = (isInside: (one: uncertainty.MonteCarlo) => boolean) =>
        runs.filter(isInside).length / runs.length;
      const ofMean = share(({ mean }) => Math.abs(mean.value - 7) < reach * mean.standardError);
      expect(ofMean).toBeGreaterThan(0.9);
      expect(ofMean).toBeLessThanOrEqual(0.99);
    }
  });

  test("the error falls as draws double: the convergence shows it", () => {
    const { convergence } = monteCarlo({ inputs, output: sum, seed: 3 });
    expect(convergence.map(({ draws }) => draws)).toEqual([256, 512, 1024, 2048, 4096, 8192, 16384]);
    expect(convergence.at(-1)?.meanError).toBeLessThan((convergence[0]?.meanError ?? 0) / 8);
  });

  test("the same seed gives the same values; neighbouring seeds share none", () => {
    expect(valuesOf(1)).toEqual(valuesOf(1));
    const other = new Set(valuesOf(2));
    expect([...valuesOf(1)].filter((one) => other.has(one))).toEqual([]);
  });

  test("quantities keep their dimension, numbers that are known stay as they are", () => {
    const result = monteCarlo({
      inputs: { clearSpacing: uniform({ from: u.mm(17), to: u.mm(19) }), bodyRatio: 0.1, length: u.mm(100) },
      output: ({ clearSpacing, bodyRatio, length }) => u.to.mm(clearSpacing) * bodyRatio + u.to.mm(length),
      seed: 1,
    });
    expect(result.mean.value).toBeCloseTo(101.8, 4);
  });

  test("a draw that the output refuses is named with its values", () => {
    expect(() =>
      monteCarlo({ inputs: { a: uniform({ from: 0, to: 1 }) }, output: noNumber, seed: 1 }),
    ).toThrow(/uncertainty\.monteCarlo: the output is NaN at a = 0\.99\d+; it must be a number\./);
  });

  test("what is cut off an input is reported", () => {
    const cut = normal({ mean: 0.95, standardDeviation: 0.03 }, { atMost: 1, truncated: true });
    const { cautions } = monteCarlo({ inputs: { cut }, output: ({ cut: one }) => one, seed: 1 });
    expect(cautions).toEqual([
      "cut: 4.8 % of the distribution was cut off (normal, 0.95 ± 0.03, cut to at most 1).",
    ]);
  });

  test("wrong draws, seeds and inputs are refused with the remedy", () => {
    expect(changed({ draws: 1001 })).toThrow("draws is 1001; it must be a multiple of 8");
    expect(changed({ draws: 80 })).toThrow("draws is 80");
    expect(changed({ seed: 1.5 })).toThrow("seed is 1.5");
    expect(changed({ level: 95 })).toThrow("level is 95");
    expect(changed({ inputs: { a: 3, b: 4 } })).toThrow("none of the inputs is uncertain");
    expect(changed({ inputs: { a: "3", b: 4 } })).toThrow("inputs.a is no number and no distribution");
    expect(changed({ sequence: "halton" })).toThrow('sequence is "halton"; it must be "sobol" or "random"');
  });
});

describe("uncertainty.band", () => {
  test("gives at each place what monteCarlo gives there alone", () => {
    const curve = band({ inputs, places: [0, 2], output: alongPlaces, seed: 4, draws: 1600 });
    const alone = monteCarlo({ inputs, output: (values) => alongPlaces(values, 2), seed: 4, draws: 1600 });
    expect(curve.lower[1]).toBe(alone.lower.value);
    expect(curve.upper[1]).toBe(alone.upper.value);
    expect(curve.mean[1]).toBe(alone.mean.value);
  });
});

describe("quantiles by counting", () => {
  test("are those of sorted numbers to the last digit, also where many are equal", () => {
    const uniforms = statistics.randomNumbers({ dimensions: 4, points: 2000, seed: 8 });
    const kinds = [
      (x: number) => x,
      (x: number) => Math.floor(3 * x),
      () => 0.98,
      (x: number) => Math.exp(30 * x),
      (x: number) => (x < 0.9 ? 1 : x),
    ];
    for (const kind of kinds) {
      const values = uniforms[0].map(kind);
      const sorted = values.toSorted();
      for (const share of [0, 0.025, 0.5, 0.731, 0.975, 1]) {
        const rank = share * (sorted.length - 1);
        const below = Math.floor(rank);
        const low = sorted[below];
        const expected = low + (rank - below) * (sorted[Math.min(sorted.length - 1, below + 1)] - low);
        expect(quantilesOf(values, [share])[0]).toBe(expected);
      }
    }
  });
});
