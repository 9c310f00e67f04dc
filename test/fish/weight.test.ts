import * as fc from "fast-check";
import { fish, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";

describe("fish weight", () => {
  it("weight takes the coefficients of grams and centimetres and returns kilograms", () => {
    // 0.02 · 30³ g = 540 g
    expect(fish.weight({ totalLength: u.cm(30), coefficient: 0.02, exponent: 3 })).toBeCloseTo(0.54, 12);
  });

  it("weight and conditionFactor belong together: with exponent 3 the condition factor is 100 times the coefficient", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 150, noNaN: true }),
        fc.double({ min: 0.0005, max: 0.05, noNaN: true }),
        (long, coefficient) => {
          const totalLength = u.cm(long);
          const weight = fish.weight({ totalLength, coefficient, exponent: 3 });
          expect(fish.conditionFactor({ weight, totalLength }) / (100 * coefficient)).toBeCloseTo(1, 10);
        },
      ),
    );
  });

  it("weight cautions where the exponent is not between 2.5 and 3.5", () => {
    const inputs = { totalLength: u.cm(20), coefficient: 0.01 };
    expect(fish.weight.cautions({ ...inputs, exponent: 3.1 })).toEqual([]);
    expect(fish.weight.cautions({ ...inputs, exponent: 3.79 })).toEqual([
      "fish.weight: the exponent is 3.79; expected is above 2.5 and below 3.5 (Froese 2006, J. Appl. Ichthyol. 22:241).",
    ]);
  });
});
