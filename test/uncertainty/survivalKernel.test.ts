import { assert, double, integer, property } from "fast-check";
import { statistics } from "kernel-helpers";
import { describe, expect, test } from "vitest";
import { survivalKernel } from "../../kernel-helpers/src/uncertainty/survivalKernel";
import { type SurvivalColumns, survivalLoop } from "../../kernel-helpers/src/uncertainty/survivalLoop";

/** Draws all over what the inputs may be. */
function columnsOf(seed: number, points: number): SurvivalColumns {
  const [a, b, c, d, e, f] = statistics.randomNumbers({ dimensions: 6, points, seed });
  return {
    clearSpacing: a.map((one) => 0.005 + 0.05 * one),
    bodyRatio: b.map((one) => 0.02 + 0.3 * one),
    threshold: c.map((one) => (one < 0.1 ? 0 : 0.95 * one)),
    exponent: d.map((one) => Math.exp(6 * one - 3)),
    mortalityFactor: e.map((one) => (one < 0.1 ? 0 : 3 * one)),
    protectedSurvival: f.map((one) => (one > 0.9 ? 1 : one)),
  };
}

const apart = (one: Float64Array, other: Float64Array): number =>
  one.reduce((most, value, at) => Math.max(most, Math.abs(value - other[at])), 0);

const twice = (value: number): Float64Array => Float64Array.of(value, value);

describe("the WebAssembly kernel of total survival", () => {
  test("agrees with the plain loop for any draws and lengths, also for odd numbers of draws", () => {
    assert(
      property(
        integer({ min: 1, max: 999 }),
        integer({ min: 1, max: 70 }),
        double({ min: 1e-4, max: 1.2, noNaN: true }),
        double({ min: 0, max: 1, noNaN: true }),
        (seed, points, length, mortality) => {
          const columns = columnsOf(seed, points);
          const row = survivalKernel(columns)?.(length, mortality) ?? new Float64Array();
          expect(row.length).toBe(points);
          expect(apart(row, survivalLoop(columns)(length, mortality))).toBeLessThan(1e-13);
        },
      ),
      { numRuns: 300 },
    );
  });

  test("is exact at the ends of the ramp: turbine survival up to the threshold, protected survival from full width on", () => {
    const rowOf = survivalKernel({
      clearSpacing: twice(0.016),
      bodyRatio: twice(0.125),
      threshold: twice(0.25),
      exponent: twice(0.7),
      mortalityFactor: twice(1),
      protectedSurvival: twice(0.9),
    });
    // Relative width 0.25 at 32 mm and 1 at 128 mm.
    expect(rowOf?.(0.032, 0.25)[0]).toBe(0.75);
    expect(rowOf?.(0.02, 0.25)[0]).toBe(0.75);
    expect(rowOf?.(0.128, 0.25)[1]).toBe(0.9);
    expect(rowOf?.(0.5, 0.25)[1]).toBe(0.9);
    expect(rowOf?.(0.08, 0.25)[0]).toBeCloseTo(0.75 + 0.5 ** 0.7 * 0.15, 14);
  });

  test("a row is filled anew by the next length, and two kernels share nothing", () => {
    const [first, second] = [survivalKernel(columnsOf(1, 10)), survivalKernel(columnsOf(2, 10))];
    const row = first?.(0.1, 0.2);
    const kept = row?.slice();
    second?.(0.1, 0.2);
    expect(row).toEqual(kept);
    expect(first?.(0.3, 0.2)).toBe(row);
  });
});
