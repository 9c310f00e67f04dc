import { statistics } from "kernel-helpers";
import { describe, expect, it } from "vitest";

/** The two ends as a source prints them. */
const printed = ({ lower, upper }: { lower: number; upper: number }, decimals = 4): readonly string[] => [
  lower.toFixed(decimals),
  upper.toFixed(decimals),
];

type Row = readonly [method: (typeof statistics.proportionMethods)[number], lower: string, upper: string];

describe("a proportion's interval at 95 % (Newcombe 1998, Stat. Med. 17:857, table I; printed)", () => {
  const of81in263: readonly Row[] = [
    ["wilson", "0.2553", "0.3662"],
    ["wilsonCorrected", "0.2535", "0.3682"],
    ["clopperPearson", "0.2527", "0.3676"],
    ["midP", "0.2544", "0.3658"],
  ];
  it.each(of81in263)("81 of 263 by %s", (method, lower, upper) => {
    expect(printed(statistics.proportionInterval({ successes: 81, trials: 263, method }))).toEqual([
      lower,
      upper,
    ]);
  });

  const of0in20: readonly Row[] = [
    ["wilson", "0.0000", "0.1611"],
    ["wilsonCorrected", "0.0000", "0.2005"],
    ["clopperPearson", "0.0000", "0.1684"],
    ["midP", "0.0000", "0.1391"],
  ];
  it.each(of0in20)("0 of 20 by %s", (method, lower, upper) => {
    const got = statistics.proportionInterval({ successes: 0, trials: 20, method });
    expect(printed(got)).toEqual([lower, upper]);
    expect(got.lower).toBe(0);
  });
});

describe("further shares of the same table (Newcombe 1998, Stat. Med. 17:857, table I; printed, read at second hand)", () => {
  const table: readonly (readonly [successes: number, trials: number, ...Row])[] = [
    [15, 148, "wilson", "0.0624", "0.1605"],
    [15, 148, "wilsonCorrected", "0.0598", "0.1644"],
    [15, 148, "clopperPearson", "0.0578", "0.1617"],
    [15, 148, "midP", "0.0601", "0.1581"],
    [1, 29, "wilson", "0.0061", "0.1718"],
    [1, 29, "clopperPearson", "0.0009", "0.1776"],
    [1, 29, "midP", "0.0017", "0.1585"],
  ];
  it.each(table)("%i of %i by %s", (successes, trials, method, lower, upper) => {
    expect(printed(statistics.proportionInterval({ successes, trials, method }))).toEqual([lower, upper]);
  });
});

describe("7 of 50 by Clopper–Pearson (SciPy documentation, binomtest; printed)", () => {
  it("goes from 0.058191700340 to 0.267396002497", () => {
    const got = statistics.proportionInterval({ successes: 7, trials: 50, method: "clopperPearson" });
    expect(printed(got, 12)).toEqual(["0.058191700340", "0.267396002497"]);
  });
});

describe("a difference of two proportions (Newcombe 1998, Stat. Med. 17:873; printed)", () => {
  it("56 of 70 less 48 of 80 is 0.2000, from 0.0524 to 0.3339", () => {
    const got = statistics.differenceInterval({
      first: { successes: 56, trials: 70 },
      second: { successes: 48, trials: 80 },
    });
    expect(got.estimate).toBeCloseTo(0.2, 12);
    expect(printed(got)).toEqual(["0.0524", "0.3339"]);
  });
});

describe("all examples of the same comparison (Newcombe 1998, Stat. Med. 17:873, table II, method 10; printed, read at second hand)", () => {
  it.each([
    [9, 10, 3, 10, "0.1705", "0.8090"],
    [6, 7, 2, 7, "0.0582", "0.8062"],
    [5, 56, 0, 29, "-0.0381", "0.1926"],
    [0, 10, 0, 20, "-0.1611", "0.2775"],
    [0, 10, 0, 10, "-0.2775", "0.2775"],
    [10, 10, 0, 20, "0.6791", "1.0000"],
    [10, 10, 0, 10, "0.6075", "1.0000"],
  ] as const)("%i of %i less %i of %i", (first, firstTrials, second, secondTrials, lower, upper) => {
    const got = statistics.differenceInterval({
      first: { successes: first, trials: firstTrials },
      second: { successes: second, trials: secondTrials },
    });
    expect(printed(got)).toEqual([lower, upper]);
  });
});

describe("published counts of fish, Wilson's interval at 95 % (counts from the studies; intervals recomputed)", () => {
  const studies = [
    [
      "smolts in the bypass of an inclined rack (Tomanova et al. 2017)",
      193,
      239,
      80.7,
      0.1,
      "0.7528",
      "0.8525",
    ],
    ["bypass use by eel (Kjærås et al. 2023, J. Fish Biol. 102:465)", 38, 90, 42, 0.5, "0.3254", "0.5254"],
    ["deaths after rack passage (Calles et al. 2012)", 8, 22, 36, 0.5, "0.1973", "0.5705"],
  ] as const;
  it.each(studies)("%s: %i of %i, printed %d %%", (_, successes, trials, percentage, digit, lower, upper) => {
    const got = statistics.proportionInterval({ successes, trials });
    expect(Math.abs(100 * got.estimate - percentage)).toBeLessThan(digit);
    expect(printed(got)).toEqual([lower, upper]);
  });
});

/** Clusters from their sizes and successes, both as a source lists them. */
const clustersOf = (trials: readonly number[], successes: readonly number[]): readonly statistics.Cluster[] =>
  trials.map((size, at) => ({ trials: size, successes: successes[at] ?? Number.NaN }));

describe("litters (data of Weil 1970, from memory; recomputed from Rao & Scott 1992, Biometrics 48:577)", () => {
  const control = clustersOf(
    [13, 12, 9, 9, 8, 8, 13, 12, 10, 10, 9, 13, 5, 7, 10, 10],
    [13, 12, 9, 9, 8, 8, 12, 11, 9, 9, 8, 11, 4, 5, 7, 7],
  );
  const treated = clustersOf(
    [12, 11, 10, 9, 11, 10, 10, 9, 9, 5, 9, 7, 10, 6, 10, 7],
    [12, 11, 10, 9, 10, 9, 9, 8, 8, 4, 7, 4, 5, 3, 3, 0],
  );

  it.each([
    ["control", control, 0.898734, 0.029091, 1.232495],
    ["treated", treated, 0.772414, 0.372135, 3.952861],
  ] as const)(
    "%s: share, intra-class correlation and Rao–Scott effect",
    (_, clusters, share, correlation, effect) => {
      const { estimate, designEffect, effectFrom } = statistics.raoScott({ clusters });
      expect(estimate).toBeCloseTo(share, 6);
      expect(designEffect).toBeCloseTo(effect, 6);
      expect(effectFrom).toBe("estimated from the clusters");
      expect(statistics.intraclassCorrelation({ clusters })).toBeCloseTo(correlation, 6);
    },
  );

  it("the groups differ by less than the trials say that are taken for independent", () => {
    const groups = [
      { name: "control", clusters: control },
      { name: "treated", clusters: treated },
    ];
    const { pValue, unadjusted } = statistics.raoScottComparison({ groups });
    expect(unadjusted.pValue).toBeLessThan(0.005);
    expect(pValue).toBeGreaterThan(0.01);
  });
});

describe("beta-binomial fits of germinating seeds (Crowder 1978, Appl. Statist. 27:34; printed, read at second hand)", () => {
  // Seeds in 16 batches at three dilutions: the paper's table 1 as the R package aod carries it, and the paper's results
  // as the vignette of the R package bbmle quotes them.
  const dilutions = [
    { name: "1/1", clusters: clustersOf([43, 51, 44, 71, 24, 7], [2, 9, 5, 16, 2, 0]) },
    { name: "1/25", clusters: clustersOf([19, 56, 87, 55, 10], [17, 43, 79, 50, 9]) },
    { name: "1/625", clusters: clustersOf([13, 62, 104, 51, 11], [11, 47, 90, 46, 9]) },
  ];
  const comparison = statistics.betaBinomialComparison({ groups: dilutions });

  it("a mean and a correlation for each dilution: log-likelihood −34.829", () => {
    const separate = dilutions.map(({ clusters }) => statistics.betaBinomial({ clusters }).logLikelihood);
    expect(separate.reduce((sum, one) => sum + one, 0)).toBeCloseTo(-34.829, 3);
  });

  it("a mean for each dilution, one correlation: log-likelihood −34.991, means 0.132, 0.871, 0.839", () => {
    expect(comparison.logLikelihood).toBeCloseTo(-34.991, 3);
    expect(comparison.groups.map(({ estimate }) => estimate.toFixed(3))).toEqual(["0.132", "0.871", "0.839"]);
  });

  it("α + β = 78.424 with one correlation", () => {
    const both = 1 / comparison.intraclassCorrelation.estimate - 1;
    // The paper's search stopped 0.0007 away from the maximum.
    expect(Math.abs(both - 78.424)).toBeLessThan(0.001);
  });

  it("standard errors of the means 0.027, 0.028, 0.032, within the difference of observed and expected information", () => {
    const printedErrors = [0.027, 0.028, 0.032];
    comparison.groups.forEach(({ standardError }, at) => {
      expect(Math.abs((standardError ?? Number.NaN) - (printedErrors[at] ?? Number.NaN))).toBeLessThan(0.002);
    });
  });

  it("one mean for all dilutions: log-likelihood −56.258", () => {
    expect(comparison.logLikelihoodTogether).toBeCloseTo(-56.258, 3);
    const clusters = dilutions.flatMap((one) => one.clusters);
    expect(statistics.betaBinomial({ clusters }).logLikelihood).toBeCloseTo(-56.258, 3);
  });
});
