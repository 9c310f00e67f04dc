import { statistics } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const runs = [
  { successes: 4, trials: 4, cue: "light" },
  { successes: 3, trials: 4, cue: "light" },
  { successes: 1, trials: 3, cue: "light" },
  { successes: 2, trials: 4, cue: "none" },
  { successes: 0, trials: 4, cue: "none" },
  { successes: 1, trials: 4, cue: "none" },
  { successes: 3, trials: 4, cue: "none" },
];
const names = runs.map((_, at) => `R${at}`);
const rows = (group: typeof runs) => ({
  successes: group.map(({ successes }) => successes),
  trials: group.map(({ trials }) => trials),
});

describe("clusterRobust", () => {
  test("of a fit with nothing but an intercept it is the Rao–Scott variance of the share", () => {
    const fit = statistics.fitBinomial({ ...rows(runs), terms: {}, link: "logit" });
    const [{ standardError }] = statistics.clusterRobust(fit, names).coefficients;
    const { estimate, trials, designEffect } = statistics.raoScott({ clusters: runs, atLeastOne: false });
    const shareError = Math.sqrt((designEffect * estimate * (1 - estimate)) / trials);
    expect(standardError * estimate * (1 - estimate)).toBeCloseTo(shareError, 12);
  });

  test("is the same whether a run is one row or one row a fish", () => {
    const fish = runs.flatMap(({ successes, trials, cue }, run) =>
      Array.from({ length: trials }, (_, at) => ({ success: at < successes ? 1 : 0, cue, run: `R${run}` })),
    );
    const byFish = statistics.fitBinomial({
      successes: fish.map(({ success }) => success),
      trials: fish.map(() => 1),
      terms: { cue: fish.map(({ cue }) => cue) },
      link: "cloglog",
    });
    const byRun = statistics.fitBinomial({
      ...rows(runs),
      terms: { cue: runs.map(({ cue }) => cue) },
      link: "cloglog",
    });
    const [one, other] = [
      statistics.clusterRobust(
        byFish,
        fish.map(({ run }) => run),
      ),
      statistics.clusterRobust(byRun, names),
    ];
    one.coefficients.forEach(({ standardError }, at) => {
      expect(standardError).toBeCloseTo(other.coefficients[at].standardError, 9);
    });
  });

  test("twice the same fish in each run leaves its errors, where those for independent fish shrink", () => {
    const once = statistics.fitBinomial({ ...rows(runs), terms: {}, link: "logit" });
    const doubled = runs.map((run) => ({ ...run, successes: 2 * run.successes, trials: 2 * run.trials }));
    const twice = statistics.fitBinomial({ ...rows(doubled), terms: {}, link: "logit" });
    expect(statistics.clusterRobust(twice, names).coefficients[0].standardError).toBeCloseTo(
      statistics.clusterRobust(once, names).coefficients[0].standardError,
      12,
    );
    expect(twice.coefficients[0].standardError).toBeCloseTo(
      once.coefficients[0].standardError / Math.SQRT2,
      9,
    );
  });

  test("predict takes its errors with Student's t, and says so", () => {
    const fit = statistics.fitBinomial({ ...rows(runs), terms: {}, link: "logit" });
    const robust = statistics.clusterRobust(fit, names);
    const { link, method } = statistics.predict(robust, { at: {} });
    const reach = statistics.studentQuantile(0.975, { degreesOfFreedom: 6 });
    expect(link.upper - link.estimate).toBeCloseTo(reach * robust.coefficients[0].standardError, 12);
    expect(method).toBe("interval on the logit scale, cluster-robust errors of 7 clusters");
  });

  test("refuses quasi-likelihood errors and likelihood-ratio tests, which don't go with it", () => {
    const none = statistics.fitBinomial({ ...rows(runs), terms: {}, link: "logit" });
    const cue = statistics.fitBinomial({
      ...rows(runs),
      terms: { cue: runs.map((run) => run.cue) },
      link: "logit",
    });
    const robust = statistics.clusterRobust(cue, names);
    expect(() => statistics.predict(robust, { at: { cue: "none" }, errors: "quasi" })).toThrow(
      "leave errors out",
    );
    expect(() => statistics.likelihoodRatio(none, robust)).toThrow("use waldTest");
  });

  test("refuses names that don't go with the rows, and no more clusters than coefficients", () => {
    const fit = statistics.fitBinomial({ ...rows(runs), terms: {}, link: "logit" });
    expect(() => statistics.clusterRobust(fit, ["R0"])).toThrow("clusters has 1 names and the fit 7 rows");
    expect(() =>
      statistics.clusterRobust(
        fit,
        names.map(() => "R0"),
      ),
    ).toThrow("there are 1 clusters with trials for 1 coefficients");
  });
});

describe("waldTest", () => {
  const cue = statistics.fitBinomial({
    ...rows(runs),
    terms: { cue: runs.map((run) => run.cue) },
    link: "logit",
  });

  test("of one coefficient has the p-value of that coefficient, with either error", () => {
    expect(statistics.waldTest(cue, "cue").pValue).toBeCloseTo(cue.coefficients[1].pValue, 10);
    const robust = statistics.clusterRobust(cue, names);
    const test1 = statistics.waldTest(robust, "cue");
    expect(test1.pValue).toBeCloseTo(robust.coefficients[1].pValue, 10);
    expect(test1.method).toBe("Wald's test, cluster-robust, F distribution with 1 and 6 degrees of freedom");
  });

  test("refuses a term that the fit does not have", () => {
    expect(() => statistics.waldTest(cue, "spacing")).toThrow("the fit has no term spacing; its terms: cue");
  });
});
