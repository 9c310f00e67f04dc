import { fish, protection, survival, turbine, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { kaplanUnit } from "../turbine/units";

const roach = fish.species("roach");
const law = turbine.survivalLaw({ model: "kaplanSalmonid", unit: kaplanUnit });
const ramp = protection.rampLaw({ threshold: 0.3, exponent: 1.5 });
const inputs = {
  clearSpacings: [u.mm(12), u.mm(25)],
  lengths: [u.mm(60), u.mm(120), u.mm(240)],
  bodyRatio: fish.gapRatio(roach),
  protection: ramp,
  turbineSurvival: law,
  protectedSurvival: 0.97,
};

describe("bySizeClass", () => {
  it("evaluates each class at its own length, by the public formulas", () => {
    const [, wide] = survival.bySizeClass(inputs);
    inputs.lengths.forEach((totalLength, at) => {
      const relativeWidth = fish.relativeWidth({ totalLength, widthRatio: 0.11, clearSpacing: u.mm(25) });
      const protectedShare = protection.ramp({ relativeWidth, threshold: 0.3, exponent: 1.5 });
      expect(wide.relativeWidth[at]).toBeCloseTo(relativeWidth, 12);
      expect(wide.protection[at]).toBeCloseTo(protectedShare, 12);
      expect(wide.turbineSurvival[at]).toBe(law(totalLength));
      expect(wide.totalSurvival[at]).toBeCloseTo(
        survival.total({
          protection: protectedShare,
          turbineSurvival: law(totalLength),
          protectedSurvival: 0.97,
        }),
        12,
      );
    });
  });

  it("returns one result a spacing, with its barrier length", () => {
    const results = survival.bySizeClass(inputs);
    expect(results.map((one) => one.clearSpacing)).toEqual(inputs.clearSpacings);
    expect(results[0].barrierLength).toBeCloseTo(0.012 / 0.11, 12);
    expect(results[0].totalLength).toEqual(inputs.lengths);
  });

  it("takes protected survival as a law of length", () => {
    const [narrow] = survival.bySizeClass({ ...inputs, protectedSurvival: (length) => 1 - length });
    expect(narrow.protectedSurvival).toEqual(inputs.lengths.map((length) => 1 - length));
    expect(narrow.totalSurvival[2]).toBeCloseTo(0.76, 12);
  });

  it("brings the cautions of its laws along, each once", () => {
    const [result] = survival.bySizeClass(inputs);
    expect(result.cautions.filter((text) => text.startsWith("protection.ramp"))).toHaveLength(1);
    expect(result.cautions.join()).toMatch(/tolerance for a turbine regression/);
    expect(result.cautions.join()).toMatch(/protected survival is an assumption/);
    expect(new Set(result.cautions).size).toBe(result.cautions.length);
  });

  it("fish that do not turn on their side are protected from a shorter length on", () => {
    const perch = fish.species("perch");
    const byHeight = survival.bySizeClass({ ...inputs, bodyRatio: fish.gapRatio(perch) })[1];
    const byWidth = survival.bySizeClass({ ...inputs, bodyRatio: perch.widthRatio })[1];
    expect(byHeight.barrierLength).toBeLessThan(byWidth.barrierLength);
    expect(byHeight.protection[1]).toBe(1);
    expect(byWidth.protection[1]).toBeLessThan(1);
  });

  it("refuses a law that gives no share, naming law, value and length", () => {
    expect(() => survival.bySizeClass({ ...inputs, turbineSurvival: () => 85 })).toThrow(
      "survival.bySizeClass: turbineSurvival is 85 at 60 mm; it must be a share from 0 to 1.",
    );
    expect(() => survival.bySizeClass({ ...inputs, protection: () => Number.NaN })).toThrow(
      "survival.bySizeClass: protection is NaN at 60 mm; it must be a share from 0 to 1.",
    );
    expect(() => survival.bySizeClass({ ...inputs, protectedSurvival: -0.1 })).toThrow(
      "survival.bySizeClass: protectedSurvival is -0.1 at 60 mm; it must be a share from 0 to 1.",
    );
  });

  it("refuses empty lists, lengths and spacings that are not above 0, and a body ratio above 1", () => {
    expect(() => survival.bySizeClass({ ...inputs, lengths: [] })).toThrow(
      /at least one clear spacing and one length/,
    );
    expect(() => survival.bySizeClass({ ...inputs, lengths: [u.mm(-5)] })).toThrow(
      "survival.bySizeClass: lengths[0] is -5 mm; it must be above 0 mm.",
    );
    expect(() => survival.bySizeClass({ ...inputs, clearSpacings: [u.mm(0)] })).toThrow(
      /clearSpacings\[0\] is 0 m/,
    );
    expect(() => survival.bySizeClass({ ...inputs, bodyRatio: 11 })).toThrow(/widthRatio is 11/);
  });
});

describe("lengthClasses", () => {
  it("starts at the shortest, ends at the longest, one step apart", () => {
    const lengths = survival.lengthClasses({ shortest: u.mm(50), longest: u.mm(600), step: u.mm(5) });
    expect(lengths).toHaveLength(111);
    expect(lengths[0]).toBe(0.05);
    expect(u.to.mm(lengths[37])).toBeCloseTo(235, 9);
    expect(lengths.at(-1)).toBe(0.6);
  });

  it("ends at the last whole step before the longest", () => {
    const lengths = survival.lengthClasses({ shortest: u.mm(50), longest: u.mm(63), step: u.mm(5) });
    expect(lengths.map((one) => Math.round(u.to.mm(one)))).toEqual([50, 55, 60]);
  });

  it("refuses a range turned round, a step of 0 and more than 100 000 lengths", () => {
    const range = { shortest: u.mm(50), longest: u.mm(600), step: u.mm(5) };
    expect(() => survival.lengthClasses({ ...range, longest: u.mm(40) })).toThrow(
      "survival.lengthClasses: longest is 40 mm; it must be at least shortest, 50 mm.",
    );
    expect(() => survival.lengthClasses({ ...range, step: u.mm(0) })).toThrow(
      /step is 0 mm; it must be above 0 mm/,
    );
    expect(() => survival.lengthClasses({ ...range, step: u.mm(0.001) })).toThrow(/give a larger step/);
  });
});
