import { describe, expect, test } from "vitest";
import { clogging, u } from "kernel-helpers";

describe("bars as simply supported beams, against printed examples", () => {
  // A course's worked example (expertsmind.com, "Determine the maximum uniformly distributed load"): timber 150 mm wide and
  // 300 mm deep over 4 m, 8 N/mm² allowed: M = 18 kN m and w = 9 kN/m. The same question is set by several colleges.
  test("9 kN/m on a span of 4 m and a section of 150 mm by 300 mm give 8 N/mm²", () => {
    const headDifference = u.m(9000 / (1000 * 9.81 * 0.15));
    const stress = clogging.bendingStress({
      headDifference,
      blockedShare: 0,
      clearSpacing: u.mm(20),
      barThickness: u.mm(150),
      barDepth: u.mm(300),
      span: u.m(4),
    });
    expect(u.to.MPa(stress)).toBeCloseTo(8, 10);
  });

  // The table of beams, printed in every handbook (Roark's Formulas for Stress and Strain; here a page on beam deflection that
  // prints δ = 5wL⁴/(384EI), I = bh³/12, M = wL²/8, σ = M(h/2)/I). Recomputed with these four, step by step.
  test("deflection and stress are those of the handbook's four formulas, one after another", () => {
    const [E, L, b, h, w] = [210e9, 1.2, 0.008, 0.06, 1000 * 9.81 * 0.7 * (0.008 + 0.5 * 0.018)];
    const I = (b * h ** 3) / 12;
    const bar = {
      headDifference: u.m(0.7),
      blockedShare: 0.5,
      clearSpacing: u.mm(18),
      barThickness: u.m(b),
      barDepth: u.m(h),
      span: u.m(L),
    };
    expect(clogging.deflection(bar)).toBeCloseTo((5 * w * L ** 4) / (384 * E * I), 12);
    expect(clogging.bendingStress(bar) / (((w * L ** 2) / 8) * (h / 2 / I))).toBeCloseTo(1, 12);
  });

  // An exercise in vibration (transtutors.com 13366224): steel, 185 mm by 100 mm, 3 m, E 210 GPa, ρ 7850 kg/m³, printed with
  // analytical frequencies π²/L² √(EI/ρA), and the answer 181.7 rad/s for a single finite element, whose factor is √120
  // in place of π². The beam itself is lower by π²/√120.
  test("the pinned beam whose one-element model is printed at 181.7 rad/s swings at 181.7 π²/√120 rad/s", () => {
    const inAir = clogging.naturalFrequency({
      barThickness: u.mm(100),
      barDepth: u.mm(185),
      span: u.m(3),
      addedMassCoefficient: 0,
    });
    const oneElement = (2 * Math.PI * u.to.Hz(inAir) * Math.sqrt(120)) / Math.PI ** 2;
    expect(oneElement).toBeCloseTo(181.7, 1);
  });

  test("the second mode of a pinned beam has four times the frequency of the first, as the same exercise prints", () => {
    const beam = {
      barThickness: u.mm(100),
      barDepth: u.mm(185),
      span: u.m(3),
      addedMassCoefficient: 0,
    };
    expect(clogging.naturalFrequency({ ...beam, mode: 2 }) / clogging.naturalFrequency(beam)).toBeCloseTo(
      4,
      12,
    );
  });
});

describe("vortices, against printed examples", () => {
  // Printed example rows of a page on vortex shedding (codingace.net): Strouhal numbers 0.20 for round and 0.13 for square sections.
  test.each([
    ["small pipe in air", 0.2, 8, 0.05, 32],
    ["stack in wind", 0.2, 18, 1.2, 3],
    ["square sign post", 0.13, 15, 0.1, 19.5],
    ["pipe in water", 0.2, 1.5, 0.2, 1.5],
  ])("%s", (_, strouhalNumber, flow, thickness, hertz) => {
    const shed = clogging.sheddingFrequency({
      strouhalNumber,
      flowVelocity: u.mps(flow),
      barThickness: u.m(thickness),
    });
    expect(u.to.Hz(shed)).toBeCloseTo(hertz, 10);
  });
});

describe("a rack behind a box-shaped blockage", () => {
  // Zayed & Farouk 2021, Water Practice & Technology 16(1):247, abstract: a blockage ratio up to 0.13 at an approach Froude number
  // up to 0.12 "has a minor effect" on the head loss. Covered share for blockage; what it adds is held against the depth.
  test("adds less than a thousandth of the depth at a blockage of 0.13 and a Froude number of 0.12", () => {
    const factor = clogging.zonesInParallel({
      reachedShare: 1,
      reachedFactor: 1,
      otherFactor: 1,
      coveredShare: 0.13,
    });
    const depth = 0.4;
    const approachVelocity = u.mps(0.12 * Math.sqrt(9.81 * depth));
    const loss = (lossFactor: number) =>
      clogging.headLoss({ cleanLossCoefficient: 0.4, lossFactor, approachVelocity });
    expect((loss(factor) - loss(1)) / depth).toBeLessThan(0.001);
    expect(factor).toBeCloseTo(1 / 0.87 ** 2, 12);
  });
});
