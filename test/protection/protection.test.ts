import * as fc from "fast-check";
import { protection } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const width = fc.double({ min: 0, max: 3, noNaN: true });
const threshold = fc.double({ min: 0, max: 0.95, noNaN: true });
const exponent = fc.double({ min: 0.05, max: 8, noNaN: true });
const midpoint = fc.double({ min: 0, max: 1.5, noNaN: true });
const steepness = fc.double({ min: 0.1, max: 60, noNaN: true });

const laws = fc.oneof(
  fc.constant(protection.barrierLaw()),
  fc.record({ threshold, exponent }).map(protection.rampLaw),
  fc.record({ midpoint, steepness }).map(protection.logisticLaw),
);

describe("protection", () => {
  it("barrier is 0 below the relative width 1 and 1 from there on", () => {
    expect(protection.barrier({ relativeWidth: 1 - 1e-12 })).toBe(0);
    expect(protection.barrier({ relativeWidth: 1 })).toBe(1);
    expect(protection.barrier({ relativeWidth: 2 })).toBe(1);
  });

  it("ramp is 0 up to the threshold, 1 from the relative width 1 on, and the power of the way between", () => {
    const ramp = protection.rampLaw({ threshold: 0.4, exponent: 2 });
    expect(ramp(0)).toBe(0);
    expect(ramp(0.4)).toBe(0);
    expect(ramp(0.7)).toBeCloseTo(0.25, 12);
    expect(ramp(1)).toBe(1);
    expect(ramp(1.5)).toBe(1);
  });

  it("ramp with threshold 0 gives nothing protected at width 0", () => {
    expect(protection.ramp({ relativeWidth: 0, threshold: 0, exponent: 0.5 })).toBe(0);
  });

  it("ramp refuses a threshold of 1 and an exponent of 0", () => {
    expect(() => protection.ramp({ relativeWidth: 0.5, threshold: 1 })).toThrow(/threshold is 1; it must be/);
    expect(() => protection.ramp({ relativeWidth: 0.5, exponent: 0 })).toThrow(
      /exponent is 0; it must be above 0/,
    );
  });

  it("ramp says that its defaults are illustrative, and of any numbers that the shape is general", () => {
    expect(protection.ramp.cautions({ relativeWidth: 0.5 }).join()).toMatch(
      /illustrative; fit them to trials/,
    );
    expect(protection.ramp.cautions({ relativeWidth: 0.5, threshold: 0.3 }).join()).toMatch(
      /shape is general, not a measured law/,
    );
  });

  it("logistic is one half at its midpoint and reaches neither 0 nor 1 near it", () => {
    const at = protection.logisticLaw({ midpoint: 0.6, steepness: 10 });
    expect(at(0.6)).toBe(0.5);
    expect(at(0)).toBeGreaterThan(0);
    expect(at(1.5)).toBeLessThan(1);
  });

  it("no law ever falls with relative width, and every share lies in 0..1", () => {
    fc.assert(
      fc.property(laws, width, width, (law, one, other) => {
        const [narrow, wide] = [law(Math.min(one, other)), law(Math.max(one, other))];
        expect(wide).toBeGreaterThanOrEqual(narrow);
        expect(narrow).toBeGreaterThanOrEqual(0);
        expect(wide).toBeLessThanOrEqual(1);
      }),
    );
  });

  it("a law gives what its formula gives", () => {
    fc.assert(
      fc.property(width, threshold, exponent, (relativeWidth, from, power) => {
        const law = protection.rampLaw({ threshold: from, exponent: power });
        expect(law(relativeWidth)).toBe(protection.ramp({ relativeWidth, threshold: from, exponent: power }));
      }),
    );
  });

  it("a law knows where it bends", () => {
    expect(protection.rampLaw({ threshold: 0.3 }).breaks).toEqual([0.3, 1]);
    expect(protection.barrierLaw().breaks).toEqual([1]);
    expect(protection.logisticLaw({ midpoint: 0.5, steepness: 9 }).breaks).toEqual([]);
  });

  it("a law refuses the numbers that its formula refuses when it is made", () => {
    expect(() => protection.rampLaw({ threshold: -0.1 })).toThrow(/protection\.ramp: threshold is -0\.1/);
    expect(() => protection.logisticLaw({ midpoint: 0.5, steepness: 0 })).toThrow(/steepness is 0/);
  });
});
