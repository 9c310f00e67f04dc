import * as fc from "fast-check";
import { fish, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";

describe("length and weight (Froese 2006, J. Appl. Ichthyol. 22:241, abstract; printed equation)", () => {
  it("the mean condition factor of a relation is 100 a L^(b - 3)", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 150, noNaN: true }),
        fc.double({ min: 0.0005, max: 0.05, noNaN: true }),
        fc.double({ min: 2.5, max: 3.5, noNaN: true }),
        (centimetres, coefficient, exponent) => {
          const totalLength = u.cm(centimetres);
          const weight = fish.weight({ totalLength, coefficient, exponent });
          const printed = 100 * coefficient * centimetres ** (exponent - 3);
          expect(fish.conditionFactor({ weight, totalLength }) / printed).toBeCloseTo(1, 10);
        },
      ),
    );
  });
});

describe("condition factor (an angling club's page, author not identified; regression check, not counted as published)", () => {
  it("a sea trout of 5.5 kg and 77 cm has 1.205", () => {
    const factor = fish.conditionFactor({ weight: u.kg(5.5), totalLength: u.cm(77) });
    expect(Math.abs(factor - 1.205)).toBeLessThan(0.0005);
  });
});

describe("burst speed", () => {
  const bodyLengths = [0.08, 0.12, 0.16, 0.2, 0.3, 0.4];

  it("is about 10 body lengths per second on average (Videler & Wardle 1991, Rev. Fish Biol. Fish. 1:23, abstract; printed)", () => {
    const relative = bodyLengths.map((length) => fish.burstSpeed({ totalLength: u.m(length) }) / length);
    const mean = relative.reduce((sum, one) => sum + one, 0) / relative.length;
    expect(Math.abs(mean - 10)).toBeLessThan(1);
  });

  it("of a trout of 0.178 m lies within 6.5 to 17.8 body lengths per second (J. Exp. Biol. 119:71, abstract; printed)", () => {
    const totalLength = u.m(0.178);
    const speeds = [
      fish.burstSpeed({ totalLength }),
      fish.burstSpeedAtTemperature({ totalLength, temperature: u.degC(10) }),
      fish.burstSpeedAtTemperature({ totalLength, temperature: u.degC(15) }),
    ];
    for (const speed of speeds) {
      expect(speed / totalLength).toBeGreaterThan(6.5);
      expect(speed / totalLength).toBeLessThan(17.8);
    }
  });
});
