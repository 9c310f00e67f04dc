import * as fc from "fast-check";
import { type Length, protection, survival, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { between, bodyRatio, fallingTurbine, rampNumbers, share, spacing } from "./laws";

const longest = u.mm(1200);
const lengths = survival.lengthClasses({ shortest: u.mm(20), longest, step: u.mm(4) });

/** Gaps that all barrier lengths of these body ratios fit into the scanned lengths. */
const gaps = fc
  .tuple(spacing, spacing, bodyRatio)
  .filter(([one, other, ratio]) => Math.max(one, other) / ratio < 1100 && Math.abs(one - other) > 0.5);

type Falling = ((length: Length) => number) & { readonly best: number };

/** The deepest minimum at either spacing, protected survival constant and above every turbine survival. */
function deepestOfBoth(
  law: Falling,
  numbers: { readonly threshold: number; readonly exponent: number },
  [one, other, ratio]: readonly [number, number, number],
  lift: number,
) {
  const [narrow, wide] = [Math.min(one, other), Math.max(one, other)].map((gap) =>
    survival
      .localMinima({
        clearSpacing: u.mm(gap),
        shortest: u.mm(1),
        longest,
        step: u.mm(1),
        bodyRatio: ratio,
        protection: protection.rampLaw(numbers),
        turbineSurvival: law,
        protectedSurvival: law.best + lift * (1 - law.best),
      })
      .minima.toSorted((first, second) => second.depth - first.depth)
      .at(0),
  );
  // The scan starts at 1 mm; where the minimum lies below, the run says nothing.
  fc.pre(narrow !== undefined && wide !== undefined);
  return { narrow, wide };
}

describe("a smaller clear spacing", () => {
  it("lowers no class where protected survival lies above turbine survival", () => {
    fc.assert(
      fc.property(fallingTurbine, rampNumbers, gaps, share, (law, numbers, [one, other, ratio], lift) => {
        const [narrow, wide] = survival.bySizeClass({
          clearSpacings: [u.mm(Math.min(one, other)), u.mm(Math.max(one, other))],
          lengths,
          bodyRatio: ratio,
          protection: protection.rampLaw(numbers),
          turbineSurvival: law,
          // Never below turbine survival, and itself a function of length.
          protectedSurvival: (length) => law(length) + lift * (1 - law(length)),
        });
        narrow.totalSurvival.forEach((survived, at) => {
          expect(survived).toBeGreaterThanOrEqual(wide.totalSurvival[at] - 1e-12);
        });
      }),
    );
  });

  it("deepens no minimum", () => {
    fc.assert(
      fc.property(fallingTurbine, rampNumbers, gaps, between(0.02, 1), (law, numbers, pair, lift) => {
        const { narrow, wide } = deepestOfBoth(law, numbers, pair, lift);
        expect(narrow.depth).toBeLessThanOrEqual(wide.depth + 1e-9);
      }),
      { numRuns: 150 },
    );
  });

  it("moves the minimum to smaller fish or leaves it where the exponent is 1 or more", () => {
    const steep = rampNumbers.map((numbers) => ({ ...numbers, exponent: 1 + numbers.exponent }));
    fc.assert(
      fc.property(fallingTurbine, steep, gaps, between(0.02, 1), (law, numbers, pair, lift) => {
        const { narrow, wide } = deepestOfBoth(law, numbers, pair, lift);
        expect(narrow.totalLength).toBeLessThanOrEqual(wide.totalLength + 1e-5);
      }),
      { numRuns: 150 },
    );
  });

  it("does the opposite where protected survival lies below turbine survival", () => {
    const [narrow, wide] = survival.bySizeClass({
      clearSpacings: [u.mm(12), u.mm(40)],
      lengths: [u.mm(150)],
      bodyRatio: 0.1,
      protection: protection.rampLaw({ threshold: 0.2, exponent: 1 }),
      turbineSurvival: () => 0.95,
      protectedSurvival: 0.6,
    });
    expect(narrow.totalSurvival[0]).toBeCloseTo(0.6, 12);
    expect(wide.totalSurvival[0]).toBeGreaterThan(0.86);
  });
});
