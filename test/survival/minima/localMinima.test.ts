import { protection, survival, turbine, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { kaplanUnit } from "../../turbine/units";

const range = { shortest: u.mm(40), longest: u.mm(600) };
const scene = {
  ...range,
  clearSpacing: u.mm(20),
  bodyRatio: 0.1,
  protection: protection.rampLaw({ threshold: 0.25, exponent: 1 }),
  turbineSurvival: (length: number) => 1 - length,
  protectedSurvival: 1,
};

describe("localMinima", () => {
  it("finds the minimum that calculus finds", () => {
    // With w = L/0.2 m, loss = (1 - φ)·L and 1 - φ = (1 - w)/0.75, the loss is highest at w = 1/2: L = 0.1 m.
    const { minima, reason } = survival.localMinima(scene);
    expect(minima).toHaveLength(1);
    expect(minima[0].totalLength).toBeCloseTo(0.1, 6);
    expect(minima[0].relativeWidth).toBeCloseTo(0.5, 6);
    expect(minima[0].totalSurvival).toBeCloseTo(1 - (0.1 * 0.5) / 0.75, 12);
    expect(minima[0].depth).toBeCloseTo((0.1 * 0.5) / 0.75, 12);
    expect(reason).toBeUndefined();
  });

  it("meets the bend at the threshold exactly", () => {
    // With the threshold above 1/2 the loss is L up to the threshold and falls from there: the minimum is the bend.
    const bent = { ...scene, protection: protection.rampLaw({ threshold: 0.6, exponent: 1 }) };
    const { minima } = survival.localMinima(bent);
    expect(minima).toHaveLength(1);
    expect(minima[0].totalLength).toBeCloseTo(0.12, 9);
    expect(minima[0].totalSurvival).toBeCloseTo(0.88, 9);
  });

  it("gives the minimum at a jump as the length just short of it", () => {
    const { minima } = survival.localMinima({ ...scene, protection: protection.barrierLaw() });
    expect(minima).toHaveLength(1);
    expect(minima[0].totalLength).toBeCloseTo(0.2, 9);
    expect(minima[0].totalLength).toBeLessThan(0.2);
    expect(minima[0].totalSurvival).toBeCloseTo(0.8, 9);
  });

  it("gives a flat minimum by its shortest length", () => {
    const dead = {
      ...scene,
      turbineSurvival: (length: number) => Math.max(0, 1 - 20 * length),
      longest: u.mm(600),
    };
    const late = { ...dead, protection: protection.rampLaw({ threshold: 0.7, exponent: 1 }) };
    const { minima } = survival.localMinima(late);
    expect(minima).toHaveLength(1);
    expect(minima[0].totalLength).toBeCloseTo(0.05, 6);
    expect(minima[0].totalSurvival).toBe(0);
  });

  it("finds more than one minimum where there is more than one", () => {
    const wavy = {
      ...scene,
      clearSpacing: u.mm(60),
      turbineSurvival: (length: number) => 0.8 - 0.4 * length + 0.08 * Math.sin(length / 0.02),
    };
    expect(survival.localMinima(wavy).minima.length).toBeGreaterThan(2);
  });

  it("depth counts from the protected survival of that length", () => {
    const { minima } = survival.localMinima({ ...scene, protectedSurvival: (length) => 0.99 - 0.1 * length });
    const [low] = minima;
    expect(low.depth).toBeCloseTo(0.99 - 0.1 * low.totalLength - low.totalSurvival, 12);
  });

  it.each([
    [
      "fully protected",
      { longest: u.mm(500), shortest: u.mm(250) },
      /every length from 250 mm on is fully protected \(the barrier length is 200 mm\)/,
    ],
    ["never protected", { longest: u.mm(45) }, /no length up to 45 mm is protected .* scan longer fish/],
    [
      "turbine survival constant",
      { turbineSurvival: () => 0.8 },
      /turbine survival does not fall with length/,
    ],
    [
      "turbine survival rising",
      { turbineSurvival: (length: number) => 0.5 + length / 2 },
      /turbine survival does not fall/,
    ],
    [
      "protected survival low",
      { protectedSurvival: 0.3 },
      /protected survival does not lie above turbine survival/,
    ],
    [
      "threshold 0",
      {
        protection: protection.rampLaw({ threshold: 0, exponent: 1 }),
        turbineSurvival: (length: number) => 0.7 - length / 4,
      },
      /protection acts on the shortest fish already \(20 % at 40 mm, relative width 0\.2\)/,
    ],
    [
      "range too short",
      { longest: u.mm(80) },
      /total survival still falls at 80 mm; the barrier length is 200 mm: scan longer fish/,
    ],
  ])("says why there is none: %s", (_, change, sentence) => {
    const { minima, reason } = survival.localMinima({ ...scene, ...change });
    expect(minima).toEqual([]);
    expect(reason).toMatch(sentence);
  });

  it("has a minimum with threshold 0 where turbine survival of the smallest fish equals protected survival", () => {
    const { minima } = survival.localMinima({ ...scene, protection: protection.rampLaw({ threshold: 0 }) });
    expect(minima[0].totalLength).toBeCloseTo(0.1, 6);
  });

  it("takes a turbine law of the catalogue", () => {
    const law = turbine.survivalLaw({ model: "kaplanSalmonid", unit: kaplanUnit });
    const { minima } = survival.localMinima({ ...scene, turbineSurvival: law });
    expect(minima).toHaveLength(1);
  });

  it("refuses a range turned round, a step of 0 and a law that gives no share", () => {
    expect(() => survival.localMinima({ ...scene, longest: u.mm(20) })).toThrow(
      "survival.localMinima: longest is 20 mm; it must be at least shortest, 40 mm.",
    );
    expect(() => survival.localMinima({ ...scene, step: u.mm(0) })).toThrow(/step is 0 m/);
    expect(() => survival.localMinima({ ...scene, turbineSurvival: (length) => 1 - 3 * length })).toThrow(
      /survival\.localMinima: turbineSurvival is -0\.\d+ at \d+ mm; it must be a share from 0 to 1/,
    );
  });
});
