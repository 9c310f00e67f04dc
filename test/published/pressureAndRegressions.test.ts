import { turbine, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const injury = (acclimation: number, lowest: number): number =>
  turbine.barotrauma({ acclimationPressure: u.kPa(acclimation), lowestPressure: u.kPa(lowest) });

/** Mortality of a fish of some length in metres between blades some metres apart. */
const kaplan = (length: number, spacing: number): number =>
  turbine.mortalityKaplanSalmonid({ totalLength: u.m(length), bladeSpacing: u.m(spacing) });

/** Mortality of a fish of some length in metres at some revolutions per minute. */
const francis = (length: number, turns: number): number =>
  turbine.mortalityFrancisSalmonid({
    head: u.m(12),
    totalLength: u.m(length),
    inletDiameter: u.m(0.78),
    rotationalSpeed: u.rpm(turns),
  });

describe("falling pressure", () => {
  test("acts through the ratio of acclimation to lowest pressure (Brown et al. 2012, Trans. Am. Fish. Soc. 141:147, abstract: its main factor; printed in words)", () => {
    for (const ratio of [1.2, 2, 4.5]) {
      expect(injury(120 * ratio, 120)).toBeCloseTo(injury(200, 200 / ratio), 12);
      expect(injury(100 * ratio, 100)).toBeLessThan(injury(100 * ratio * 1.1, 100));
    }
  });

  test("a ratio of 3.06 kills 21 % of sockeye smolts, within 2 points (Cox et al. 2023, Water 15:1888, table; printed)", () => {
    // Another Pacific salmon than the Chinook that the equation was fitted to: support, not a fit.
    expect(Math.abs(injury(306, 100) - 0.21)).toBeLessThan(0.02);
  });

  test.each([
    ["perch", 3.0, 0.7],
    ["largemouth bass", 1.89, 0.25],
    ["largemouth bass", 2.77, 0.42],
  ])(
    "%s at a ratio of %d die more often than the equation says, as its caution warns (Cox et al. 2023, table; printed)",
    (_, ratio, printed) => {
      expect(printed - injury(100 * ratio, 100)).toBeGreaterThan(0.15);
      const cautions = turbine.barotrauma.cautions({
        acclimationPressure: u.kPa(100 * ratio),
        lowestPressure: u.kPa(100),
      });
      expect(cautions.join(" ")).toMatch(/other species differ/);
    },
  );
});

describe("regressions of young salmonids (Larinier & Dartiguelongue 1989, Bull. Fr. Pêche Piscic. 312-313, abstract; printed in words)", () => {
  test("Kaplan mortality follows the ratio of length to blade spacing", () => {
    expect(kaplan(0.2, 1.4)).toBeCloseTo(kaplan(0.1, 0.7), 12);
    expect(kaplan(0.2, 1.2)).toBeGreaterThan(kaplan(0.2, 1.4));
  });

  test("Francis mortality rises with rotational speed and with the size of the fish", () => {
    expect(francis(0.15, 400)).toBeGreaterThan(francis(0.15, 300));
    expect(francis(0.2, 300)).toBeGreaterThan(francis(0.15, 300));
  });
});
