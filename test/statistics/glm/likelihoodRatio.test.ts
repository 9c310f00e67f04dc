import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitBinomial } from "../../../kernel-helpers/src/statistics/glm/fitBinomial";
import { likelihoodRatio } from "../../../kernel-helpers/src/statistics/glm/likelihoodRatio";

const runs = { successes: [3, 2, 4, 1, 1, 2, 3, 3], trials: [4, 4, 5, 4, 4, 4, 4, 4] };
const width = [0.3, 0.2, 0.7, 0.2, 0.1, 0.4, 0.5, 0.6];
const species = ["roach", "ide", "eel", "roach", "ide", "eel", "roach", "ide"];
const noEel = species.map((one) => (one === "eel" ? "eel" : "cyprinid"));

const fitted = (terms: Parameters<typeof fitBinomial>[0]["terms"], counts = runs) =>
  fitBinomial({ ...counts, terms, link: "logit" });

describe("likelihoodRatio", () => {
  test("is never below 0, and is twice the difference of the log-likelihoods", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 8, maxLength: 8 }), (successes) => {
        const counts = { successes, trials: successes.map(() => 4) };
        const [smaller, larger] = [fitted({ width }, counts), fitted({ width, species }, counts)];
        const { statistic, degreesOfFreedom, pValue } = likelihoodRatio(smaller, larger);
        expect(statistic).toBeGreaterThanOrEqual(0);
        expect(statistic).toBeCloseTo(2 * (larger.logLikelihood - smaller.logLikelihood), 8);
        expect(degreesOfFreedom).toBe(2);
        expect(pValue).toBeGreaterThanOrEqual(0);
        expect(pValue).toBeLessThanOrEqual(1);
      }),
    );
  });

  test("two degrees of freedom: the p-value is exp(−statistic/2)", () => {
    const { statistic, pValue } = likelihoodRatio(fitted({ width }), fitted({ width, species }));
    expect(pValue).toBeCloseTo(Math.exp(-statistic / 2), 12);
  });

  test("merged levels are nested in the levels they came from", () => {
    expect(likelihoodRatio(fitted({ noEel }), fitted({ species })).degreesOfFreedom).toBe(1);
  });

  test("quasi: the drop per degree of freedom over the dispersion; F with two degrees has a p-value by hand", () => {
    const [smaller, larger] = [fitted({ width }), fitted({ width, species })];
    const plain = likelihoodRatio(smaller, larger);
    const quasi = likelihoodRatio(smaller, larger, { errors: "quasi" });
    expect(quasi.statistic).toBeCloseTo(plain.statistic / 2 / (larger.dispersion ?? NaN), 10);
    // P(F > f) = (1 + 2f/n)^(−n/2) for 2 and n degrees of freedom.
    expect(quasi.pValue).toBeCloseTo((1 + (2 * quasi.statistic) / 4) ** -2, 12);
  });

  test("refuses fits that are not nested, in the wrong order, of other data or another link", () => {
    expect(() => likelihoodRatio(fitted({ width }), fitted({ species }))).toThrow(
      "statistics.likelihoodRatio: width of the first fit is not contained in the second; the fits are not nested.",
    );
    expect(() => likelihoodRatio(fitted({ width, species }), fitted({ width }))).toThrow(
      /the first fit has 4 coefficients and the second 2; give the fit with fewer first/,
    );
    const others = { ...runs, successes: [2, ...runs.successes.slice(1)] };
    expect(() => likelihoodRatio(fitted({}), fitted({ width }, others))).toThrow(/other successes or trials/);
    const probit = fitBinomial({ ...runs, terms: {}, link: "probit" });
    expect(() => likelihoodRatio(probit, fitted({ width }))).toThrow(/the links are probit and logit/);
  });
});
