// Data and printed results from memory of the sources; both were recomputed with NumPy 2.4.6 and SciPy 1.17.1 from the
// textbook definitions.
import { statistics } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const { fitBinomial, betaBinomial, logRank, fitLeastSquares } = statistics;

describe("toxoplasmosis and rain in 34 cities of El Salvador (Efron 1986, J. Am. Stat. Assoc. 81:709; clusters of 1 to 82)", () => {
  const positive = [
    2, 3, 1, 3, 2, 3, 2, 7, 3, 8, 7, 0, 15, 4, 0, 6, 0, 33, 4, 5, 2, 0, 8, 41, 24, 7, 46, 9, 23, 53, 8, 3, 1,
    23,
  ];
  const tested = [
    4, 10, 5, 10, 2, 5, 8, 19, 6, 10, 24, 1, 30, 22, 1, 11, 1, 54, 9, 18, 12, 1, 11, 77, 51, 16, 82, 13, 43,
    75, 13, 10, 6, 37,
  ];
  const rain = [
    1735, 1936, 2000, 1973, 1750, 1800, 1750, 2077, 1920, 1800, 2050, 1830, 1650, 2200, 2000, 1770, 1920,
    1770, 2240, 1620, 1756, 1650, 2250, 1796, 1890, 1871, 2063, 2100, 1918, 1834, 1780, 1900, 1976, 2292,
  ];

  test("the cubic logit has a deviance of 62.63 on 30 degrees of freedom, none but an intercept 74.21 on 33", () => {
    const fit = fitBinomial({
      successes: positive,
      trials: tested,
      terms: { rain, square: rain.map((mm) => mm ** 2), cube: rain.map((mm) => mm ** 3) },
      link: "logit",
    });
    expect(fit.deviance).toBeCloseTo(62.6346, 4);
    expect(fit.nullDeviance).toBeCloseTo(74.2119, 4);
    expect([fit.degreesOfFreedom, fit.nullDegreesOfFreedom]).toEqual([30, 33]);
    expect(fit.dispersion).toBeCloseTo(1.94044, 5);
  });

  test("the cities' beta-binomial is that of a second program (recomputed)", () => {
    const clusters = tested.map((trials, at) => ({ trials, successes: positive[at] }));
    const fit = betaBinomial({ clusters });
    expect(fit.mean.estimate).toBeCloseTo(0.470714, 6);
    expect(fit.intraclassCorrelation?.estimate).toBeCloseTo(0.059692, 6);
    expect(fit.logLikelihood).toBeCloseTo(-75.2356279, 6);
  });
});

test("admissions at Berkeley, men and women of six departments (Bickel et al. 1975, Science 187:398; deviances in Agresti, Categorical Data Analysis: 20.20 and 21.74)", () => {
  const terms = {
    gender: ["A", "B", "C", "D", "E", "F"].flatMap(() => ["men", "women"]),
    department: ["A", "B", "C", "D", "E", "F"].flatMap((name) => [name, name]),
  };
  const counts = {
    successes: [512, 89, 353, 17, 120, 202, 138, 131, 53, 94, 22, 24],
    trials: [825, 108, 560, 25, 325, 593, 417, 375, 191, 393, 373, 341],
    link: "logit",
  } as const;
  const both = fitBinomial({ ...counts, terms });
  const { department } = terms;
  const departments = fitBinomial({ ...counts, terms: { department } });
  expect([both.deviance.toFixed(2), both.degreesOfFreedom]).toEqual(["20.20", 5]);
  expect([departments.deviance.toFixed(2), departments.degreesOfFreedom]).toEqual(["21.74", 6]);
  expect(both.nullDeviance).toBeCloseTo(877.056, 3);
});

test("days to cancer of two groups of rats (Pike 1966, Biometrics 22:142; ties and censoring in both): log-rank 3.12, p = 0.077", () => {
  const first = [
    143, 164, 188, 188, 190, 192, 206, 209, 213, 216, 220, 227, 230, 234, 246, 265, 304, 216, 244,
  ];
  const second = [
    142, 156, 163, 198, 205, 232, 232, 233, 233, 233, 233, 239, 240, 261, 280, 280, 296, 296, 323, 204, 344,
  ];
  const { statistic, pValue } = logRank([
    { name: "first", times: first, observed: first.map((_, at) => at < 17) },
    { name: "second", times: second, observed: second.map((_, at) => at < 19) },
  ]);
  expect(statistic).toBeCloseTo(3.1227, 4);
  expect(pValue).toBeCloseTo(0.0772, 4);
});

const shown = ({ parameters }: { readonly parameters: readonly statistics.CurveParameter[] }): string[] =>
  parameters.flatMap(({ estimate, standardError }) => [
    estimate.toPrecision(4),
    standardError.toPrecision(4),
  ]);

describe("two curves of Bates & Watts 1988, Nonlinear Regression Analysis and Its Applications", () => {
  test("puromycin: 212.7 (6.947), 0.06412 (0.008281), residual standard error 10.93 on 10", () => {
    const fit = fitLeastSquares({
      x: [0.02, 0.02, 0.06, 0.06, 0.11, 0.11, 0.22, 0.22, 0.56, 0.56, 1.1, 1.1],
      y: [76, 47, 97, 107, 123, 139, 159, 152, 191, 201, 207, 200],
      model: ({ most, half }, x) => (most * x) / (half + x),
      start: { most: 200, half: 0.05 },
    });
    expect(shown(fit)).toEqual(["212.7", "6.947", "0.06412", "0.008281"]);
    expect([fit.residualStandardError.toFixed(2), fit.degreesOfFreedom]).toEqual(["10.93", 10]);
  });

  test("oxygen demand: 19.14 (2.496), 0.5311 (0.2031), residual standard error 2.549 on 4", () => {
    const fit = fitLeastSquares({
      x: [1, 2, 3, 4, 5, 7],
      y: [8.3, 10.3, 19, 16, 15.6, 19.8],
      model: ({ most, rate }, x) => most * (1 - Math.exp(-rate * x)),
      start: { most: 20, rate: 0.2 },
    });
    expect(shown(fit)).toEqual(["19.14", "2.496", "0.5311", "0.2031"]);
    expect([fit.residualStandardError.toFixed(3), fit.degreesOfFreedom]).toEqual(["2.549", 4]);
  });
});
