import { statistics } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const { dose, fitBinomial, likelihoodRatio, predict } = statistics;

const estimates = (fit: statistics.BinomialFit): number[] => fit.coefficients.map(({ estimate }) => estimate);
const errors = (fit: statistics.BinomialFit): number[] =>
  fit.coefficients.map(({ standardError }) => standardError);

/** Rounded to so many decimals, as the numbers of a source are printed. */
const rounded = (values: readonly number[], decimals: number): number[] =>
  values.map((value) => Number(value.toFixed(decimals)));

describe("beetle mortality (data Bliss 1935, Ann. Appl. Biol. 22:134; fits Dobson, An Introduction to Generalized Linear Models)", () => {
  const beetles = {
    successes: [6, 13, 18, 28, 52, 53, 61, 60],
    trials: [59, 60, 62, 56, 63, 59, 62, 60],
    terms: { dose: [1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.861, 1.8839] },
  };

  test("logit: coefficients, errors and deviance (printed, six decimals: P. K. Dunn's course pages on generalised linear models)", () => {
    const fit = fitBinomial({ ...beetles, link: "logit" });
    expect(rounded(estimates(fit), 6)).toEqual(rounded([-60.717455, 34.270326], 6));
    // The printed errors come from the pass before the last; they agree to five digits.
    expect(rounded(errors(fit), 4)).toEqual(rounded([5.180701, 2.912134], 4));
    expect(fit.deviance).toBeCloseTo(11.232231, 6);
    expect(fit.degreesOfFreedom).toBe(6);
  });

  test("probit: deviance, and coefficients with errors from memory of the book", () => {
    const fit = fitBinomial({ ...beetles, link: "probit" });
    expect(fit.deviance).toBeCloseTo(10.1198, 4);
    expect(rounded(estimates(fit), 3)).toEqual(rounded([-34.935, 19.728], 3));
    expect(rounded(errors(fit), 3)).toEqual(rounded([2.648, 1.487], 3));
  });

  test("complementary log-log: deviance, and coefficients with errors from memory of the book", () => {
    const fit = fitBinomial({ ...beetles, link: "cloglog" });
    expect(fit.deviance).toBeCloseTo(3.4464, 4);
    expect(rounded(estimates(fit), 3)).toEqual(rounded([-39.572, 22.041], 3));
    expect(rounded(errors(fit), 3)).toEqual(rounded([3.24, 1.799], 3));
  });

  test("the dose that kills half, and its delta-method error (B. M. Greenwell's tests of inverse estimation; printed)", () => {
    const half = dose(fitBinomial({ ...beetles, link: "logit" }), { response: 0.5, covariate: "dose" });
    expect(half.estimate).toBeCloseTo(1.77172, 5);
    expect(half.standardError).toBeCloseTo(0.003858052, 7);
  });
});

describe("insects under five concentrations (data Bliss 1935; fits Faraway, Extending the Linear Model with R; printed in course pages of the National Tsing Hua University)", () => {
  const insects = {
    successes: [2, 8, 15, 23, 27],
    trials: [30, 30, 30, 30, 30],
    terms: { concentration: [0, 1, 2, 3, 4] },
  };

  test("coefficients, errors, both deviances and Akaike's criterion", () => {
    const fit = fitBinomial({ ...insects, link: "logit" });
    expect(rounded(estimates(fit), 6)).toEqual(rounded([-2.32379, 1.161895], 6));
    expect(rounded(errors(fit), 4)).toEqual(rounded([0.4179, 0.1814], 4));
    expect(fit.nullDeviance).toBeCloseTo(64.76327, 5);
    expect(fit.nullDegreesOfFreedom).toBe(4);
    expect(fit.deviance).toBeCloseTo(0.37875, 5);
    expect(fit.degreesOfFreedom).toBe(3);
    expect(fit.aic).toBeCloseTo(20.854, 3);
  });

  test.each([
    ["logit", [0.08917177, 0.23832314, 0.5, 0.76167686, 0.91082823]],
    ["probit", [0.08424186, 0.24487335, 0.4982721, 0.75239612, 0.91441122]],
    ["cloglog", [0.12727, 0.2496909, 0.454591, 0.7217655, 0.9327715]],
  ] as const)("fitted shares with the %s link", (link, printed) => {
    // R stops earlier than we do: its probit and cloglog shares carry that in the seventh digit.
    const decimals = link === "logit" ? 8 : 5;
    expect(rounded(fitBinomial({ ...insects, link }).fitted, decimals)).toEqual(rounded(printed, decimals));
  });

  test("at 2.5 an expected share of 64.13 %, with its interval on the logit scale (printed for ±1.96 errors)", () => {
    const { link, response } = predict(fitBinomial({ ...insects, link: "logit" }), {
      at: { concentration: 2.5 },
    });
    expect(response.estimate).toBeCloseTo(0.6413, 4);
    expect(link.lower).toBeCloseTo(0.1374005, 4);
    expect(link.upper).toBeCloseTo(1.0244944, 4);
  });
});

describe("tobacco budworm, two sexes (data Collett 1991, Modelling Binary Data; fit Venables & Ripley 2002, Modern Applied Statistics with S, section 7.2)", () => {
  const moths = {
    successes: [1, 4, 9, 13, 18, 20, 0, 2, 6, 10, 12, 16],
    trials: Array.from({ length: 12 }, () => 20),
  };
  const sex = ["M", "M", "M", "M", "M", "M", "F", "F", "F", "F", "F", "F"];
  const doublings = [0, 1, 2, 3, 4, 5, 0, 1, 2, 3, 4, 5];
  const fit = fitBinomial({
    ...moths,
    terms: { sex, doublings },
    levels: { sex: ["F", "M"] },
    link: "logit",
  });

  test.each([
    [0.25, 2.231265, 0.2499089],
    [0.5, 3.263587, 0.2297539],
    [0.75, 4.29591, 0.2746874],
  ])(
    "females: a share of %d is reached at %d doublings of the dose (error %d; printed)",
    (response, at, error) => {
      const found = dose(fit, { response, covariate: "doublings", at: { sex: "F" } });
      expect(found.estimate).toBeCloseTo(at, 6);
      expect(found.standardError).toBeCloseTo(error, 6);
    },
  );

  test("coefficients, errors and deviances (memory)", () => {
    expect(rounded(estimates(fit), 3)).toEqual(rounded([-3.473, 1.101, 1.0642], 3));
    expect(rounded(errors(fit), 4)).toEqual(rounded([0.4685, 0.3558, 0.1311], 4));
    expect(fit.deviance).toBeCloseTo(6.757, 3);
    expect(fit.nullDeviance).toBeCloseTo(124.876, 3);
  });

  test("the sexes differ: the deviance falls by 10.227 on one degree of freedom (memory)", () => {
    const withoutSex = fitBinomial({ ...moths, terms: { doublings }, link: "logit" });
    const found = likelihoodRatio(withoutSex, fit);
    expect(found.statistic).toBeCloseTo(10.227, 3);
    expect(found.degreesOfFreedom).toBe(1);
    expect(found.pValue).toBeCloseTo(0.0014, 4);
  });
});

describe("rotenone on chrysanthemum aphids (Finney 1971, Probit Analysis)", () => {
  test("probit slope 4.21 on the decimal logarithm; half die at 4.85 mg/l (printed)", () => {
    const fit = fitBinomial({
      successes: [44, 42, 24, 16, 6],
      trials: [50, 49, 46, 48, 50],
      terms: { logDose: [10.2, 7.7, 5.1, 3.8, 2.6].map(Math.log10) },
      link: "probit",
    });
    expect(fit.coefficients[1].estimate).toBeCloseTo(4.21, 2);
    expect(10 ** dose(fit, { response: 0.5, covariate: "logDose" }).estimate).toBeCloseTo(4.85, 2);
  });
});

describe("ring damage on 23 launches (Dalal, Fowlkes & Hoadley 1989, J. Am. Stat. Assoc. 84:945)", () => {
  test("logit coefficients and errors (memory, recomputed)", () => {
    const failed = [2, 9, 10, 11, 14, 21, 23];
    const temperature = [
      66, 70, 69, 68, 67, 72, 73, 70, 57, 63, 70, 78, 67, 53, 67, 75, 70, 81, 76, 79, 75, 76, 58,
    ];
    const fit = fitBinomial({
      successes: temperature.map((_, launch) => (failed.includes(launch + 1) ? 1 : 0)),
      trials: temperature.map(() => 1),
      terms: { temperature },
      link: "logit",
    });
    expect(rounded(estimates(fit), 4)).toEqual(rounded([15.0429, -0.2322], 4));
    expect(rounded(errors(fit), 4)).toEqual(rounded([7.3786, 0.1082], 4));
  });
});
