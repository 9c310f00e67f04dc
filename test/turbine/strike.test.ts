import * as fc from "fast-check";
import { turbine, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { axialPassage, francisUnit } from "./units";

const { type: _, ...francisRunner } = francisUnit;
const francisPassage = { ...francisRunner, totalLength: u.mm(150), correlation: 0.15 };

const lengths = fc.double({ min: 1, max: 3000, noNaN: true }).map(u.mm);

describe("strikeKaplan", () => {
  it("follows from the velocity triangle, calculated apart in velocities", () => {
    const radius = 0.75 * (1.95 / 2);
    const omega = 2 * Math.PI * 3.125;
    const swirl = (9.81 * 5.3 * 0.9) / (omega * radius);
    const axial = 17 / ((Math.PI / 4) * 1.95 ** 2);
    const inflow = Math.atan2(swirl, axial);
    const q = 17 / (omega * 1.95 ** 3);
    const expected =
      ((0.15 * 4 * 0.2) / 1.95) * (Math.cos(inflow) / (8 * q) + Math.sin(inflow) / (Math.PI * 0.75));
    expect(turbine.strikeKaplan(axialPassage)).toBeCloseTo(expected, 12);
  });

  it("shows the angle of the triangle among its worked steps", () => {
    const steps = turbine.strikeKaplan.lines(axialPassage);
    expect(steps.map((step) => [step.symbol, step.value])).toEqual([
      ["E", "0.03547"],
      ["q", "0.1168"],
      ["a", "29.79^\\circ"],
      ["P", "0.07015"],
    ]);
  });

  it("takes mid-blade where nothing is said about the radius", () => {
    const { radiusRatio: __, ...atMidBlade } = axialPassage;
    expect(turbine.strikeKaplan(atMidBlade)).toBe(turbine.strikeKaplan(axialPassage));
  });

  it("is a probability for any fish, and 1 for one that is long enough", () => {
    fc.assert(
      fc.property(lengths, (totalLength) => {
        const strike = turbine.strikeKaplan({ ...axialPassage, totalLength });
        expect(strike).toBeGreaterThan(0);
        expect(strike).toBeLessThanOrEqual(1);
      }),
    );
    expect(turbine.strikeKaplan({ ...axialPassage, totalLength: u.m(10) })).toBe(1);
  });

  it("cautions where correlation or radius lie outside the tested range", () => {
    expect(turbine.strikeKaplan.cautions({ ...axialPassage, correlation: 0.3 })).toEqual([
      "turbine.strikeKaplan: correlation is 0.3; its source tested 0.1 to 0.2.",
    ]);
    expect(turbine.strikeKaplan.tested({ ...axialPassage, radiusRatio: 0.4 })).toBe(false);
    expect(turbine.strikeKaplan.tested(axialPassage)).toBe(true);
  });
});

describe("strikePropeller", () => {
  it("adds the swirl that a fixed blade leaves off its best discharge", () => {
    const inputs = { ...axialPassage, discharge: u.m3ps(12), bestDischarge: u.m3ps(14.5) };
    const omegaD3 = 2 * Math.PI * 3.125 * 1.95 ** 3;
    const [q, best] = [12 / omegaD3, 14.5 / omegaD3];
    const energy = (9.81 * 5.3) / (2 * Math.PI * 3.125 * 1.95) ** 2;
    const tangent = ((Math.PI / 2) * energy * 0.9) / (q * 0.75) + (Math.PI / 8) * (0.75 / q - 0.75 / best);
    const inflow = Math.atan(tangent);
    const expected =
      ((0.15 * 4 * 0.2) / 1.95) * (Math.cos(inflow) / (8 * q) + Math.sin(inflow) / (Math.PI * 0.75));
    expect(turbine.strikePropeller(inputs)).toBeCloseTo(expected, 12);
  });

  it("refuses reversed swirl and says so", () => {
    expect(() =>
      turbine.strikePropeller({ ...axialPassage, discharge: u.m3ps(30), bestDischarge: u.m3ps(12) }),
    ).toThrow(/turbine\.strikePropeller: the swirl is reversed: at this discharge the inflow angle is -\d/);
  });
});

describe("strikeFrancis", () => {
  it("takes the angle beyond 90° where its cotangent is negative", () => {
    // Far above the best discharge the blades' term outweighs the others: the cotangent is negative.
    const overload = {
      ...francisPassage,
      head: u.m(0.05),
      discharge: u.m3ps(8),
      bestDischarge: u.m3ps(1),
      totalLength: u.mm(20),
    };
    const angle = turbine.strikeFrancis.lines(overload).find((step) => step.symbol === "t");
    expect(Number.parseFloat(angle?.value ?? "")).toBeGreaterThan(90);
    expect(turbine.strikeFrancis(overload)).toBe(0);
  });

  it("is a probability for any fish", () => {
    fc.assert(
      fc.property(lengths, (totalLength) => {
        const strike = turbine.strikeFrancis({ ...francisPassage, totalLength });
        expect(strike).toBeGreaterThan(0);
        expect(strike).toBeLessThanOrEqual(1);
      }),
    );
  });

  it("does not depend on the unit of length: a runner scaled with its discharge and head strikes alike", () => {
    const scale = 3;
    const scaled = {
      ...francisPassage,
      totalLength: u.m(scale * francisPassage.totalLength),
      inletDiameter: u.m(scale * francisPassage.inletDiameter),
      outletDiameter: u.m(scale * francisPassage.outletDiameter),
      inletHeight: u.m(scale * francisPassage.inletHeight),
      discharge: u.m3ps(scale ** 3 * francisPassage.discharge),
      bestDischarge: u.m3ps(scale ** 3 * francisPassage.bestDischarge),
      head: u.m(scale ** 2 * francisPassage.head),
    };
    expect(turbine.strikeFrancis(scaled)).toBeCloseTo(turbine.strikeFrancis(francisPassage), 12);
  });
});
