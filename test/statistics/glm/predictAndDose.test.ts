import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dose } from "../../../kernel-helpers/src/statistics/glm/dose";
import { fitBinomial } from "../../../kernel-helpers/src/statistics/glm/fitBinomial";
import { predict } from "../../../kernel-helpers/src/statistics/glm/predict";

const runs = { successes: [3, 2, 4, 1, 0, 2, 3, 4], trials: [4, 4, 4, 4, 4, 4, 4, 4] };
const width = [0.3, 0.2, 0.7, 0.2, 0.1, 0.4, 0.5, 0.6];
const species = ["roach", "ide", "roach", "ide", "roach", "ide", "roach", "ide"];
const links = ["logit", "probit", "cloglog"] as const;

describe("predict", () => {
  test("at a row of the data gives the fitted share of that row", () => {
    const fit = fitBinomial({ ...runs, terms: { width, species }, link: "probit" });
    width.forEach((value, row) => {
      const { response } = predict(fit, { at: { width: value, species: species[row] } });
      expect(response.estimate).toBeCloseTo(fit.fitted[row], 12);
    });
  });

  test.each(links)("%s: a single group has the error of its share by hand", (link) => {
    const fit = fitBinomial({ successes: [12], trials: [40], terms: {}, link });
    const { response } = predict(fit, { at: {} });
    expect(response.estimate).toBeCloseTo(0.3, 10);
    expect(response.standardError).toBeCloseTo(Math.sqrt((0.3 * 0.7) / 40), 10);
  });

  test("the interval holds the share, stays within 0..1 and widens with the level", () => {
    const fit = fitBinomial({ ...runs, terms: { width }, link: "logit" });
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 5, noNaN: true }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        (at, level) => {
          const narrow = predict(fit, { at: { width: at }, level }).response;
          const wide = predict(fit, { at: { width: at }, level: level + 0.005 }).response;
          expect(narrow.lower).toBeGreaterThanOrEqual(0);
          expect(narrow.lower).toBeLessThanOrEqual(narrow.estimate);
          expect(narrow.estimate).toBeLessThanOrEqual(narrow.upper);
          expect(narrow.upper).toBeLessThanOrEqual(1);
          expect(wide.lower).toBeLessThanOrEqual(narrow.lower);
          expect(wide.upper).toBeGreaterThanOrEqual(narrow.upper);
        },
      ),
    );
  });

  test("quasi errors are the binomial ones times the root of the dispersion, with Student's t", () => {
    const fit = fitBinomial({ ...runs, terms: { width }, link: "logit" });
    const plain = predict(fit, { at: { width: 0.4 } });
    const quasi = predict(fit, { at: { width: 0.4 }, errors: "quasi" });
    expect(quasi.link.standardError / plain.link.standardError).toBeCloseTo(
      Math.sqrt(fit.dispersion ?? NaN),
      10,
    );
    // Student's t for 6 degrees of freedom, from a printed table.
    expect((quasi.link.upper - quasi.link.estimate) / quasi.link.standardError).toBeCloseTo(2.447, 3);
    expect(quasi.method).toMatch(/logit scale, quasi-likelihood errors, dispersion 0\.\d+/);
  });

  test("refuses values that the fit does not know", () => {
    const fit = fitBinomial({ ...runs, terms: { width, species }, link: "logit" });
    expect(() => predict(fit, { at: { width: 0.4 } })).toThrow(
      'statistics.predict: at has no value for species; give one of "roach", "ide".',
    );
    expect(() => predict(fit, { at: { width: 0.4, species: "eel" } })).toThrow(
      'statistics.predict: at.species is "eel"; it must be one of "roach", "ide".',
    );
    expect(() => predict(fit, { at: { width: NaN, species: "ide" } })).toThrow(
      /at.width is .*must be a finite number/,
    );
    expect(() => predict(fit, { at: { width: 1, species: "ide", depth: 2 } })).toThrow(
      "statistics.predict: at names depth, which is no term of the fit; its terms: width, species.",
    );
    expect(() => predict(fit, { at: { width: 1, species: "ide" }, level: 95 })).toThrow(/level is 95/);
  });

  test("refuses quasi errors where no degrees of freedom are left", () => {
    const fit = fitBinomial({ successes: [1, 3], trials: [4, 4], terms: { x: [1, 2] }, link: "logit" });
    expect(() => predict(fit, { at: { x: 1 }, errors: "quasi" })).toThrow(/no degrees of freedom left/);
  });
});

describe("dose", () => {
  test.each(links)("%s: predicting at the dose gives the response back", (link) => {
    const fit = fitBinomial({ ...runs, terms: { width, species }, link });
    for (const response of [0.05, 0.5, 0.9]) {
      const { estimate } = dose(fit, { response, covariate: "width", at: { species: "ide" } });
      expect(predict(fit, { at: { width: estimate, species: "ide" } }).response.estimate).toBeCloseTo(
        response,
        10,
      );
    }
  });

  test("Fieller's limits are the values at which the interval of the prediction just reaches the response", () => {
    const fit = fitBinomial({
      successes: [2, 8, 15, 23, 27],
      trials: [30, 30, 30, 30, 30],
      terms: { x: [0, 1, 2, 3, 4] },
      link: "logit",
    });
    const { fieller } = dose(fit, { response: 0.7, covariate: "x" });
    expect(predict(fit, { at: { x: fieller?.lower ?? NaN } }).response.upper).toBeCloseTo(0.7, 8);
    expect(predict(fit, { at: { x: fieller?.upper ?? NaN } }).response.lower).toBeCloseTo(0.7, 8);
  });

  test("many fish: Fieller's and the delta method's limits agree", () => {
    const fit = fitBinomial({
      successes: [2000, 8000, 15000, 23000, 27000],
      trials: [30000, 30000, 30000, 30000, 30000],
      terms: { x: [0, 1, 2, 3, 4] },
      link: "logit",
    });
    const { lower, upper, fieller } = dose(fit, { response: 0.5, covariate: "x" });
    expect(fieller?.lower).toBeCloseTo(lower, 5);
    expect(fieller?.upper).toBeCloseTo(upper, 5);
  });

  test("a slope that may be 0 leaves Fieller's interval undefined and says so", () => {
    const fit = fitBinomial({
      successes: [2, 3, 2, 3],
      trials: [5, 5, 5, 5],
      terms: { x: [1, 2, 3, 4] },
      link: "logit",
    });
    const { fieller, cautions } = dose(fit, { response: 0.5, covariate: "x" });
    expect(fieller).toBeUndefined();
    expect(cautions).toContain(
      "The slope with x is not told from 0 at this level, so the value has no finite interval.",
    );
  });

  test("a value outside the fitted ones is answered with a caution", () => {
    const fit = fitBinomial({ ...runs, terms: { width }, link: "logit" });
    expect(dose(fit, { response: 0.99, covariate: "width" }).cautions).toEqual([
      expect.stringMatching(/^width was fitted from 0.1 to 0.7; \d\.\d+ lies outside\.$/),
    ]);
    expect(dose(fit, { response: 0.5, covariate: "width" }).cautions).toEqual([]);
  });

  test("refuses a response outside 0..1 and a covariate that is none", () => {
    const fit = fitBinomial({ ...runs, terms: { width, species }, link: "logit" });
    const at = { species: "ide" };
    expect(() => dose(fit, { response: 1, covariate: "width", at })).toThrow(
      "statistics.dose: response is 1; it must be above 0 and below 1.",
    );
    expect(() => dose(fit, { response: 0.5, covariate: "species", at: { width: 1 } })).toThrow(
      'statistics.dose: covariate is "species"; it must be one of the fit\'s covariates: "width".',
    );
    expect(() => dose(fit, { response: 0.5, covariate: "width" })).toThrow(/at has no value for species/);
    expect(() => dose(fit, { response: 0.5, covariate: "width", at: { ...at, width: 1 } })).toThrow(
      /at gives width, the covariate that is asked for/,
    );
  });
});
