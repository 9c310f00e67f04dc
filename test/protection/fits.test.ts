import { describe, expect, test } from "vitest";
import { trialFish, trialSpecies, trialTruth } from "../../data-demo/generators/trial-runs";
import { species as speciesNamed } from "../../kernel-helpers/src/fish";
import {
  compareFits,
  fitLogistic,
  fitRamp,
  heldByRack,
  leaveOneOut,
  logistic,
  measureOfSpecies,
  ramp,
  type TrialFish,
} from "../../kernel-helpers/src/protection";
import { fitBinomial } from "../../kernel-helpers/src/statistics";
import { endlessTrial } from "../recovery/trials";
import { demoTrial } from "./demoTrial";

const trialFishMet = demoTrial.fish;

/** The likelihood written out, fish by fish. */
const likelihood = (fish: readonly (TrialFish & { held: boolean })[], share: (w: number) => number): number =>
  fish.reduce((sum, { relativeWidth: w, held }) => sum + Math.log(held ? share(w) : 1 - share(w)), 0);

/** Counts that a ramp of threshold 0.2 and exponent 1 goes through. */
const throughRamp: readonly TrialFish[] = [0.4, 0.6, 0.8].map((relativeWidth, at) => ({
  relativeWidth,
  held: 5 + 5 * at,
  fish: 20,
}));

const refusing = (one: TrialFish) => () => fitRamp({ fish: [...throughRamp, one] });

/** So many of ten held at three relative widths. */
const tens = (held: readonly number[]): TrialFish[] =>
  held.map((count, at) => ({ relativeWidth: 0.4 + 0.2 * at, held: count, fish: 10 }));

const sevenSteep = (relativeWidth: number) =>
  logistic.evaluate({ relativeWidth, midpoint: 0.6, steepness: 7 });

describe("the trial of the demo plant", () => {
  test("inactive fish are left out, and impinged ones are held, left out or not protected as asked", () => {
    const fish = trialFish();
    const inactive = fish.filter((one) => one.outcome === "inactive").length;
    const impinged = fish.filter((one) => one.outcome === "impinged").length;
    expect(demoTrial).toMatchObject({ inactive, impinged });
    expect(trialFishMet).toHaveLength(fish.length - inactive);
    expect(heldByRack({ fish, impinged: "leftOut" }).fish).toHaveLength(fish.length - inactive - impinged);
    const strict = heldByRack({ fish, impinged: "notProtected" }).fish;
    expect(strict.filter((one) => one.held)).toHaveLength(
      trialFishMet.filter((one) => one.held).length - impinged,
    );
    expect(() => heldByRack({ fish: [{ relativeWidth: 1, outcome: "lost" }] })).toThrow(
      'fish[0].outcome is "lost"; it must be bypassed, rackPassed, refused, impinged or inactive.',
    );
  });

  test("fish of one cluster have no design effect, and the fit says so", () => {
    const one = throughRamp.map((fish) => ({ ...fish, cluster: "R1" }));
    const { designEffect, cautions } = fitLogistic({ fish: one });
    expect(designEffect).toBeUndefined();
    expect(cautions.join()).toContain("All fish are of one cluster");
  });

  test("the ramp's truth lies in the intervals, though silver eels and runs lie outside the family", () => {
    const { parameters, clusters, designEffect, fish } = fitRamp({ fish: trialFishMet });
    for (const name of ["threshold", "exponent"] as const) {
      expect(parameters[name].lower).toBeLessThanOrEqual(trialTruth[name]);
      expect(parameters[name].upper).toBeGreaterThanOrEqual(trialTruth[name]);
    }
    expect(fish).toBe(trialFishMet.length);
    expect(clusters).toBe(new Set(trialFishMet.map((one) => one.cluster)).size);
    expect(designEffect).toBeGreaterThan(1.1);
    expect(parameters.exponent.upper - parameters.exponent.lower).toBeGreaterThan(
      parameters.exponent.ifIndependent.upper - parameters.exponent.ifIndependent.lower,
    );
  });

  test("the ramp found is likelier than every other on a fine grid", () => {
    const fit = fitRamp({ fish: trialFishMet });
    expect(likelihood(trialFishMet, fit.share)).toBeCloseTo(fit.logLikelihood, 6);
    for (let threshold = 0; threshold < 0.23; threshold += 0.005) {
      for (let exponent = 0.3; exponent < 1.6; exponent += 0.05) {
        const share = (relativeWidth: number) => ramp.evaluate({ relativeWidth, threshold, exponent });
        expect(likelihood(trialFishMet, share)).toBeLessThanOrEqual(fit.logLikelihood + 1e-9);
      }
    }
  });

  test("impinged fish wider than the gap break the plain ramp, and the share that passes anyway takes them up", () => {
    const strict = heldByRack({
      fish: trialFish().map((fish) => ({ ...fish, cluster: fish.runId })),
      impinged: "notProtected",
    }).fish;
    const wide = strict.filter((one) => one.relativeWidth >= 1);
    expect(wide.some((one) => !one.held)).toBe(true);
    expect(() => fitRamp({ fish: strict })).toThrow(
      `protection.fitRamp: ${wide.filter((one) => !one.held).length} fish of relative width 1 or more passed the rack`,
    );
    const { passedAnyway } = fitRamp({ fish: strict, passedAnyway: true }).parameters;
    const share = wide.filter((one) => !one.held).length / wide.length;
    expect(passedAnyway?.lower).toBeLessThan(share);
    expect(passedAnyway?.upper).toBeGreaterThan(share);
  });

  test("perch meet the gap with their height, all others with their width", () => {
    const fish = trialFishMet.map((one) => {
      const { widthRatio, heightRatio } = speciesNamed(one.species);
      const over = one.totalLength / one.clearSpacing;
      return { ...one, relativeWidth: widthRatio * over, relativeHeight: heightRatio * over };
    });
    for (const family of ["logistic", "ramp"] as const) {
      const { species } = measureOfSpecies({ fish, family });
      expect(Object.fromEntries(species.map((one) => [one.species, one.better]))).toEqual(
        Object.fromEntries(trialSpecies.map((name) => [name, name === "perch" ? "height" : "width"])),
      );
      for (const { aicDifference } of species) expect(Math.abs(aicDifference)).toBeGreaterThan(10);
    }
  });

  test("silver eels lie off the curve of the others, less protected, and no other species does", () => {
    for (const family of ["ramp", "logistic"] as const) {
      const { species } = leaveOneOut({ fish: trialFishMet, family });
      expect(species.filter((one) => one.offTheCurve).map((one) => one.species)).toEqual(["silver eel"]);
      expect(species.find((one) => one.species === "silver eel")?.difference).toBeLessThan(-0.1);
    }
  });

  test("the ramp explains the fish better than the S-shaped curve", () => {
    const compared = compareFits({
      ramp: fitRamp({ fish: trialFishMet }),
      logistic: fitLogistic({ fish: trialFishMet }),
    });
    expect(compared.fits[0].name).toBe("ramp");
    expect(compared.fits[1].quasiDifference).toBeGreaterThan(2);
    expect(compared.fits.reduce((sum, one) => sum + one.weight, 0)).toBeCloseTo(1, 12);
  });
});

describe("fitLogistic", () => {
  test("gives midpoint and steepness of the binomial regression, an independent route", () => {
    const fit = fitLogistic({ fish: trialFishMet });
    const regression = fitBinomial({
      successes: trialFishMet.map((one) => (one.held ? 1 : 0)),
      trials: trialFishMet.map(() => 1),
      terms: { width: trialFishMet.map((one) => one.relativeWidth) },
      link: "logit",
    });
    const [intercept, slope] = regression.coefficients;
    expect(fit.values.steepness).toBeCloseTo(slope.estimate, 4);
    expect(fit.values.midpoint).toBeCloseTo(-intercept.estimate / slope.estimate, 5);
    expect(fit.parameters.steepness.standardError).toBeCloseTo(slope.standardError, 3);
    expect(fit.logLikelihood).toBeCloseTo(regression.logLikelihood, 6);
    expect(fit.aic).toBeCloseTo(regression.aic, 6);
  });

  test("fits a million fish a class as well as twenty", () => {
    const { values } = fitLogistic({ fish: endlessTrial({ share: sevenSteep }) });
    expect(values.midpoint).toBeCloseTo(0.6, 4);
    expect(values.steepness).toBeCloseTo(7, 3);
  });

  test("says why no rising curve fits", () => {
    expect(() => fitLogistic({ fish: tens([8, 5, 2]) })).toThrow("no rising curve fits them");
    expect(() => fitLogistic({ fish: tens([0, 0, 10]) })).toThrow("a jump there explains all");
    expect(() => fitLogistic({ fish: tens([10, 10, 10]) })).toThrow("30 of 30 fish were held");
    expect(() => fitLogistic({ fish: tens([9, 9, 10]) })).toThrow("the midpoint came out at");
  });
});

describe("fitRamp", () => {
  const exact = throughRamp;

  test("recovers a ramp through its counts", () => {
    const { values, cautions } = fitRamp({ fish: exact });
    expect(values.threshold).toBeCloseTo(0.2, 4);
    expect(values.exponent).toBeCloseTo(1, 4);
    expect(cautions).toEqual([
      "No clusters were named: the intervals take every fish for independent, and are too narrow where fish swam in groups.",
    ]);
  });

  test("a fish held however slim sets the threshold, unless such fish have a share of their own", () => {
    const drifting: TrialFish[] = [...exact, { relativeWidth: 0.05, held: 2, fish: 20 }];
    expect(fitRamp({ fish: drifting }).values.threshold).toBeLessThan(0.05);
    const { heldAnyway, threshold } = fitRamp({ fish: drifting, heldAnyway: true }).values;
    expect(heldAnyway).toBeCloseTo(0.1, 1);
    expect(threshold).toBeGreaterThan(0.15);
  });

  test("says what a ramp can't explain", () => {
    expect(() => fitRamp({ fish: [...exact, { relativeWidth: 1.2, held: 19, fish: 20 }] })).toThrow(
      "1 fish of relative width 1 or more passed the rack, which a ramp holds for impossible",
    );
    expect(() => fitRamp({ fish: [...exact, { relativeWidth: 0, held: 1, fish: 20 }] })).toThrow(
      "1 fish of relative width 0 were held",
    );
    expect(() =>
      fitRamp({
        fish: [
          { relativeWidth: 0.5, held: 0, fish: 9 },
          { relativeWidth: 1.2, held: 9, fish: 9 },
        ],
      }),
    ).toThrow("a jump there explains all");
  });

  test("is no fit where a jump explains more than any curve with shares that go against it", () => {
    const jump: TrialFish[] = [
      { relativeWidth: 0.3, held: 2, fish: 10 },
      { relativeWidth: 0.5, held: 2, fish: 10 },
      { relativeWidth: 0.7, held: 10, fish: 10 },
      { relativeWidth: 0.9, held: 10, fish: 10 },
    ];
    expect(() => fitRamp({ fish: jump, heldAnyway: true })).toThrow(
      "a jump between the relative widths 0.5 and 0.7 explains the fish better than any curve",
    );
    expect(fitRamp({ fish: jump }).values.exponent).toBeGreaterThan(0.2);
  });

  test("refuses rows that are no fish", () => {
    expect(refusing({ relativeWidth: -0.1, held: true })).toThrow(
      "fish[3].relativeWidth is -0.1; it must be at least 0.",
    );
    expect(refusing({ relativeWidth: 0.1, held: 3 })).toThrow(
      "fish[3].held is 3; it must be true or false, or come with fish.",
    );
    expect(refusing({ relativeWidth: 0.1, held: 3, fish: 2 })).toThrow(
      "fish[3].held is 3; it must be a whole number from 0 to 2.",
    );
    expect(refusing({ relativeWidth: 0.1, held: true, fish: 2 })).toThrow("held must be a number too");
    expect(refusing({ relativeWidth: 0.1, held: true, cluster: "A" })).toThrow(
      "1 of 4 rows name their cluster",
    );
    expect(() => fitRamp({ fish: [] })).toThrow("fish is empty");
    expect(() => fitRamp({ fish: exact, level: 95 })).toThrow("level is 95");
  });
});
