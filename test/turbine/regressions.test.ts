import { turbine, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const francis = {
  head: u.m(12),
  totalLength: u.mm(150),
  inletDiameter: u.m(0.78),
  rotationalSpeed: u.rpm(300),
};
const sinSquared = (degrees: number): number => Math.sin((degrees * Math.PI) / 180) ** 2;

const kaplanSalmonid = (metres: number): number =>
  turbine.mortalityKaplanSalmonid({ totalLength: u.m(metres), bladeSpacing: u.m(1.088) });

describe("regressions", () => {
  it("mortalityFrancisSalmonid reads length and head in metres and speed in rpm", () => {
    const argument = 6.54 + 0.218 * 12 + 118 * 0.15 - 3.88 * 0.78 + 0.0078 * 300;
    expect(turbine.mortalityFrancisSalmonid(francis)).toBeCloseTo(sinSquared(argument), 12);
  });

  it("mortalityFrancisSalmonid never turns round: beyond 90° it stays at 1, below 0° at 0", () => {
    expect(turbine.mortalityFrancisSalmonid({ ...francis, totalLength: u.m(1.2) })).toBe(1);
    expect(turbine.mortalityFrancisSalmonid({ ...francis, inletDiameter: u.m(12) })).toBe(0);
  });

  it("mortalityKaplanSalmonid reads length over blade spacing and stays at 1 beyond 90°", () => {
    expect(kaplanSalmonid(0.15)).toBeCloseTo(sinSquared(13.4 + (42.8 * 0.15) / 1.088), 12);
    expect(kaplanSalmonid(5)).toBe(1);
  });

  it("mortalityKaplanEel reads metres and rpm and stays at 1 for long eel", () => {
    const eel = { runnerDiameter: u.m(1.95), rotationalSpeed: u.rpm(187.5) };
    expect(turbine.mortalityKaplanEel({ ...eel, totalLength: u.m(0.7) })).toBeCloseTo(
      (4.67 * 0.7 ** 1.53 * 1.95 ** -0.48 * 187.5 ** 0.6) / 100,
      12,
    );
    expect(turbine.mortalityKaplanEel({ ...eel, totalLength: u.m(3) })).toBe(1);
  });

  it("every regression shows its tolerance, and the eel's the exponent whose sign was reasoned", () => {
    const tolerance = /about 0\.10 in mortality \(Tomanova et al\. 2023: 73 field tests of salmonids/;
    expect(turbine.mortalityFrancisSalmonid.cautions(francis).join()).toMatch(tolerance);
    expect(
      turbine.mortalityKaplanSalmonid.cautions({ totalLength: u.mm(150), bladeSpacing: u.m(1) }).join(),
    ).toMatch(tolerance);
    const eel = turbine.mortalityKaplanEel.cautions({
      totalLength: u.mm(700),
      runnerDiameter: u.m(2),
      rotationalSpeed: u.rpm(150),
    });
    expect(eel.join()).toMatch(tolerance);
    expect(eel.join()).toMatch(/sign of the last exponent .* reasoned, not read/);
    expect(turbine.regressionTolerance.mortality).toBe(0.1);
    expect(turbine.regressionTolerance.source.provenance).toBe("published");
  });
});
