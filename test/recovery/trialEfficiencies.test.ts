import { statistics, trial, u } from "kernel-helpers";
import { expect, test } from "vitest";
import { uniforms } from "../../kernel-helpers/src/statistics/random";
import { coverageOf, sets } from "./coverage";

/** A drawn fish: its run, its cue and the relative width of its body. */
interface Drawn extends trial.TrialFish {
  readonly cue: string;
  readonly width: number;
}

/** What the fish are drawn with: effects on the logit of guidance, and how far runs differ. */
interface Law {
  readonly runs: number;
  readonly fishPerRun: number;
  readonly base: number;
  readonly light: number;
  readonly width: number;
  /** Standard deviation of the runs on the logit. */
  readonly runSpread: number;
}

const share = (logit: number): number => 1 / (1 + Math.exp(-logit));

/** Runs by turns with and without light, each with an effect of its own; a third of the other fish refuse. */
function drawTrial(seed: number, { runs, fishPerRun, base, light, width, runSpread }: Law): readonly Drawn[] {
  const uniform = uniforms(seed);
  return Array.from({ length: runs }, (_, run) => {
    const cue = run % 2 === 0 ? "none" : "light";
    const effect = runSpread * statistics.normalQuantile(Math.max(1e-12, uniform()));
    return Array.from({ length: fishPerRun }, (): Drawn => {
      const relativeWidth = uniform();
      const guided = uniform() < share(base + (cue === "light" ? light : 0) + width * relativeWidth + effect);
      const outcome = guided ? "bypassed" : uniform() < 1 / 3 ? "refused" : "rackPassed";
      return { runId: `R${run}`, outcome, cue, width: relativeWidth };
    });
  }).flat();
}

/** The share over all runs and widths, by a fine grid of both. */
function meanShare({ base, light, width, runSpread }: Law, cue: string): number {
  const grid = Array.from({ length: 200 }, (_, i) => (i + 0.5) / 200);
  const shift = base + (cue === "light" ? light : 0);
  const shares = grid.flatMap((at) =>
    grid.map((relative) => share(shift + width * relative + runSpread * statistics.normalQuantile(at))),
  );
  return shares.reduce((sum, one) => sum + one, 0) / shares.length;
}

const law: Law = { runs: 60, fishPerRun: 4, base: -1, light: 0.8, width: 1.5, runSpread: 1 };

test("the interval of runs holds the guidance; that of independent fish does not often enough", () => {
  const truth = meanShare(law, "none");
  const coverage = coverageOf("guidance of 30 runs of 4 fish, runs differ", (seed) => {
    const [{ guidance }] = trial.efficiencies(drawTrial(seed, law), { by: "cue" });
    const {
      lower = Number.NaN,
      upper = Number.NaN,
      naiveLower = Number.NaN,
      naiveUpper = Number.NaN,
    } = guidance;
    return [
      { parameter: "runs as clusters", truth, lower, upper },
      { parameter: "fish as if independent (naive)", truth, lower: naiveLower, upper: naiveUpper },
    ];
  });
  const [clustered, naive] = coverage;
  expect(clustered.share).toBeGreaterThanOrEqual(0.9);
  expect(clustered.share).toBeLessThanOrEqual(0.99);
  expect(naive.share).toBeLessThan(0.9);
});

test("the interval of a difference that respects runs holds it; the naive one does not often enough", () => {
  const truth = meanShare(law, "light") - meanShare(law, "none");
  const [clustered, bootstrap, naive] = coverageOf("light less none, 30 runs each", (seed) => {
    const [difference] = trial.compareGroups(drawTrial(seed + 1000, law), {
      by: "cue",
      efficiency: "guidance",
      seed,
      resamples: 400,
    }).differences;
    const { lower, upper, naiveLower, naiveUpper } = difference;
    const { bootstrapLower = Number.NaN, bootstrapUpper = Number.NaN } = difference;
    return [
      { parameter: "Newcombe on Rao–Scott counts", truth, lower, upper },
      { parameter: "bootstrap of runs", truth, lower: bootstrapLower, upper: bootstrapUpper },
      { parameter: "fish as if independent (naive)", truth, lower: naiveLower, upper: naiveUpper },
    ];
  });
  for (const one of [clustered, bootstrap]) {
    expect(one.share).toBeGreaterThanOrEqual(0.9);
    expect(one.share).toBeLessThanOrEqual(0.99);
  }
  expect(naive.share).toBeLessThan(clustered.share);
});

/**
 * The effects of a fit that knows nothing of runs are those on the mean over runs: smaller than within one run. The truth
 * is what the fit gives for very many runs.
 */
function fitted(fish: readonly Drawn[]) {
  return trial.fitEffects(fish, {
    efficiency: "guidance",
    terms: { cue: "cue", width: "width" },
    levels: { cue: ["none", "light"] },
  });
}

const limit = fitted(drawTrial(77, { ...law, runs: 12_000 })).effects;

test("effects of cue and width: errors of runs hold the truth", () => {
  const coverage = coverageOf("binomial regression, 60 runs that differ", (seed) => {
    const { effects } = fitted(drawTrial(seed + 2000, law));
    return effects.flatMap(({ term, estimate, lower, upper, naiveStandardError }, at) => [
      { parameter: `${term}, errors of runs`, truth: limit[at].estimate, lower, upper },
      {
        parameter: `${term}, naive errors`,
        truth: limit[at].estimate,
        lower: estimate - 1.96 * naiveStandardError,
        upper: estimate + 1.96 * naiveStandardError,
      },
    ]);
  });
  const robust = coverage.filter(({ parameter }) => parameter.endsWith("errors of runs"));
  expect(robust).toHaveLength(3);
  for (const { share: held } of robust) {
    expect(held).toBeGreaterThanOrEqual(0.9);
    expect(held).toBeLessThanOrEqual(0.99);
  }
  const cue = coverage.find(({ parameter }) => parameter === "cue: light, naive errors");
  expect(cue?.share).toBeLessThan(0.93);
});

test("errors of a fit per run, widened by its dispersion, hold the effect of the cue as well", () => {
  const [quasi] = coverageOf("binomial regression of 60 runs, quasi-likelihood errors", (seed) => {
    const rows = trial.regressionRows(drawTrial(seed + 2000, law), {
      efficiency: "guidance",
      terms: { cue: "cue", width: "width" },
      per: "run",
    });
    const fit = statistics.fitBinomial({ ...rows, link: "logit", levels: { cue: ["none", "light"] } });
    const { estimate, quasiStandardError = Number.NaN } = fit.coefficients[1];
    const reach = statistics.studentQuantile(0.975, fit) * quasiStandardError;
    return [
      { parameter: "light", truth: limit[1].estimate, lower: estimate - reach, upper: estimate + reach },
    ];
  });
  expect(quasi.share).toBeGreaterThanOrEqual(0.9);
  expect(quasi.share).toBeLessThanOrEqual(0.99);
});

test("where a cue does nothing, tests that respect runs seldom find an effect; the naive one finds one too often", () => {
  const nothing = { ...law, light: 0 };
  const found = { naive: 0, raoScott: 0, betaBinomial: 0 };
  for (let seed = 1; seed <= sets; seed++) {
    const [difference] = trial.compareGroups(drawTrial(seed + 5000, nothing), {
      by: "cue",
      efficiency: "guidance",
    }).differences;
    const { naivePValue = 1, pValue = 1, betaBinomialPValue = 1 } = difference;
    if (naivePValue < 0.05) found.naive++;
    if (pValue < 0.05) found.raoScott++;
    if (betaBinomialPValue < 0.05) found.betaBinomial++;
  }
  console.log(
    `a cue without effect is found at p < 0.05 in ${found.naive} of ${sets} trials by the naive test, ` +
      `${found.raoScott} by Rao and Scott's, ${found.betaBinomial} by the beta-binomial likelihood`,
  );
  expect(found.naive / sets).toBeGreaterThan(0.1);
  expect(found.raoScott / sets).toBeLessThan(0.1);
  expect(found.betaBinomial / sets).toBeLessThan(0.1);
});

test("the effect within a run lies outside what is fitted: the fit's interval holds it less often", () => {
  const strong = { ...law, runSpread: 2, light: 2 };
  const [within] = coverageOf(
    "truth outside the family: effect of light within a run, runs differ strongly",
    (seed) => {
      const effect = fitted(drawTrial(seed + 3000, strong)).effects.find(({ term }) => term === "cue: light");
      const { lower = Number.NaN, upper = Number.NaN } = effect ?? {};
      return [{ parameter: "light, logit within a run", truth: strong.light, lower, upper }];
    },
  );
  expect(within.sets).toBe(sets);
  expect(within.share).toBeLessThan(0.9);
});

const twenty = u.min(20);
const bypassRate = 0.05;
const rackRate = 0.03;

/** The rate of a run: log-normal about 1. */
const rateOf = (uniform: number): number => Math.exp(statistics.normalQuantile(Math.max(1e-12, uniform)));

/** Forty runs of four fish, 20 or 40 minutes long: each run has its own pace towards the bypass, not towards the rack. */
function drawTimes(seed: number): readonly trial.TimedFish[] {
  const uniform = uniforms(seed);
  return Array.from({ length: 40 }, (_, run) => {
    const duration = run % 2 === 0 ? 20 : 40;
    const pace = bypassRate * rateOf(uniform());
    return Array.from({ length: 4 }, (): trial.TimedFish => {
      const time = -Math.log(1 - uniform()) / (pace + rackRate);
      const outcome = uniform() < pace / (pace + rackRate) ? "bypassed" : "rackPassed";
      const runDuration = u.min(duration);
      return time <= duration
        ? { runId: `R${run}`, outcome, outcomeTime: u.min(time), runDuration }
        : { runId: `R${run}`, outcome: "refused", runDuration };
    });
  }).flat();
}

/** The share guided by 20 minutes, over the paces of runs. */
function timeTruth(): number {
  const grid = Array.from({ length: 20_000 }, (_, i) => (i + 0.5) / 20_000);
  const shares = grid.map((at) => {
    const pace = bypassRate * rateOf(at);
    return (pace / (pace + rackRate)) * (1 - Math.exp(-20 * (pace + rackRate)));
  });
  return shares.reduce((sum, one) => sum + one, 0) / shares.length;
}

test("the share against time: the band of whole runs holds the cumulative incidence", () => {
  const truth = timeTruth();
  const [band, naive] = coverageOf("share guided by 20 min, 40 runs that differ", (seed) => {
    const [{ lower, upper, naiveLower, naiveUpper }] = trial.timeCourse(drawTimes(seed + 4000), {
      times: [twenty],
      seed,
      resamples: 150,
    }).shares;
    return [
      { parameter: "whole runs drawn", truth, lower: lower ?? 0, upper: upper ?? 1 },
      { parameter: "fish as if independent (naive)", truth, lower: naiveLower ?? 0, upper: naiveUpper ?? 1 },
    ];
  });
  expect(band.share).toBeGreaterThanOrEqual(0.9);
  expect(band.share).toBeLessThanOrEqual(0.99);
  expect(naive.share).toBeLessThan(band.share);
});
