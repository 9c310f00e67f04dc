import { describe, expect, test } from "vitest";
import { rack, survey, u } from "kernel-helpers";

const feet = 0.3048;

describe("Froude scaling", () => {
  test("Munson, Young, Okiishi, Fundamentals of Fluid Mechanics, spillway at 1:15: width 1.33 m, 0.143 m³/s", () => {
    // Read in a lecture that works the example (20 m wide, 125 m³/s); the textbook itself is cited from memory.
    const model = rack.toModel(15, { channelWidth: u.m(20), discharge: u.m3ps(125) });
    expect(model.channelWidth.toFixed(2)).toBe("1.33");
    expect(model.discharge.toFixed(3)).toBe("0.143");
  });

  test("the same example, a day in nature: 6.20 h in the model (from memory)", () => {
    expect(u.to.h(rack.toModel(15, { duration: u.h(24) }).duration).toFixed(2)).toBe("6.20");
  });

  test("Richardson, Simons, Lagasse 2001, River Engineering for Highway Encroachments (FHWA HDS 6), p. 5.76", () => {
    // Half a mile in 60 ft; printed with L = 2.3·10⁻²: time 0.15, discharge 8.0·10⁻⁵, force 1.2·10⁻⁵, 20 ft deep: 0.45 ft.
    const { time, discharge, force } = rack.froudeScale({ lengthScale: 1 / 2.3e-2 });
    expect((1 / time).toPrecision(2)).toBe("0.15");
    expect((1 / discharge).toExponential(1)).toBe("8.0e-5");
    expect((1 / force).toExponential(1)).toBe("1.2e-5");
    const lengthScale = (0.5 * 5280) / 60;
    const depth = rack.toModel(lengthScale, { waterDepth: u.m(20 * feet) }).waterDepth / feet;
    expect(depth.toFixed(2)).toBe("0.45");
  });

  test("a worked exercise at 1:30, model to nature: 0.6 m/s, 0.05 m³/s and 1.5 N become 3.286 m/s, 246.475 m³/s, 40 500 N", () => {
    // Read in lecture slides on force scaling (dam spillway tested by Froude scaling).
    const nature = rack.toNature(30, {
      approachVelocity: u.mps(0.6),
      discharge: u.m3ps(0.05),
      load: u.N(1.5),
    });
    expect(nature.approachVelocity.toFixed(3)).toBe("3.286");
    expect(nature.discharge.toFixed(3)).toBe("246.475");
    expect(nature.load).toBeCloseTo(40_500, 8);
  });
});

describe("quartiles by definition 7 of Hyndman and Fan 1996", () => {
  test("R Core Team, summary() of 1, 12, 14, 3, 96, 111: 5.25, 13.00, 75.50 (printed on the list R-help, 13 January 2012)", () => {
    const values = [1, 12, 14, 3, 96, 111];
    expect(survey.quantiles(values, [0, 0.25, 0.5, 0.75, 1])).toEqual([1, 5.25, 13, 75.5, 111]);
    const { least, lowerQuartile, median, upperQuartile, most } = survey.distribution(values);
    expect([least, lowerQuartile, median, upperQuartile, most]).toEqual([1, 5.25, 13, 75.5, 111]);
  });
});

describe("response rate 1 of the American Association for Public Opinion Research, Standard Definitions", () => {
  test("650 complete answers of 1000 eligible: 65 % (a worked example of the definition)", () => {
    // 650 complete, 50 partial, 150 refused, 100 not reached, 30 other, 20 of unknown eligibility.
    const asked = 650 + 50 + 150 + 100 + 30 + 20;
    expect(survey.responseRate({ asked, answered: 650 }).estimate).toBe(0.65);
  });
});

describe("interval of a median between order statistics", () => {
  test("ten values: from the second to the ninth, with 97.9 % (recomputed: 1 − 2 (1 + 10) / 2¹⁰)", () => {
    const interval = survey.distribution([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]).medianInterval;
    expect(interval).toMatchObject({ lower: 2, upper: 9 });
    expect(interval?.covers).toBeCloseTo(1 - 22 / 1024, 12);
  });
});
