import { protection, survival, turbine, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { francisUnit, kaplanUnit, propellerUnit } from "../turbine/units";

// Common practice, no source: shapes and orderings that everybody in the trade expects, under stated conditions.
const spacings = [12, 18, 25, 40].map(u.mm);
const bodyRatio = 0.1;
const ramp = protection.rampLaw({ threshold: 0.2, exponent: 1 });
const range = { shortest: u.mm(20), longest: u.mm(600) };
const lengths = survival.lengthClasses({ ...range, step: u.mm(2) });

const turbines = {
  Kaplan: turbine.survivalLaw({ model: "kaplanStrike", unit: kaplanUnit, correlation: 0.15 }),
  propeller: turbine.survivalLaw({ model: "propellerStrike", unit: propellerUnit, correlation: 0.2 }),
  Francis: turbine.survivalLaw({ model: "francisSalmonid", unit: francisUnit }),
};

describe.each(Object.entries(turbines))("facts of the trade, %s", (_, turbineSurvival) => {
  const laws = { bodyRatio, protection: ramp, turbineSurvival, protectedSurvival: 1 };
  const minima = spacings.map(
    (clearSpacing) => survival.localMinima({ ...laws, ...range, clearSpacing }).minima,
  );

  it("protection is 0 for very small fish, 1 from the barrier length on, and rises between", () => {
    for (const result of survival.bySizeClass({ ...laws, clearSpacings: spacings, lengths })) {
      result.protection.forEach((share, at) => {
        const width = result.relativeWidth[at];
        expect(share === 0).toBe(width <= 0.2);
        expect(share === 1).toBe(width >= 1);
        expect(at === 0 || share >= result.protection[at - 1]).toBe(true);
      });
    }
  });

  it("turbine survival falls with length", () => {
    const [result] = survival.bySizeClass({ ...laws, clearSpacings: [u.mm(25)], lengths });
    result.turbineSurvival
      .slice(1)
      .forEach((share, at) => expect(share).toBeLessThan(result.turbineSurvival[at]));
  });

  it("total survival has one local minimum over length at every spacing", () => {
    expect(minima.map((found) => found.length)).toEqual([1, 1, 1, 1]);
  });

  it("a smaller spacing makes the minimum shallower and moves it to smaller fish", () => {
    for (let at = 1; at < minima.length; at++) {
      expect(minima[at - 1][0].depth).toBeLessThan(minima[at][0].depth);
      expect(minima[at - 1][0].totalLength).toBeLessThan(minima[at][0].totalLength);
    }
  });
});

describe("facts of the trade, where they do not hold", () => {
  it("without a threshold and with losses at any length there is no minimum, and the reason says so", () => {
    const { minima, reason } = survival.localMinima({
      ...range,
      clearSpacing: u.mm(12),
      bodyRatio,
      protection: protection.rampLaw({ threshold: 0, exponent: 1 }),
      // This regression kills 5 % even of the smallest fish.
      turbineSurvival: turbine.survivalLaw({ model: "kaplanSalmonid", unit: kaplanUnit }),
      protectedSurvival: 1,
    });
    expect(minima).toEqual([]);
    expect(reason).toMatch(/protection acts on the shortest fish already/);
  });

  it("where protected fish fare worse than in the turbine, the smaller spacing is the worse one", () => {
    const [narrow, wide] = survival.bySizeClass({
      clearSpacings: [u.mm(12), u.mm(40)],
      lengths,
      bodyRatio,
      protection: ramp,
      turbineSurvival: turbines.Kaplan,
      protectedSurvival: 0.5,
    });
    narrow.totalSurvival.forEach((share, at) =>
      expect(share).toBeLessThanOrEqual(wide.totalSurvival[at] + 1e-12),
    );
    expect(Math.min(...narrow.totalSurvival)).toBeCloseTo(0.5, 12);
    expect(narrow.totalSurvival[50]).toBeLessThan(wide.totalSurvival[50] - 0.2);
  });
});
