import { describe, expect, test } from "vitest";
import {
  band,
  barrierLaw,
  binnedShares,
  bootstrapFit,
  compareFits,
  fitLogistic,
  fitRamp,
  law,
  laws,
  leaveOneOut,
  overSpread,
  ramp,
  rampLaw,
  type TrialFish,
} from "../../kernel-helpers/src/protection";
import { normalCdf } from "../../kernel-helpers/src/statistics";
import { demoTrial } from "./demoTrial";

const trialFishMet = demoTrial.fish;

describe("resampled fits", () => {
  const fit = fitRamp({ fish: trialFishMet.filter((one) => one.cue === "none") });
  const bootstrap = bootstrapFit({ fit, seed: 7, resamples: 100 });

  test("the same seed gives the same draws, another seed others", () => {
    expect(bootstrapFit({ fit, seed: 7, resamples: 100 }).draws).toEqual(bootstrap.draws);
    expect(bootstrapFit({ fit, seed: 8, resamples: 100 }).draws).not.toEqual(bootstrap.draws);
  });

  test("intervals and errors are those of the draws", () => {
    const exponents = bootstrap.draws.map(({ exponent = Number.NaN }) => exponent).toSorted((a, b) => a - b);
    const { lower, upper, standardError } = bootstrap.parameters.exponent ?? {
      lower: 0,
      upper: 0,
      standardError: 0,
    };
    expect(lower).toBeGreaterThan(exponents[1]);
    expect(lower).toBeLessThan(exponents[4]);
    expect(upper).toBeLessThan(exponents[98]);
    expect(standardError).toBeGreaterThan(0.03);
    expect(bootstrap.withoutFit + bootstrap.draws.length).toBe(100);
  });

  test("the band holds the curve, is nothing where the body decides, and its laws are those of the draws", () => {
    const widths = [0.3, 0.5, 0.7, 0.9, 1, 1.2];
    const { protection, lower, upper } = band({ bootstrap, relativeWidth: widths });
    protection.forEach((share, at) => {
      expect(lower[at]).toBeLessThanOrEqual(share);
      expect(upper[at]).toBeGreaterThanOrEqual(share);
    });
    expect([lower[4], upper[4], lower[5]]).toEqual([1, 1, 1]);
    expect(upper[1] - lower[1]).toBeGreaterThan(0.05);
    const [first] = laws(bootstrap);
    const { threshold = 0, exponent = 1 } = bootstrap.draws[0];
    expect(first(0.7)).toBeCloseTo(ramp.evaluate({ relativeWidth: 0.7, threshold, exponent }), 12);
  });

  test("refuses seeds and numbers of resamples that make no sense, and a single cluster", () => {
    expect(() => bootstrapFit({ fit, seed: -1 })).toThrow("seed is -1");
    expect(() => bootstrapFit({ fit, seed: 1, resamples: 10 })).toThrow("resamples is 10");
    const together = fitLogistic({
      fish: [0.4, 0.6, 0.8].map((relativeWidth, at) => ({
        relativeWidth,
        held: 5 + 5 * at,
        fish: 20,
        cluster: "A",
      })),
    });
    expect(() => bootstrapFit({ fit: together, seed: 1 })).toThrow("the fish came in 1 cluster");
  });
});

describe("laws of fits", () => {
  test("the law of a ramp is the ramp; a share held anyway is left out, one that passes anyway stays", () => {
    const rows: TrialFish[] = [
      { relativeWidth: 0.05, held: 2, fish: 20 },
      { relativeWidth: 0.4, held: 6, fish: 20 },
      { relativeWidth: 0.6, held: 11, fish: 20 },
      { relativeWidth: 0.8, held: 15, fish: 20 },
      { relativeWidth: 1.1, held: 19, fish: 20 },
    ];
    const fit = fitRamp({ fish: rows, heldAnyway: true, passedAnyway: true });
    const fitted = law(fit);
    expect(fitted(0.05)).toBe(0);
    expect(fit.share(0.05)).toBeGreaterThan(0.05);
    expect(fitted(1.1)).toBeCloseTo(1 - (fit.values.passedAnyway ?? 0), 12);
    expect(fitted.breaks).toEqual([fit.values.threshold, 1]);
    expect(fitted.cautions.join(" ")).toContain("left out of the law");
  });

  test("over the spread of bodies the step becomes the normal distribution of ln(width)", () => {
    const spread = overSpread({ law: barrierLaw(), spread: 0.07 });
    for (const w of [0.9, 0.97, 1, 1.06])
      expect(Math.abs(spread(w) - normalCdf(Math.log(w) / 0.07))).toBeLessThanOrEqual(0.0026);
    const none = overSpread({ law: rampLaw({ threshold: 0.2, exponent: 1 }), spread: 0 });
    expect(none(0.6)).toBeCloseTo(0.5, 12);
    expect(() => overSpread({ law: barrierLaw(), spread: 2 })).toThrow("spread is 2");
  });
});

describe("shares by class of relative width", () => {
  test("every fish is in one class, and clusters widen the interval", () => {
    const edges = [0, 0.3, 0.5, 0.7, 0.9, 1, Infinity];
    const shares = binnedShares({ fish: trialFishMet, edges });
    expect(shares.reduce((sum, one) => sum + one.fish, 0)).toBe(trialFishMet.length);
    const alone = binnedShares({
      fish: trialFishMet.map(({ relativeWidth, held }) => ({ relativeWidth, held })),
      edges,
    });
    expect(shares.some((one, at) => one.interval[0] < alone[at].interval[0] - 0.01)).toBe(true);
    for (const { protection, interval } of shares) {
      expect(interval[0]).toBeLessThanOrEqual(protection);
      expect(interval[1]).toBeGreaterThanOrEqual(protection);
    }
    const beyond = trialFishMet.filter((one) => one.relativeWidth > 1).length;
    expect(() => binnedShares({ fish: trialFishMet, edges: [0, 1] })).toThrow(
      `${beyond} fish lie outside the edges`,
    );
    expect(() => binnedShares({ fish: trialFishMet, edges: [0, 1, 1] })).toThrow(
      "edges[2] is 1; it must be above 1",
    );
  });
});

describe("comparisons", () => {
  test("fits to different fish can't be compared, and one species alone can't be judged", () => {
    const all = fitLogistic({ fish: trialFishMet });
    const some = fitLogistic({ fish: trialFishMet.slice(0, 400) });
    expect(() => compareFits({ all, some })).toThrow("fitted to different fish");
    expect(() => compareFits({ all })).toThrow("a comparison needs at least 2");
    const two = trialFishMet.filter((one) => one.species === "perch" || one.species === "ide");
    expect(() => leaveOneOut({ fish: two, family: "ramp" })).toThrow("there are 2 species");
  });
});
