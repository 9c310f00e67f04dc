import { statistics } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const { fitBinomial, likelihoodRatio } = statistics;

/** Estimates and errors, rounded as a source prints them. */
const printedCoefficients = (
  fit: statistics.BinomialFit,
  decimals: number,
): readonly (readonly [number, number])[] =>
  fit.coefficients.map(({ estimate, standardError }) => [
    Number(estimate.toFixed(decimals)),
    Number(standardError.toFixed(decimals)),
  ]);

const repeated = (words: readonly string[], times: number): readonly string[] =>
  words.flatMap((word) => Array.from({ length: times }, () => word));

describe("trout eggs at five places, dug out after four times (data Manly 1978; fit Faraway, Extending the Linear Model with R; printed, read in a reader's transcript of its R session)", () => {
  const eggs = {
    successes: [89, 94, 77, 141, 106, 91, 87, 104, 119, 100, 88, 91, 104, 80, 67, 111, 49, 11, 18, 0],
    trials: [94, 98, 86, 155, 108, 106, 96, 122, 123, 130, 119, 125, 104, 97, 99, 132, 93, 113, 88, 138],
  };
  const location = repeated(["1", "2", "3", "4", "5"], 4);
  const period = Array.from({ length: 5 }, () => ["4", "7", "8", "11"]).flat();
  const fit = fitBinomial({ ...eggs, terms: { location, period }, link: "logit" });

  test("coefficients and errors", () => {
    expect(printedCoefficients(fit, 4)).toEqual([
      [4.6358, 0.2813],
      [-0.4168, 0.2461],
      [-1.2421, 0.2194],
      [-0.9509, 0.2288],
      [-4.6138, 0.2502],
      [-2.1702, 0.2384],
      [-2.3256, 0.2429],
      [-2.45, 0.2341],
    ]);
  });

  test("both deviances, Akaike's criterion, and the dispersion of 5.330", () => {
    expect(fit.nullDeviance).toBeCloseTo(1021.469, 3);
    expect(fit.nullDegreesOfFreedom).toBe(19);
    expect(fit.deviance).toBeCloseTo(64.495, 3);
    expect(fit.degreesOfFreedom).toBe(12);
    expect(fit.aic).toBeCloseTo(157.03, 2);
    // Two ways to compute it are printed: 5.330322 and 5.330358.
    expect(fit.dispersion).toBeCloseTo(5.33032, 4);
  });

  test("errors by quasi-likelihood", () => {
    const errors = fit.coefficients.map(({ quasiStandardError = NaN }) =>
      Number(quasiStandardError.toFixed(4)),
    );
    expect(errors).toEqual([0.6495, 0.5682, 0.5066, 0.5281, 0.5777, 0.5504, 0.5609, 0.5405]);
  });
});

describe("age at menarche of girls in Warsaw (data Milicer & Szczotka 1966, from memory of the R package MASS; fit Venables & Ripley, section 7.2; printed in several transcripts)", () => {
  const age = [
    9.21, 10.21, 10.58, 10.83, 11.08, 11.33, 11.58, 11.83, 12.08, 12.33, 12.58, 12.83, 13.08, 13.33, 13.58,
    13.83, 14.08, 14.33, 14.58, 14.83, 15.08, 15.33, 15.58, 15.83, 17.58,
  ];
  const fit = fitBinomial({
    successes: [
      0, 0, 0, 2, 2, 5, 10, 17, 16, 29, 39, 51, 47, 67, 81, 88, 79, 90, 113, 95, 117, 107, 92, 112, 1049,
    ],
    trials: [
      376, 200, 93, 120, 90, 88, 105, 111, 100, 93, 100, 108, 99, 106, 105, 117, 98, 97, 120, 102, 122, 111,
      94, 114, 1049,
    ],
    terms: { age },
    link: "logit",
  });

  test("coefficients, errors and deviances", () => {
    expect(fit.coefficients.map(({ estimate }) => Number(estimate.toFixed(5)))).toEqual([-21.22639, 1.63197]);
    // R stops a pass earlier: its error of the intercept reads 0.77068, the settled one 0.77069.
    expect(Math.abs(fit.coefficients[0].standardError - 0.77068)).toBeLessThan(2e-5);
    expect(fit.coefficients[1].standardError).toBeCloseTo(0.05895, 5);
    expect(fit.nullDeviance).toBeCloseTo(3693.884, 3);
    expect(fit.deviance).toBeCloseTo(26.703, 2);
    expect(fit.aic).toBeCloseTo(114.76, 1);
  });
});

describe("snoring and heart disease (data Norton & Dunn 1985; fit Agresti, Categorical Data Analysis; printed in an R companion to the book)", () => {
  test("coefficients, errors, deviances and Akaike's criterion", () => {
    const fit = fitBinomial({
      successes: [24, 35, 21, 30],
      trials: [1379, 638, 213, 254],
      terms: { scores: [0, 2, 4, 5] },
      link: "logit",
    });
    expect(printedCoefficients(fit, 5)).toEqual([
      [-3.86625, 0.16621],
      [0.39734, 0.05001],
    ]);
    expect(fit.nullDeviance).toBeCloseTo(65.9045, 4);
    expect(fit.deviance).toBeCloseTo(2.8089, 4);
    expect(fit.aic).toBeCloseTo(27.061, 3);
  });
});

describe("germinating seeds, two kinds and two root extracts (data Crowder 1978, table 3, from memory; binomial fit printed in a public R session)", () => {
  const successes = [10, 23, 23, 26, 17, 5, 53, 55, 32, 46, 10, 8, 10, 8, 23, 0, 3, 22, 15, 32, 3];
  const trials = [39, 62, 81, 51, 39, 6, 74, 72, 51, 79, 13, 16, 30, 28, 45, 4, 12, 41, 30, 51, 7];
  const isSeed73 = trials.map((_, row) => (row < 11 ? 0 : 1));
  const isCucumber = trials.map((_, row) => ((row >= 5 && row < 11) || row >= 16 ? 1 : 0));

  test("coefficients and errors with the interaction", () => {
    const fit = fitBinomial({
      successes,
      trials,
      terms: {
        isSeed73,
        isCucumber,
        both: isSeed73.map((value, row) => value * isCucumber[row]),
      },
      link: "logit",
    });
    expect(printedCoefficients(fit, 4)).toEqual([
      [-0.5582, 0.126],
      [0.1459, 0.2232],
      [1.3182, 0.1775],
      [-0.7781, 0.3064],
    ]);
    expect(fit.deviance).toBeCloseTo(33.278, 3);
  });
});

describe("classic fits whose data and results are from memory of the books", () => {
  test("senility and test score (Dobson, An Introduction to Generalized Linear Models, section 7.8)", () => {
    const score = [
      9, 13, 6, 8, 10, 4, 14, 8, 11, 7, 9, 7, 5, 14, 13, 16, 10, 12, 11, 14, 15, 18, 7, 16, 9, 9, 11, 13, 15,
      13, 10, 11, 6, 17, 14, 19, 9, 11, 14, 10, 16, 10, 16, 14, 13, 13, 9, 15, 10, 11, 12, 4, 14, 20,
    ];
    const fit = fitBinomial({
      successes: score.map((_, row) => (row < 14 ? 1 : 0)),
      trials: score.map(() => 1),
      terms: { score },
      link: "logit",
    });
    expect(printedCoefficients(fit, 3)).toEqual([
      [2.404, 1.192],
      [-0.324, 0.114],
    ]);
    expect(fit.deviance).toBeCloseTo(51.017, 3);
  });

  test("anthers, storage and centrifuging force (Dobson, section 7.4): deviances 10.452, 8.092 and 2.619", () => {
    const anthers = {
      successes: [55, 52, 57, 55, 50, 50],
      trials: [102, 99, 108, 76, 81, 90],
      link: "logit",
    } as const;
    const force = [40, 150, 350, 40, 150, 350].map(Math.log);
    const storage = repeated(["control", "treatment"], 3);
    const parallel = fitBinomial({ ...anthers, terms: { storage, force } });
    const one = fitBinomial({ ...anthers, terms: { force } });
    expect(parallel.nullDeviance).toBeCloseTo(10.452, 3);
    expect(one.deviance).toBeCloseTo(8.092, 3);
    expect(parallel.deviance).toBeCloseTo(2.619, 3);
    expect(printedCoefficients(parallel, 3)).toEqual([
      [0.877, 0.487],
      [0.407, 0.175],
      [-0.155, 0.097],
    ]);
    expect(likelihoodRatio(one, parallel).statistic).toBeCloseTo(8.092 - 2.619, 2);
  });

  test("zidovudine and race (Agresti, Categorical Data Analysis, section 5.4)", () => {
    const fit = fitBinomial({
      successes: [14, 32, 11, 12],
      trials: [107, 113, 63, 55],
      terms: { race: ["white", "white", "black", "black"], treated: ["yes", "no", "yes", "no"] },
      levels: { race: ["black", "white"], treated: ["no", "yes"] },
      link: "logit",
    });
    expect(printedCoefficients(fit, 4)).toEqual([
      [-1.0736, 0.2629],
      [0.0555, 0.2886],
      [-0.7195, 0.279],
    ]);
    expect(fit.deviance).toBeCloseTo(1.3835, 4);
  });

  test("vasoconstriction (Finney 1947; fit Pregibon 1981, Ann. Statist. 9:705): deviance 29.23", () => {
    const volume = [
      3.7, 3.5, 1.25, 0.75, 0.8, 0.7, 0.6, 1.1, 0.9, 0.9, 0.8, 0.55, 0.6, 1.4, 0.75, 2.3, 3.2, 0.85, 1.7, 1.8,
      0.4, 0.95, 1.35, 1.5, 1.6, 0.6, 1.8, 0.95, 1.9, 1.6, 2.7, 2.35, 1.1, 1.1, 1.2, 0.8, 0.95, 0.75, 1.3,
    ];
    const rate = [
      0.825, 1.09, 2.5, 1.5, 3.2, 3.5, 0.75, 1.7, 0.75, 0.45, 0.57, 2.75, 3, 2.33, 3.75, 1.64, 1.6, 1.415,
      1.06, 1.8, 2, 1.36, 1.35, 1.36, 1.78, 1.5, 1.5, 1.9, 0.95, 0.4, 0.75, 0.03, 1.83, 2.2, 2, 3.33, 1.9,
      1.9, 1.625,
    ];
    const constricted = [
      1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 0, 1, 0, 0, 0, 0, 1, 0, 1, 0, 1, 0, 1, 0, 0, 1, 1,
      1, 0, 0, 1,
    ];
    const fit = fitBinomial({
      successes: constricted,
      trials: constricted.map(() => 1),
      terms: { volume: volume.map(Math.log), rate: rate.map(Math.log) },
      link: "logit",
    });
    expect(fit.coefficients.map(({ estimate }) => Number(estimate.toFixed(3)))).toEqual([
      -2.875, 5.179, 4.562,
    ]);
    expect(fit.deviance).toBeCloseTo(29.23, 2);
  });
});
