import { protection, rackLoss, survival, u, uncertainty } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const { formulaInputs, monteCarlo, normal, resampled, uniform } = uncertainty;
const bars = {
  shapeFactor: 2.42,
  barThickness: u.mm(8),
  clearSpacing: normal({ mean: u.mm(18), standardDeviation: u.mm(0.5) }),
  inclination: u.deg(90),
  approachVelocity: uniform({ from: u.mps(0.4), to: u.mps(0.6) }),
};

describe("uncertainty.formulaInputs", () => {
  test("draws a formula of the catalogue", () => {
    const inputs = formulaInputs(rackLoss.kirschmer, bars);
    const { mean, lower, upper } = monteCarlo({ inputs, output: rackLoss.kirschmer.evaluate, seed: 1 });
    const middle = rackLoss.kirschmer({ ...bars, clearSpacing: u.mm(18), approachVelocity: u.mps(0.5) });
    expect(lower.value).toBeLessThan(middle);
    expect(upper.value).toBeGreaterThan(middle);
    // The square of the velocity: its mean is 0.25 + 0.2²/12.
    expect(mean.value / middle).toBeCloseTo(1 + 0.04 / 12 / 0.25, 2);
  });

  test("refuses a distribution that reaches what the formula refuses, in the formula's unit", () => {
    const wide = normal({ mean: u.mm(18), standardDeviation: u.mm(9) });
    expect(() => formulaInputs(rackLoss.kirschmer, { ...bars, clearSpacing: wide })).toThrow(
      /^uncertainty\.formulaInputs, rackLoss\.kirschmer, clearSpacing: .* lies below 0 mm with probability 0\.0228, and allowed is above 0 mm; /,
    );
    const share = normal({ mean: 0.95, standardDeviation: 0.04 });
    expect(() =>
      formulaInputs(survival.total, { protection: share, turbineSurvival: 0.9, protectedSurvival: 0.98 }),
    ).toThrow("allowed is at least 0 and at most 1");
  });

  test("cuts it where that was asked for", () => {
    const cut = normal({ mean: 0.95, standardDeviation: 0.04 }, { truncated: true });
    const inputs = formulaInputs(survival.total, {
      protection: cut,
      turbineSurvival: 0.9,
      protectedSurvival: 0.98,
    });
    const { cautions } = monteCarlo({ inputs, output: survival.total.evaluate, seed: 1 });
    expect(cautions[0]).toContain("protection: 11 % of the distribution was cut off");
  });

  test("fills in defaults, and refuses what is missing, unknown, a list or a fit", () => {
    const relativeWidth = uniform({ from: 0.3, to: 0.7 });
    expect(formulaInputs(protection.ramp, { relativeWidth })).toMatchObject({ threshold: 0.2, exponent: 1 });
    expect(() => formulaInputs(protection.ramp, {})).toThrow(
      "relativeWidth is missing; give a number or a distribution",
    );
    expect(() => formulaInputs(protection.ramp, { relativeWidth, width: 1 })).toThrow(
      'it has no input "width"',
    );
    expect(() => formulaInputs(protection.ramp, { relativeWidth, exponent: -1 })).toThrow("exponent is -1");
    expect(() => formulaInputs(survival.chain, { survivals: uniform({ from: 0, to: 1 }) })).toThrow(
      "survivals takes a list",
    );
    const fits = resampled(Array.from({ length: 60 }, (_, at) => ({ a: at, b: 1 })));
    expect(() => formulaInputs(protection.ramp, { relativeWidth: fits })).toThrow(
      "relativeWidth is one number",
    );
  });
});
