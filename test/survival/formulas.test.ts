import * as fc from "fast-check";
import { survival } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const share = fc.double({ min: 0, max: 1, noNaN: true });

describe("survival formulas", () => {
  it("total lies between turbine survival and protected survival", () => {
    fc.assert(
      fc.property(share, share, share, (protection, turbineSurvival, protectedSurvival) => {
        const total = survival.total({ protection, turbineSurvival, protectedSurvival });
        expect(total).toBeGreaterThanOrEqual(Math.min(turbineSurvival, protectedSurvival) - 1e-15);
        expect(total).toBeLessThanOrEqual(Math.max(turbineSurvival, protectedSurvival) + 1e-15);
      }),
    );
  });

  it("total needs a protected survival: there is no silent 1", () => {
    const inputs = { protection: 0.5, turbineSurvival: 0.8 } as Parameters<typeof survival.total>[0]; // as in plain JavaScript
    expect(() => survival.total(inputs)).toThrow(/survival\.total: protectedSurvival is missing/);
  });

  it("total says that protected survival is an assumption", () => {
    const cautions = survival.total.cautions({ protection: 0.5, turbineSurvival: 0.8, protectedSurvival: 1 });
    expect(cautions.join()).toMatch(/protected fish include those that refused/);
  });

  it("routes weighs each survival with its share and stays a probability", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.integer({ min: 1, max: 100 }), share), { minLength: 1 }), (taken) => {
        const fish = taken.reduce((sum, [count]) => sum + count, 0);
        const shares = taken.map(([count]) => count / fish);
        const survivals = taken.map(([, one]) => one);
        const total = survival.routes({ shares, survivals });
        expect(total).toBeGreaterThanOrEqual(Math.min(...survivals) - 1e-12);
        expect(total).toBeLessThanOrEqual(Math.max(...survivals) + 1e-12);
        expect(total).toBeLessThanOrEqual(1);
      }),
    );
  });

  it("routes refuses shares that do not sum to 1 within a millionth, and lists of different length", () => {
    expect(survival.routes({ shares: [0.5, 0.5000009], survivals: [1, 1] })).toBe(1);
    expect(() => survival.routes({ shares: [0.5, 0.500002], survivals: [1, 1] })).toThrow(
      "survival.routes: the shares sum to 1.000002; they must sum to 1 within 0.000001.",
    );
    expect(() => survival.routes({ shares: [1], survivals: [1, 1] })).toThrow(
      "survival.routes: there are 1 shares and 2 survivals; give one of each for every route.",
    );
  });

  it("chain multiplies, and refuses an estimate above 1", () => {
    expect(survival.chain({ survivals: [0.9, 0.8, 0.5] })).toBeCloseTo(0.36, 12);
    expect(() => survival.chain({ survivals: [0.9, 1.02] })).toThrow(
      /survival\.chain: survivals\[1\] is 1\.02/,
    );
  });

  it("spillShare is cut off at 1", () => {
    expect(survival.spillShare({ spillFlowShare: 0.8, effectiveness: 2 })).toBe(1);
    expect(survival.spillShare({ spillFlowShare: 0.1, effectiveness: 2 })).toBeCloseTo(0.2, 12);
  });

  it("spillEffectiveness undoes spillShare below the cut", () => {
    const flow = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(flow, share, (spillFlowShare, spillFishShare) => {
        const effectiveness = survival.spillEffectiveness({ spillFishShare, spillFlowShare });
        expect(survival.spillShare({ spillFlowShare, effectiveness })).toBeCloseTo(spillFishShare, 10);
      }),
    );
  });

  it("controlCorrected may exceed 1 and then says so", () => {
    const better = { treatedAlive: 99, treated: 100, controlAlive: 95, control: 100 };
    expect(survival.controlCorrected(better)).toBeCloseTo(0.99 / 0.95, 12);
    expect(survival.controlCorrected.cautions(better)).toEqual([
      "survival.controlCorrected: the estimate is 1.042, above 1 by chance; it is no probability, and enters a chain only by your explicit choice.",
    ]);
    expect(survival.controlCorrected.cautions({ ...better, treatedAlive: 80 })).toEqual([]);
  });

  it("controlCorrected of two equal groups is exactly 1, without a caution", () => {
    const equal = { treatedAlive: 3, treated: 10, controlAlive: 3, control: 10 };
    expect(survival.controlCorrected(equal)).toBe(1);
    expect(survival.controlCorrected.cautions(equal)).toEqual([]);
  });

  it("controlCorrected refuses more living fish than there were, and a control group without survivors", () => {
    const group = { treatedAlive: 10, treated: 20, controlAlive: 10, control: 20 };
    expect(() => survival.controlCorrected({ ...group, treatedAlive: 21 })).toThrow(
      "survival.controlCorrected: treatedAlive is 21; it must be at most treated, 20.",
    );
    expect(() => survival.controlCorrected({ ...group, controlAlive: 21 })).toThrow(
      "survival.controlCorrected: controlAlive is 21; it must be at most control, 20.",
    );
    expect(() => survival.controlCorrected({ ...group, controlAlive: 0 })).toThrow(/controlAlive is 0/);
  });

  it("delayedShare refuses a total survival of 1, where there are no deaths to share", () => {
    expect(() => survival.delayedShare({ totalSurvival: 1, directSurvival: 1 })).toThrow(
      /totalSurvival is 1; it must be at least 0 and below 1/,
    );
  });

  it("delayedShare cautions where direct survival lies below total survival", () => {
    const odd = { totalSurvival: 0.9, directSurvival: 0.85 };
    expect(survival.delayedShare(odd)).toBeLessThan(0);
    expect(survival.delayedShare.cautions(odd).join()).toMatch(/the two estimates disagree/);
  });
});

describe("readings", () => {
  it("readings of protected fish: all survive, only guided ones, each with their own fate", () => {
    const read = survival.readings({ refusedShare: 0.25, guidedSurvival: 0.96, refusedSurvival: 0.6 });
    expect(read.map((one) => one.reading)).toEqual([
      "allProtectedSurvive",
      "onlyGuidedSurvive",
      "refusalsHaveTheirOwnFate",
    ]);
    expect(read[0].protectedSurvival).toBe(1);
    expect(read[1].protectedSurvival).toBeCloseTo(0.72, 12);
    expect(read[2].protectedSurvival).toBeCloseTo(0.87, 12);
  });

  it("the reading with its own fate lies between the other two", () => {
    fc.assert(
      fc.property(share, share, share, (refusedShare, guidedSurvival, refusedSurvival) => {
        const [all, guided, own] = survival.readings({ refusedShare, guidedSurvival, refusedSurvival });
        expect(own.protectedSurvival).toBeLessThanOrEqual(all.protectedSurvival);
        expect(own.protectedSurvival).toBeGreaterThanOrEqual(guided.protectedSurvival - 1e-15);
      }),
    );
  });

  it("readings refuses a share outside 0..1", () => {
    expect(() =>
      survival.readings({ refusedShare: 1.2, guidedSurvival: 0.96, refusedSurvival: 0.6 }),
    ).toThrow(/refusedShare is 1\.2/);
  });
});
