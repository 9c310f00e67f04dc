import { bypass, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const share = (down: number): number =>
  bypass.submergence({ upstreamHead: u.m(0.3), downstreamHead: u.m(down) });

describe("weirs", () => {
  // Crowe, Elger et al., Engineering Fluid Mechanics, ex. 13.7: L 1.3 m, H 0.21 m, P 0.6 m, Q = K √(2g) L H^1.5 with
  // K = 0.40 + 0.05 H/P; printed result 0.23 m³/s.
  test("a sharp-crested weir gives the printed discharge to a textbook's digits", () => {
    const head = 0.21;
    const textbook = (0.4 + (0.05 * head) / 0.6) * Math.sqrt(2 * 9.81) * 1.3 * head ** 1.5;
    expect(textbook).toBeCloseTo(0.23, 2);
    const rehbock = bypass.sharpCrestedWeir({ crestWidth: u.m(1.3), head: u.m(head), crestHeight: u.m(0.6) });
    expect(Math.abs(rehbock / textbook - 1)).toBeLessThan(0.03);
  });

  // Villemonte 1947 (from memory): a weir drowned to half its head keeps about 85 % of its free discharge.
  test("a submerged weir loses discharge, and all of it where both levels meet", () => {
    expect(share(0)).toBe(1);
    expect(share(0.15)).toBeCloseTo(0.85, 2);
    expect(share(0.3 * (1 - 1e-9))).toBeLessThan(0.001);
  });

  // The coefficient of a broad-crested weir in metres, 1.705 m^0.5/s, as textbooks print it (common practice).
  test("a broad-crested weir has the coefficient of the textbooks", () => {
    const flow = bypass.broadCrestedWeir({ crestWidth: u.m(1), energyHead: u.m(1) });
    expect(flow).toBeCloseTo(1.705, 3);
  });

  // A textbook's problem 15.19 with its solution, as holooly.com prints it: weir 10 m wide, head 0.65 m; printed
  // Q 8.9 m³/s and critical depth 0.43 m.
  test("a broad-crested weir gives the printed discharge and critical depth", () => {
    const flow = bypass.broadCrestedWeir({ crestWidth: u.m(10), energyHead: u.m(0.65) });
    expect(Math.abs(flow - 8.9)).toBeLessThan(0.05);
    expect(Math.abs(bypass.criticalDepth({ discharge: flow, width: u.m(10) }) - 0.43)).toBeLessThan(0.005);
    expect(bypass.broadCrestedWeirHead({ discharge: flow, crestWidth: u.m(10) })).toBeCloseTo(0.65, 12);
  });

  // An examination question with its solution, as byjus.com prints it: Francis's formula, weir 4 m long, head 0.36 m,
  // solved with two contractions; printed 1.56 m³/s.
  test("Francis's formula gives the printed discharge", () => {
    const flow = bypass.contractedWeir({ crestWidth: u.m(4), head: u.m(0.36), contractions: 2 });
    expect(Math.abs(flow - 1.56)).toBeLessThan(0.005);
  });

  test("critical depth on a broad crest is two thirds of the energy head", () => {
    const flow = bypass.broadCrestedWeir({ crestWidth: u.m(4), energyHead: u.m(0.9) });
    expect(bypass.criticalDepth({ discharge: flow, width: u.m(4) })).toBeCloseTo(0.6, 12);
  });
});

describe("gates and openings", () => {
  // Çengel & Cimbala, Fluid Mechanics, ex. 13-8: y1 3 m, a 0.25 m, b 6 m, drowned outflow with Cd 0.47; inputs printed,
  // result 5.41 m³/s from memory.
  test("a drowned gate gives the discharge of the example", () => {
    const flow = bypass.sluiceGate({
      width: u.m(6),
      opening: u.m(0.25),
      upstreamDepth: u.m(3),
      coefficient: 0.47,
    });
    expect(Math.abs(flow - 5.41)).toBeLessThan(0.005);
  });

  // The same gate with the tailwater of the example, 1.5 m: the coefficient 0.47 was read from a chart of measurements;
  // energy and momentum without losses give 0.486, a few per cent more.
  test("energy and momentum give the drowned gate's coefficient a few per cent above the chart's", () => {
    const flow = bypass.drownedSluiceGate({
      width: u.m(6),
      opening: u.m(0.25),
      upstreamDepth: u.m(3),
      downstreamDepth: u.m(1.5),
    });
    const coefficient = flow / (6 * 0.25 * Math.sqrt(2 * 9.81 * 3));
    expect(coefficient / 0.47).toBeGreaterThan(1);
    expect(coefficient / 0.47).toBeLessThan(1.05);
  });

  // Energy and continuity, worked out apart: y2 = Cc a, q² = 2g y1² y2² / (y1 + y2).
  test("free outflow follows energy and continuity", () => {
    const [y1, opening] = [2.4, 0.5];
    const y2 = 0.61 * opening;
    const q = y1 * y2 * Math.sqrt((2 * 9.81) / (y1 + y2));
    const coefficient = bypass.sluiceGateCoefficient({ opening: u.m(opening), upstreamDepth: u.m(y1) });
    const flow = bypass.sluiceGate({
      width: u.m(1),
      opening: u.m(opening),
      upstreamDepth: u.m(y1),
      coefficient,
    });
    expect(flow).toBeCloseTo(q, 12);
  });

  test("a submerged opening loses all of its head in the pool", () => {
    const flow = bypass.submergedOrifice({ area: u.m2(0.25), headDifference: u.m(0.3), coefficient: 1 });
    expect(flow).toBeCloseTo(0.25 * Math.sqrt(2 * 9.81 * 0.3), 12);
  });
});

describe("channels", () => {
  // V. M. Ponce, CIVE 530 Open-Channel Hydraulics, San Diego State University, examination: b 6 m, y 1.6 m, S 0.0025,
  // n 0.015; printed Q 32.9 m³/s, R 1.043 m.
  test("Manning's equation gives the printed discharge and hydraulic radius", () => {
    const inputs = { roughness: 0.015, bedSlope: 0.0025, bottomWidth: u.m(6), depth: u.m(1.6) };
    expect(Math.abs(bypass.manning(inputs) - 32.9)).toBeLessThan(0.05);
    const radius = bypass.manning.lines(inputs).find(({ title }) => title === "Hydraulic radius");
    expect(radius?.value).toContain("1.04");
    expect((6 * 1.6) / (6 + 2 * 1.6)).toBeCloseTo(1.043, 3);
  });
});

describe("uniform and critical depth", () => {
  const feet = 0.3048;

  // R package rivr 1.2-3, example of its normal_depth, printed output 1.711301 ft: 250 ft³/s in a rectangle 100 ft wide,
  // slope 0.001, n 0.045. It multiplies by 1.486 for feet, rounded; the roughness below is the same in metres.
  test("uniform depth in a rectangle agrees with another program", () => {
    const depth = bypass.normalDepth({
      discharge: u.m3ps(250 * feet ** 3),
      roughness: (0.045 / 1.486) * feet ** (-1 / 3),
      bedSlope: 0.001,
      bottomWidth: u.m(100 * feet),
    });
    expect(depth / feet).toBeCloseTo(1.711301, 5);
  });

  // The same package's second example: 126 m³/s, bottom 6.1 m, side slope 1.5, slope 0.0008, n 0.013: 3.2864 m.
  test("uniform depth in a trapezium agrees with another program", () => {
    const depth = bypass.normalDepth({
      discharge: u.m3ps(126),
      roughness: 0.013,
      bedSlope: 0.0008,
      bottomWidth: u.m(6.1),
      sideSlope: 1.5,
    });
    expect(depth).toBeCloseTo(3.2864, 4);
  });

  // An examination question with its solution, as edurev.in prints it: 10 m wide, slope 3.33e-3, n 0.015, uniform
  // depth 3 m; printed 175.58 m³/s, critical depth 3.16 m (its last digit is one too high), so the channel is steep.
  test("a steep channel has its critical depth above the uniform one, as printed", () => {
    const channel = { roughness: 0.015, bedSlope: 3.33e-3, bottomWidth: u.m(10) };
    const flow = bypass.manning({ ...channel, depth: u.m(3) });
    expect(Math.abs(flow / 175.58 - 1)).toBeLessThan(0.002);
    expect(Math.abs(bypass.criticalDepth({ discharge: flow, width: u.m(10) }) - 3.16)).toBeLessThan(0.01);
    const chute = {
      width: u.m(10),
      length: u.m(100),
      bedSlope: 3.33e-3,
      roughness: 0.015,
      headLevel: u.m(0),
    };
    expect(bypass.chuteFlow(chute, { discharge: flow, endLevel: u.m(-5) }).steep).toBe(true);
  });
});

describe("falls", () => {
  // Bell & DeLacy 1972; Larinier 2001 (FAO 419), from memory: a fall of 13 m ends at about 16 m/s.
  test("a fall of 13 m ends at 16 m/s", () => {
    expect(Math.abs(bypass.impactVelocity({ fallHeight: u.m(13) }) - 16)).toBeLessThan(0.05);
  });
});
