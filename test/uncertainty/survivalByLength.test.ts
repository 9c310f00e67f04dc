import { fish, protection, survival, u, uncertainty } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const { beta, lognormal, normal, resampled, survivalByLength, triangular } = uncertainty;
const lengths = [60, 110, 160, 250].map((millimetres) => u.mm(millimetres));
const turbineSurvival = (length: number): number => 1 - 0.7 * length;
const inputs = {
  clearSpacing: normal({ mean: u.mm(18), standardDeviation: u.mm(0.4) }),
  bodyRatio: lognormal({ median: 0.1, spread: 0.06 }),
  curve: {
    threshold: beta({ mean: 0.18, standardDeviation: 0.05 }),
    exponent: lognormal({ median: 0.75, spread: 0.2 }),
  },
  mortalityFactor: triangular({ least: 0.6, mostLikely: 1, most: 1.5 }),
  protectedSurvival: beta({ mean: 0.96, standardDeviation: 0.02 }),
};

const withSeed = (seed: number) => survivalByLength({ ...inputs, lengths, turbineSurvival, seed });

const changed = (change: object) => () =>
  survivalByLength({ ...inputs, lengths, turbineSurvival, seed: 1, ...change });

describe("uncertainty.survivalByLength", () => {
  test("gives what the formulas give, drawn one by one", () => {
    const { curve, ...others } = inputs;
    const fast = survivalByLength({ ...inputs, lengths, turbineSurvival, draws: 1600, seed: 5 });
    const slow = uncertainty.band({
      inputs: {
        clearSpacing: others.clearSpacing,
        bodyRatio: others.bodyRatio,
        ...curve,
        mortalityFactor: others.mortalityFactor,
        protectedSurvival: others.protectedSurvival,
      },
      places: lengths,
      output: (drawn, totalLength) => {
        const relativeWidth = fish.relativeWidth({
          totalLength,
          widthRatio: drawn.bodyRatio,
          clearSpacing: drawn.clearSpacing,
        });
        return survival.total({
          protection: protection.ramp({
            relativeWidth,
            threshold: drawn.threshold,
            exponent: drawn.exponent,
          }),
          turbineSurvival: 1 - drawn.mortalityFactor * (1 - turbineSurvival(totalLength)),
          protectedSurvival: drawn.protectedSurvival,
        });
      },
      draws: 1600,
      seed: 5,
    });
    for (const name of ["mean", "standardDeviation", "lower", "median", "upper"] as const)
      fast[name].forEach((value, at) => expect(value).toBeCloseTo(slow[name][at], 12));
  });

  test("with one input uncertain, its band runs through the survivals at that input's quantiles", () => {
    const spread = survivalByLength({
      ...inputs,
      clearSpacing: u.mm(18),
      bodyRatio: 0.1,
      curve: { threshold: 0.2, exponent: 1 },
      mortalityFactor: 1,
      lengths: [u.mm(120)],
      turbineSurvival,
      seed: 1,
    });
    const share = (0.1 * 120) / 18;
    const held = (share - 0.2) / 0.8;
    const at = (quantile: number) =>
      held * inputs.protectedSurvival.quantile(quantile) + (1 - held) * turbineSurvival(0.12);
    expect(spread.lower[0]).toBeCloseTo(at(0.025), 4);
    expect(spread.upper[0]).toBeCloseTo(at(0.975), 4);
  });

  test("takes the resampled fits of a trial", () => {
    const rows = Array.from({ length: 100 }, (_, at) => ({
      threshold: 0.1 + at / 1000,
      exponent: 0.7 + at / 500,
      heldAnyway: 0.01,
    }));
    const { lower, upper } = survivalByLength({
      ...inputs,
      curve: resampled(rows),
      lengths,
      turbineSurvival,
      seed: 1,
    });
    lower.forEach((low, at) => expect(low).toBeLessThan(upper[at]));
  });

  test("is the same for the same seed and close for another", () => {
    expect(withSeed(3)).toEqual(withSeed(3));
    withSeed(3).lower.forEach((low, at) => expect(Math.abs(low - withSeed(4).lower[at])).toBeLessThan(0.002));
  });

  test("inputs that reach what can't be are refused, and cut only on demand", () => {
    expect(changed({ clearSpacing: normal({ mean: u.mm(3), standardDeviation: u.mm(1) }) })).toThrow(
      "uncertainty.survivalByLength: normal, 3 mm ± 1 mm lies below 0 mm with probability 0.00135",
    );
    const wide = { mean: 0.97, standardDeviation: 0.03 };
    expect(changed({ protectedSurvival: normal(wide) })).toThrow("allowed is at least 0 and at most 1");
    const { cautions } = changed({ protectedSurvival: normal(wide, { truncated: true }) })();
    expect(cautions[0]).toContain("protectedSurvival: 16 % of the distribution was cut off");
    expect(changed({ curve: { threshold: 1, exponent: 1 } })).toThrow("threshold is 1");
    expect(changed({ bodyRatio: 1.2 })).toThrow("bodyRatio is 1.2");
  });

  test("a curve whose draws leave the ramp is refused with their number", () => {
    const rows = Array.from({ length: 100 }, (_, at) => ({ threshold: at / 50, exponent: 1 }));
    expect(() =>
      survivalByLength({ ...inputs, curve: resampled(rows), lengths, turbineSurvival, seed: 1 }),
    ).toThrow(/draws of the curve have a threshold that is not at least 0 and below 1/);
  });

  test("mortality beyond 1 is taken as 1 and told", () => {
    const { cautions, lower } = survivalByLength({
      ...inputs,
      mortalityFactor: triangular({ least: 1, mostLikely: 2, most: 3 }),
      lengths: [u.mm(100)],
      turbineSurvival: () => 0.5,
      seed: 1,
    });
    expect(cautions[0]).toMatch(/mortalityFactor: in \d+ of 16384 draws/);
    expect(lower[0]).toBeGreaterThanOrEqual(0);
  });

  test("a law that gives no share is refused with the length", () => {
    expect(() => survivalByLength({ ...inputs, lengths, turbineSurvival: () => 1.1, seed: 1 })).toThrow(
      "turbineSurvival gives 1.1 at 60 mm",
    );
  });
});
