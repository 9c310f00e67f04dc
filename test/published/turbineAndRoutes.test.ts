import * as fc from "fast-check";
import { survival, turbine, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { axialPassage, francisUnit, halvernRunner as runner } from "../turbine/units";

const injury = (ratio: number): number =>
  turbine.barotrauma({ acclimationPressure: u.kPa(100 * ratio), lowestPressure: u.kPa(100) });

describe("barotrauma (Cox et al. 2023, Water 15:1888, table; printed)", () => {
  it("pressure ratio 2.12 stays below 10 %", () => {
    expect(injury(2.12)).toBeLessThan(0.1);
  });

  it("pressure ratio 4.5 gives 55 %, within 2 points", () => {
    expect(Math.abs(injury(4.5) - 0.55)).toBeLessThan(0.02);
  });
});

describe("delayed share (Ferguson et al. 2006, Trans. Am. Fish. Soc. 135; printed)", () => {
  it.each([
    [0.871, 0.93, 0.46],
    [0.814, 0.946, 0.7],
  ])(
    "total survival %s and direct survival %s give %s, within 1.5 points",
    (totalSurvival, directSurvival, printed) => {
      const share = survival.delayedShare({ totalSurvival, directSurvival });
      expect(Math.abs(share - printed)).toBeLessThan(0.015);
    },
  );
});

describe("spill effectiveness (Wilson, Giorgi & Stuehrenberg 1991, Can. J. Fish. Aquat. Sci. 48:1872; shares printed)", () => {
  it.each([
    [0.2, 0.41, 2.05],
    [0.4, 0.61, 1.525],
  ])(
    "%s of the flow carries %s of the fish: effectiveness %s",
    (spillFlowShare, spillFishShare, effectiveness) => {
      expect(survival.spillEffectiveness({ spillFishShare, spillFlowShare })).toBeCloseTo(effectiveness, 12);
      expect(survival.spillShare({ spillFlowShare, effectiveness })).toBeCloseTo(spillFishShare, 12);
    },
  );
});

describe("chain of plants (Swedish eel management plan, default mortality; recomputed)", () => {
  it.each([
    [1, 0.3],
    [2, 0.09],
    [3, 0.027],
    [4, 0.0081],
  ])("70 %% mortality at each of %i plants leaves %s", (plants, left) => {
    expect(survival.chain({ survivals: Array<number>(plants).fill(1 - 0.7) })).toBeCloseTo(left, 12);
  });
});

describe("size classes (Long-term study of the ecology of wild Atlantic salmon smolts in a small Norwegian river, J. Fish Biol., authors not read; totals and shares printed, weights recomputed)", () => {
  // Smolt of age 1, 2 and 3: fish and grams per 100 m².
  const densities = [1.5, 9.3, 0.9];
  const biomasses = [35, 355, 47];
  const meanWeights = biomasses.map((biomass, age) => biomass / densities[age]);
  const population = survival.weighted({
    classes: densities.map((count, age) => ({
      count,
      mass: u.g(meanWeights[age]),
      survival: [0.9, 0.8, 0.7][age],
    })),
  });

  it("mean weights are 23.3, 38.2 and 52.2 g", () => {
    expect(meanWeights.map((grams) => grams.toFixed(1))).toEqual(["23.3", "38.2", "52.2"]);
  });

  it("the total is 437 g per 100 m², in shares of 8, 81 and 11 %", () => {
    expect(u.to.g(population.biomass ?? u.g(0))).toBeCloseTo(437, 9);
    expect(population.biomassShares?.map((share) => Math.round(100 * share))).toEqual([8, 81, 11]);
  });

  it("biomass gives the heavy class more weight than numbers do", () => {
    expect(population.byNumbers).toBeCloseTo((1.5 * 0.9 + 9.3 * 0.8 + 0.9 * 0.7) / 11.7, 12);
    expect(population.byBiomass).toBeCloseTo((35 * 0.9 + 355 * 0.8 + 47 * 0.7) / 437, 12);
  });
});

const strike = (length: number, change: Partial<typeof runner> = {}): number =>
  turbine.strikeProbability({
    totalLength: u.m(length),
    waterLength: turbine.waterLength({ ...runner, ...change }),
  });
// Small fish and moderate factors keep the probability below the cap.
const factor = fc.double({ min: 0.3, max: 3, noNaN: true });

describe("strike kernel (derived; exact)", () => {
  it("is linear in fish length, blades and rotational speed, and inverse in discharge", () => {
    fc.assert(
      fc.property(factor, (times) => {
        const once = strike(0.1);
        expect(strike(0.1 * times) / once).toBeCloseTo(times, 10);
        expect(strike(0.1, { rotationalSpeed: u.rpm(187.5 * times) }) / once).toBeCloseTo(times, 10);
        expect(strike(0.1, { discharge: u.m3ps(17 * times) }) / once).toBeCloseTo(1 / times, 10);
      }),
    );
    expect(strike(0.1, { blades: 6 }) / strike(0.1)).toBeCloseTo(1.5, 12);
  });

  it("is capped at 1", () => {
    expect(strike(5)).toBe(1);
  });

  it("a propeller at its best discharge strikes like a Kaplan", () => {
    const discharges = fc.double({ min: 5, max: 30, noNaN: true });
    fc.assert(
      fc.property(discharges, (flow) => {
        const inputs = { ...axialPassage, discharge: u.m3ps(flow) };
        expect(turbine.strikePropeller({ ...inputs, bestDischarge: u.m3ps(flow) })).toBe(
          turbine.strikeKaplan(inputs),
        );
      }),
    );
  });

  it("the full Kaplan form is not inverse in discharge: the triangle turns with it", () => {
    const half = turbine.strikeKaplan({ ...axialPassage, discharge: u.m3ps(8.5) });
    expect(half / turbine.strikeKaplan(axialPassage)).not.toBeCloseTo(2, 2);
  });

  it("the last two Francis terms cancel at χ times the best discharge: the outlet no longer matters", () => {
    const { type: _, ...unit } = francisUnit;
    const inputs = { ...unit, totalLength: u.mm(150), correlation: 0.15 };
    const swirlFree = u.m3ps(unit.swirlFreeRatio * unit.bestDischarge);
    const outlets = [0.5, 0.8, 1.1].map((metres) => u.m(metres));
    const strikes = outlets.map((outletDiameter) =>
      turbine.strikeFrancis({ ...inputs, discharge: swirlFree, outletDiameter }),
    );
    strikes.forEach((probability) => expect(probability).toBeCloseTo(strikes[0], 12));
    const offBest = outlets.map((outletDiameter) => turbine.strikeFrancis({ ...inputs, outletDiameter }));
    expect(Math.abs(offBest[0] - offBest[2])).toBeGreaterThan(0.01);
  });
});

describe("tolerance of regressions (Tomanova et al. 2023, Knowl. Manag. Aquat. Ecosyst. 424:6, abstract; printed)", () => {
  it("is the root mean square error of 0.10 to 0.11 over 73 tests, rounded", () => {
    expect(turbine.regressionTolerance.mortality).toBeGreaterThanOrEqual(0.1);
    expect(turbine.regressionTolerance.mortality).toBeLessThanOrEqual(0.11);
    expect(turbine.regressionTolerance.source.text).toMatch(/0\.10 to 0\.11 over 73/);
  });
});
