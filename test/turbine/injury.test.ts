import * as fc from "fast-check";
import { turbine, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";

describe("injury and pressure", () => {
  it("injuryShareVonRaben takes nothing and returns 0.43", () => {
    expect(turbine.injuryShareVonRaben({})).toBe(0.43);
  });

  it("injuryShareByLength reads centimetres and is cut off at 0 and 1", () => {
    expect(turbine.injuryShareByLength({ totalLength: u.cm(30) })).toBeCloseTo(
      0.1533 * Math.log(30) + 0.0125,
      12,
    );
    expect(turbine.injuryShareByLength({ totalLength: u.cm(0.5) })).toBe(0);
    expect(turbine.injuryShareByLength({ totalLength: u.m(8) })).toBe(1);
  });

  it("barotrauma rises with the pressure ratio alone and stays a probability", () => {
    const pressures = fc.double({ min: 5, max: 500, noNaN: true });
    fc.assert(
      fc.property(pressures, pressures, (before, lowest) => {
        const injury = (factor: number) =>
          turbine.barotrauma({
            acclimationPressure: u.kPa(factor * before),
            lowestPressure: u.kPa(factor * lowest),
          });
        expect(injury(1)).toBeGreaterThan(0);
        expect(injury(1)).toBeLessThan(1);
        expect(injury(2)).toBeCloseTo(injury(1), 10);
        const lower = turbine.barotrauma({
          acclimationPressure: u.kPa(before),
          lowestPressure: u.kPa(lowest / 2),
        });
        expect(lower).toBeGreaterThan(injury(1));
      }),
    );
  });

  it("barotrauma always says that it does not hold for eel", () => {
    const cautions = turbine.barotrauma.cautions({
      acclimationPressure: u.kPa(120),
      lowestPressure: u.kPa(70),
    });
    expect(cautions).toEqual([
      "turbine.barotrauma: found for juvenile Chinook salmon; it does not hold for eel, and other species differ.",
    ]);
  });

  it("barotrauma cautions where the lowest pressure is no decompression", () => {
    const cautions = turbine.barotrauma.cautions({
      acclimationPressure: u.kPa(70),
      lowestPressure: u.kPa(120),
    });
    expect(cautions.join()).toMatch(/nothing is decompressed/);
  });

  it("survival multiplies the two ways to live and stays in 0..1", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, share, (strikeProbability, injuryShare, pressureMortality) => {
        const survival = turbine.survival({ strikeProbability, injuryShare, pressureMortality });
        expect(survival).toBeGreaterThanOrEqual(0);
        expect(survival).toBeLessThanOrEqual(1);
        expect(survival).toBeCloseTo((1 - strikeProbability * injuryShare) * (1 - pressureMortality), 12);
      }),
    );
    expect(turbine.survival({ strikeProbability: 0.5, injuryShare: 0.4 })).toBeCloseTo(0.8, 12);
  });
});
