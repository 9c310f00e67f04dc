import { describe, expect, test } from "vitest";
import { fish, protection, statistics, survival, turbine, u } from "../../../kernel-helpers/src";
import type { CatchmentPlant } from "../../../kernel-helpers/src/workshop/screening/plantRecord";
import {
  classLengths,
  type Settings,
  usualRanges,
} from "../../../kernel-helpers/src/workshop/screening/settings";
import { strikeSlope } from "../../../kernel-helpers/src/workshop/screening/strikeSlope";
import { hashOf, screenPlant } from "../../../kernel-helpers/src/workshop/screening/sweep";

const kaplan: CatchmentPlant = {
  plant: "K",
  type: "kaplan",
  discharge: u.m3ps(17),
  head: u.m(5.3),
  rotationalSpeed: u.rpm(187.5),
  blades: 4,
  efficiency: 0.9,
  clearSpacing: u.mm(25),
  spillFlowShare: 0.2,
  spillEffectiveness: 1.5,
  spillSurvival: 0.97,
  runnerDiameter: u.m(1.95),
  bestDischarge: u.m3ps(14.5),
  inletDiameter: undefined,
  outletDiameter: undefined,
  inletHeight: undefined,
  swirlFreeRatio: undefined,
};
const francis: CatchmentPlant = {
  ...kaplan,
  type: "francis",
  discharge: u.m3ps(2.4),
  bestDischarge: u.m3ps(2),
  head: u.m(12),
  rotationalSpeed: u.rpm(300),
  blades: 13,
  efficiency: 0.88,
  runnerDiameter: undefined,
  inletDiameter: u.m(0.78),
  outletDiameter: u.m(0.8),
  inletHeight: u.m(0.22),
  swirlFreeRatio: 1.05,
};

const settings: Settings = {
  seed: 3,
  draws: 1,
  classes: 12,
  plantsInPart: 1,
  // Ranges without width: every draw is the same, and known.
  ranges: {
    threshold: [0.25, 0.25],
    exponent: [1.3, 1.3],
    correlation: [0.15, 0.15],
    protectedSurvival: [0.93, 0.93],
    bodyFactor: [1.05, 1.05],
  },
  species: [
    { species: "grayling", bodyRatio: 0.1, medianLength: 0.193, lengthSpread: 0.39 },
    { species: "silver eel", bodyRatio: 0.03, medianLength: 0.669, lengthSpread: 0.14 },
  ],
};

describe("the fused loop", () => {
  test("agrees with the chain of checked formulas, class by class", () => {
    const lengths = classLengths(settings);
    const [, eel] = screenPlant(kaplan, settings, lengths);
    const own = [...lengths.subarray(12)];
    const law = turbine.survivalLaw({
      model: "kaplanStrike",
      unit: { ...kaplan, type: "kaplan", runnerDiameter: u.m(1.95) },
      correlation: 0.15,
    });
    const [chain] = survival.bySizeClass({
      clearSpacings: [u.mm(25)],
      lengths: own.map((length) => u.m(length)),
      bodyRatio: 0.03 * 1.05,
      protection: protection.rampLaw({ threshold: 0.25, exponent: 1.3 }),
      turbineSurvival: law,
      protectedSurvival: 0.93,
    });
    const mean = chain.totalSurvival.reduce((sum, one) => sum + one, 0) / own.length;
    expect(eel.survival).toBeCloseTo(0.3 * 0.97 + 0.7 * mean, 12);
    expect(eel.worstSurvival).toBeCloseTo(Math.min(...chain.totalSurvival), 12);
    expect(own).toContain(eel.worstLength);
    // One draw, so there is no spread.
    expect([eel.lower, eel.upper]).toEqual([eel.survival, eel.survival]);
  });

  test.each([
    ["kaplan", kaplan],
    ["propeller", { ...kaplan, type: "propeller" as const }],
    ["francis", francis],
  ])(
    "knows that the strike probability of a %s runner is a straight line in length and correlation",
    (_, plant) => {
      const slope = strikeSlope(plant);
      for (const [millimetres, correlation] of [
        [60, 0.1],
        [150, 0.17],
        [150, 0.2],
      ]) {
        const strike = turbine.survivalLaw(
          plant.type === "francis"
            ? {
                model: "francisStrike",
                correlation,
                unit: {
                  type: "francis",
                  discharge: plant.discharge,
                  head: plant.head,
                  rotationalSpeed: plant.rotationalSpeed,
                  blades: plant.blades,
                  efficiency: plant.efficiency,
                  bestDischarge: u.m3ps(2),
                  inletDiameter: u.m(0.78),
                  outletDiameter: u.m(0.8),
                  inletHeight: u.m(0.22),
                  swirlFreeRatio: 1.05,
                },
              }
            : {
                model: plant.type === "kaplan" ? "kaplanStrike" : "propellerStrike",
                correlation,
                unit: { ...plant, type: plant.type, runnerDiameter: u.m(1.95) },
              },
        ).strike;
        expect(slope * (millimetres / 1000) * correlation).toBeCloseTo(
          strike?.(u.mm(millimetres)) ?? Number.NaN,
          9,
        );
      }
    },
  );

  test("gives classes of equal numbers, whose median is the species'", () => {
    const lengths = classLengths({ ...settings, classes: 5 });
    expect(lengths[2]).toBeCloseTo(0.193, 12);
    expect(lengths[4]).toBeCloseTo(0.193 * Math.exp(0.39 * statistics.normalQuantile(0.9)), 12);
  });

  test("draws by the plant's name and the seed, wherever the plant stands", () => {
    const wide = { ...settings, draws: 400, ranges: usualRanges };
    const lengths = classLengths(wide);
    const [one] = screenPlant(kaplan, wide, lengths);
    expect(screenPlant({ ...kaplan }, wide, lengths)[0]).toEqual(one);
    expect(screenPlant({ ...kaplan, plant: "L" }, wide, lengths)[0].survival).not.toBe(one.survival);
    expect(screenPlant(kaplan, { ...wide, seed: 4 }, lengths)[0].survival).not.toBe(one.survival);
    expect(one.lower).toBeLessThan(one.survival);
    expect(one.upper).toBeGreaterThan(one.survival);
    // Another 400 draws move the mean by no more than chance does.
    const other = screenPlant({ ...kaplan, plant: "L" }, wide, lengths)[0].survival;
    expect(Math.abs(other - one.survival)).toBeLessThan((one.upper - one.lower) / 8);
  });

  test("the hash is that of its definition", () => {
    expect(hashOf("")).toBe(0x811c9dc5);
    // FNV-1a of "a", 32 bits.
    expect(hashOf("a")).toBe(0xe40c292c);
  });

  test("a fish wider than the gap is protected, a very small one passes", () => {
    const sure = { ...settings, ranges: { ...settings.ranges, protectedSurvival: [1, 1] as const } };
    const narrow = { ...kaplan, clearSpacing: u.mm(1), spillFlowShare: 0 };
    expect(screenPlant(narrow, sure, classLengths(sure)).map((one) => one.survival)).toEqual([1, 1]);
    const open = { ...kaplan, clearSpacing: u.m(10), spillFlowShare: 0 };
    const [, eel] = screenPlant(open, sure, classLengths(sure));
    const mean = [...classLengths(sure).subarray(12)].reduce((sum, one) => sum + one, 0) / 12;
    expect(eel.survival).toBeCloseTo(1 - 0.15 * strikeSlope(open) * mean, 9);
    expect(fish.gapRatio(fish.species("silver eel"))).toBe(0.03);
  });
});
