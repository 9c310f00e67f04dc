import { statistics } from "kernel-helpers";
import { expect, test } from "vitest";
import { uniforms } from "../../kernel-helpers/src/statistics/random";
import { coverageOf } from "./coverage";

const mean = 0.6;
const fishPerRun = 4;

/** Runs whose shares `shareOf` makes of a number from 0 to 1. */
function runs(seed: number, count: number, shareOf: (uniform: number) => number) {
  const uniform = uniforms(seed);
  return Array.from({ length: count }, () => {
    const share = shareOf(Math.min(1 - 1e-9, Math.max(1e-9, uniform())));
    const successes = Array.from({ length: fishPerRun }, uniform).filter((one) => one < share).length;
    return { successes, trials: fishPerRun };
  });
}

const fitted = (clusters: ReturnType<typeof runs>, correlation: number) => {
  const fit = statistics.betaBinomial({ clusters });
  const likeness = fit.intraclassCorrelation;
  return [
    { parameter: "mean share", truth: mean, lower: fit.mean.lower, upper: fit.mean.upper },
    {
      parameter: "intra-class correlation",
      truth: correlation,
      lower: likeness?.lower ?? Number.NaN,
      upper: likeness?.upper ?? Number.NaN,
    },
  ];
};

test("the beta-binomial's profile intervals hold the truth in 90 to 99 % of 200 trials of 60 runs", () => {
  const correlation = 0.2;
  const sum = 1 / correlation - 1;
  const shape = { alpha: mean * sum, beta: (1 - mean) * sum };
  const coverage = coverageOf("beta-binomial", (seed) =>
    fitted(
      runs(seed, 60, (uniform) => statistics.betaQuantile(uniform, shape)),
      correlation,
    ),
  );
  for (const { share } of coverage) {
    expect(share).toBeGreaterThanOrEqual(0.9);
    expect(share).toBeLessThanOrEqual(0.99);
  }
});

test("the mean share is held where runs come in two kinds, which no beta distribution has", () => {
  // Three runs in four at 0.7, one at 0.3: the mean is 0.6, the variance 0.03, the correlation 0.03 / (0.6 · 0.4).
  const coverage = coverageOf("beta-binomial, runs of two kinds", (seed) =>
    fitted(
      runs(seed, 60, (uniform) => (uniform < 0.75 ? 0.7 : 0.3)),
      0.03 / 0.24,
    ),
  );
  expect(coverage[0].share).toBeGreaterThanOrEqual(0.9);
});
