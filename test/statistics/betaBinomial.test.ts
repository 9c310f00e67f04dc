import * as fc from "fast-check";
import { statistics } from "kernel-helpers";
import { lgamma } from "lib-r-math.js";
import { describe, expect, it } from "vitest";
import { uniforms } from "../../kernel-helpers/src/statistics/random";
import { anyClusters, clusters, drawClusters, informative } from "./clusters";

/** The log-likelihood in its textbook form, by gamma functions of α and β. */
function textbook(some: readonly statistics.Cluster[], mean: number, correlation: number): number {
  const both = 1 / correlation - 1;
  const [alpha, beta] = [mean * both, (1 - mean) * both];
  return some.reduce((sum, { successes: y, trials: n }) => {
    const orders = lgamma(n + 1) - lgamma(y + 1) - lgamma(n - y + 1);
    const drawn = lgamma(alpha + y) + lgamma(beta + n - y) - lgamma(both + n);
    return sum + orders + drawn + lgamma(both) - lgamma(alpha) - lgamma(beta);
  }, 0);
}

/** The parameters of a fit whose correlation is known. */
function parametersOf(
  fit: statistics.BetaBinomialFit,
): [mean: statistics.FittedParameter, correlation: statistics.FittedParameter] {
  if (fit.intraclassCorrelation === undefined) throw new Error("the correlation is unknown");
  return [fit.mean, fit.intraclassCorrelation];
}

const spread = clusters(
  [4, 4],
  [3, 4],
  [1, 4],
  [4, 4],
  [0, 4],
  [6, 7],
  [2, 9],
  [5, 5],
  [3, 3],
  [1, 2],
  [8, 8],
  [2, 6],
);

describe("statistics.betaBinomial", () => {
  const fit = statistics.betaBinomial({ clusters: spread });
  const [mean, correlation] = parametersOf(fit);

  it("has the log-likelihood of the textbook form", () => {
    expect(fit.logLikelihood).toBeCloseTo(textbook(spread, mean.estimate, correlation.estimate), 9);
  });

  it("lies above every point of a grid over mean and correlation", () => {
    fc.assert(
      fc.property(anyClusters.filter(informative), (some) => {
        const { logLikelihood } = statistics.betaBinomial({ clusters: some });
        const best = Math.max(
          ...Array.from({ length: 39 * 39 }, (_, at) =>
            textbook(some, (1 + (at % 39)) / 40, (1 + Math.floor(at / 39)) / 40),
          ),
        );
        expect(logLikelihood).toBeGreaterThanOrEqual(best - 1e-9);
      }),
      { numRuns: 40 },
    );
  });

  it("has the standard errors of the curvature of the textbook form", () => {
    const step = 1e-4;
    const at = (i: number, j: number) =>
      textbook(spread, mean.estimate + i * step, correlation.estimate + j * step);
    const byMean = (at(1, 0) - 2 * at(0, 0) + at(-1, 0)) / step ** 2;
    const byCorrelation = (at(0, 1) - 2 * at(0, 0) + at(0, -1)) / step ** 2;
    const byBoth = (at(1, 1) - at(1, -1) - at(-1, 1) + at(-1, -1)) / (4 * step ** 2);
    const determinant = byMean * byCorrelation - byBoth ** 2;
    expect(mean.standardError).toBeCloseTo(Math.sqrt(-byCorrelation / determinant), 5);
    expect(correlation.standardError).toBeCloseTo(Math.sqrt(-byMean / determinant), 5);
  });

  it("ends its intervals where the best likelihood has fallen by half of the chi-square quantile", () => {
    const height = fit.logLikelihood - 3.841458820694124 / 2;
    const fine = Array.from({ length: 1999 }, (_, at) => (at + 1) / 2000);
    for (const end of [mean.lower, mean.upper])
      expect(Math.max(...fine.map((rho) => textbook(spread, end, rho)))).toBeCloseTo(height, 3);
    for (const end of [correlation.lower, correlation.upper])
      expect(Math.max(...fine.map((share) => textbook(spread, share, end)))).toBeCloseTo(height, 3);
  });

  it("turns over when successes and failures change places", () => {
    const turned = statistics.betaBinomial({
      clusters: spread.map(({ successes, trials }) => ({ successes: trials - successes, trials })),
    });
    expect(turned.mean.estimate).toBeCloseTo(1 - mean.estimate, 9);
    expect(turned.mean.lower).toBeCloseTo(1 - mean.upper, 9);
    expect(parametersOf(turned)[1].estimate).toBeCloseTo(correlation.estimate, 9);
  });

  it("finds a small correlation in clusters of thousands", () => {
    const nights = clusters([5100, 10_000], [4700, 10_000], [5300, 10_000], [4900, 10_000], [5000, 10_000]);
    const [, small] = parametersOf(statistics.betaBinomial({ clusters: nights }));
    // Shares 0.47 to 0.53 spread by a variance of 0.0004: over 0.25, 0.0016, less the binomial part.
    expect(small.estimate).toBeGreaterThan(0.001);
    expect(small.estimate).toBeLessThan(0.002);
    expect(small.lower).toBeGreaterThan(0);
  });

  it("says where there is no spread beyond the binomial, and gives the binomial standard error", () => {
    const even = statistics.betaBinomial({ clusters: clusters([2, 4], [2, 4], [3, 4], [2, 4]) });
    expect(even.status).toBe("no spread beyond the binomial: the intra-class correlation is at 0");
    expect(even.intraclassCorrelation).toMatchObject({ estimate: 0, lower: 0, standardError: undefined });
    expect(even.mean.estimate).toBeCloseTo(9 / 16, 12);
    expect(even.mean.standardError).toBeCloseTo(Math.sqrt(((9 / 16) * (7 / 16)) / 16), 12);
  });

  it("says where every cluster is all or nothing, and counts clusters then", () => {
    const stark = statistics.betaBinomial({ clusters: clusters([4, 4], [0, 5], [3, 3]) });
    expect(stark.status).toBe("every cluster all or nothing: the intra-class correlation is at 1");
    expect(stark.intraclassCorrelation).toMatchObject({ estimate: 1, upper: 1, standardError: undefined });
    expect(stark.mean.estimate).toBeCloseTo(2 / 3, 12);
    expect(stark.logLikelihood).toBeCloseTo(2 * Math.log(2 / 3) + Math.log(1 / 3), 12);
  });

  it("says where every trial ended the same way, and gives the mean's interval over all correlations", () => {
    const sure = statistics.betaBinomial({ clusters: clusters([4, 4], [4, 4], [4, 4]) });
    expect(sure.status).toBe("every trial alike: the intra-class correlation is unknown");
    expect(sure.intraclassCorrelation).toBeUndefined();
    expect(sure.mean).toMatchObject({ estimate: 1, upper: 1, standardError: undefined });
    // At a correlation of 1 three clusters are three trials: p³ falls to exp(−3.841/2).
    expect(sure.mean.lower).toBeCloseTo(Math.exp(-3.841458820694124 / 6), 9);
    const none = statistics.betaBinomial({ clusters: clusters([0, 4], [0, 4], [0, 4]) });
    expect(none.mean.upper).toBeCloseTo(1 - sure.mean.lower, 9);
  });

  it("covers the truth in 90 to 99 % of 200 seeded sets of 40 runs of four, mean and correlation alike", () => {
    const uniform = uniforms(11);
    const truth = { mean: 0.8, correlation: 0.3 };
    let [means, correlations] = [0, 0];
    for (let set = 0; set < 200; set++) {
      const drawn = drawClusters(uniform, { count: 40, size: 4, ...truth });
      const [one, other] = parametersOf(statistics.betaBinomial({ clusters: drawn }));
      if (one.lower <= truth.mean && truth.mean <= one.upper) means += 1;
      if (other.lower <= truth.correlation && truth.correlation <= other.upper) correlations += 1;
    }
    for (const covered of [means / 200, correlations / 200]) {
      expect(covered).toBeGreaterThanOrEqual(0.9);
      expect(covered).toBeLessThanOrEqual(0.99);
    }
  });

  it.each([
    [
      clusters([1, 1], [0, 1]),
      "every cluster has one trial; the intra-class correlation needs clusters of at least 2",
    ],
    [clusters([1, 3]), "clusters has 1 of them; spread between clusters needs at least 2"],
    [clusters([1, 3], [2.5, 3]), "clusters[1].successes is 2.5; it must be a whole number from 0 to 3"],
  ])("refuses %o", (some, sentence) => {
    expect(() => statistics.betaBinomial({ clusters: some })).toThrow(
      `statistics.betaBinomial: ${sentence}.`,
    );
  });
});

const whole = (name: string, successes: number): statistics.ClusterGroup => ({
  name,
  clusters: [4, 4, 4].map((trials) => ({ trials, successes })),
});
const compare = (...groups: readonly statistics.ClusterGroup[]): unknown =>
  statistics.betaBinomialComparison({ groups });

describe("statistics.betaBinomialComparison", () => {
  it("is refused in a sentence where within every group all trials ended the same way", () => {
    expect(() => compare(whole("all", 4), whole("none", 0))).toThrow(
      "within every group all trials ended the same way",
    );
    const singles = { name: "singles", clusters: [0, 1, 1].map((successes) => ({ successes, trials: 1 })) };
    expect(() => compare(whole("all", 4), singles)).toThrow("or each cluster has one");
    expect(() => compare(whole("all", 4), whole("half", 2))).not.toThrow();
  });

  const groups = [
    { name: "dark", clusters: spread.slice(0, 6) },
    { name: "light", clusters: spread.slice(6) },
  ];

  it("gains twice the log-likelihood from one mean to a mean for each group", () => {
    const got = statistics.betaBinomialComparison({ groups });
    expect(got.statistic).toBeCloseTo(2 * (got.logLikelihood - got.logLikelihoodTogether), 12);
    expect(got.logLikelihoodTogether).toBeCloseTo(
      statistics.betaBinomial({ clusters: spread }).logLikelihood,
      9,
    );
    expect(got.degreesOfFreedom).toBe(1);
    expect(got.pValue).toBeCloseTo(statistics.chiSquareTail(got.statistic, { degreesOfFreedom: 1 }), 12);
  });

  it("finds no difference between equal groups", () => {
    const same = groups.map(({ name }) => ({ name, clusters: spread }));
    const got = statistics.betaBinomialComparison({ groups: same });
    expect(got.statistic).toBeCloseTo(0, 9);
    expect(got.pValue).toBeCloseTo(1, 4);
  });

  it("takes a group in which every trial ended the same way, without a standard error", () => {
    const got = statistics.betaBinomialComparison({
      groups: [...groups, { name: "sure", clusters: clusters([4, 4], [4, 4], [3, 3]) }],
    });
    expect(got.groups.at(-1)).toMatchObject({ name: "sure", estimate: 1, standardError: undefined });
    expect(got.groups[0]?.standardError).toBeGreaterThan(0);
  });

  it("rejects a true hypothesis of no difference in about 5 % of 300 seeded pairs of 30 runs each", () => {
    const uniform = uniforms(5);
    const law = { count: 30, size: 4, mean: 0.7, correlation: 0.3 };
    let [byLikelihood, byCounts, independent] = [0, 0, 0];
    for (let set = 0; set < 300; set++) {
      const pair = [
        { name: "one", clusters: drawClusters(uniform, law) },
        { name: "other", clusters: drawClusters(uniform, law) },
      ];
      const counts = statistics.raoScottComparison({ groups: pair });
      if (statistics.betaBinomialComparison({ groups: pair }).pValue < 0.05) byLikelihood += 1;
      if (counts.pValue < 0.05) byCounts += 1;
      if (counts.unadjusted.pValue < 0.05) independent += 1;
    }
    for (const rejected of [byLikelihood / 300, byCounts / 300]) {
      expect(rejected).toBeGreaterThan(0.015);
      expect(rejected).toBeLessThan(0.09);
    }
    expect(independent / 300).toBeGreaterThan(0.1);
  });
});
