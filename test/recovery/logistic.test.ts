import { expect, test } from "vitest";
import {
  bootstrapFit,
  fitLogistic,
  logistic,
  type LogisticFit,
  ramp,
} from "../../kernel-helpers/src/protection";
import { coverageOf, type Recovered } from "./coverage";
import { endlessTrial, madeUpTrial, type MadeUpTrial, withoutRuns } from "./trials";

const names = ["midpoint", "steepness"] as const;
type Shape = Readonly<Record<(typeof names)[number], number>>;

const curve =
  ({ midpoint, steepness }: Shape) =>
  (relativeWidth: number) =>
    logistic.evaluate({ relativeWidth, midpoint, steepness });

const rampShare = (relativeWidth: number) => ramp.evaluate({ relativeWidth, threshold: 0.15, exponent: 0.8 });

const recovered = (
  truth: Shape,
  intervals: Readonly<
    Partial<Record<(typeof names)[number], { readonly lower: number; readonly upper: number }>>
  >,
  label = "",
): Recovered[] =>
  names.map((name) => ({
    parameter: `${name}${label}`,
    truth: truth[name],
    lower: intervals[name]?.lower ?? Number.NaN,
    upper: intervals[name]?.upper ?? Number.NaN,
  }));

const estimates = ({ parameters }: LogisticFit): Shape => ({
  midpoint: parameters.midpoint.estimate,
  steepness: parameters.steepness.estimate,
});

test.each([
  { midpoint: 0.5, steepness: 6 },
  { midpoint: 0.7, steepness: 12 },
])("an S-shaped curve of midpoint $midpoint and steepness $steepness is recovered from 320 fish", (truth) => {
  const coverages = coverageOf(`logistic ${truth.midpoint}, ${truth.steepness}`, (seed) => {
    const fish = withoutRuns(madeUpTrial(seed, { share: curve(truth) }));
    return recovered(truth, fitLogistic({ fish }).parameters);
  });
  for (const { share } of coverages) {
    expect(share).toBeGreaterThanOrEqual(0.9);
    expect(share).toBeLessThanOrEqual(0.99);
  }
});

test("outside the family: with run effects the mean curve is flatter, and both widened and resampled intervals hold it", () => {
  const truth = { midpoint: 0.5, steepness: 6 };
  const clustered: MadeUpTrial = { share: curve(truth), runSpread: 0.9 };
  const mean = estimates(fitLogistic({ fish: endlessTrial(clustered) }));
  expect(mean.steepness).toBeLessThan(truth.steepness);
  const coverages = coverageOf("logistic, run effects", (seed) => {
    const fit = fitLogistic({ fish: madeUpTrial(seed, clustered) });
    const { midpoint, steepness } = fit.parameters;
    return [
      ...recovered(truth, fit.parameters, " of a middling run"),
      ...recovered(mean, fit.parameters, " of the mean curve"),
      ...recovered(
        mean,
        bootstrapFit({ fit, seed, resamples: 100 }).parameters,
        " of the mean curve, resampled",
      ),
      ...recovered(
        mean,
        { midpoint: midpoint.ifIndependent, steepness: steepness.ifIndependent },
        " of the mean curve, fish taken for independent",
      ),
    ];
  });
  const shareOf = (parameter: string) => coverages.find((one) => one.parameter === parameter)?.share ?? 0;
  for (const name of names) {
    expect(shareOf(`${name} of the mean curve`)).toBeGreaterThanOrEqual(0.9);
    expect(shareOf(`${name} of the mean curve, resampled`)).toBeGreaterThanOrEqual(0.87);
  }
  // What the runs hide: fish taken for independent seem to say more than they do.
  expect(shareOf("midpoint of the mean curve, fish taken for independent")).toBeLessThan(
    shareOf("midpoint of the mean curve"),
  );
});

test("outside the family: an S-shaped curve through a ramp credits the slimmest fish and lets blocked ones pass", () => {
  const share = rampShare;
  const fish = endlessTrial({ share });
  const fit = fitLogistic({ fish });
  const off = fish.map((one) => Math.abs(fit.share(one.relativeWidth) - share(one.relativeWidth)));
  console.log(
    `logistic, ramp as truth, endless fish: off by up to ${Math.max(...off).toFixed(3)}; holds ${fit.share(0.1).toFixed(3)} ` +
      `at relative width 0.1 and ${fit.share(1).toFixed(3)} at 1`,
  );
  expect(Math.max(...off)).toBeGreaterThan(0.03);
  expect(fit.share(0.1)).toBeGreaterThan(share(0.1) + 0.02);
  expect(fit.share(1)).toBeLessThan(share(1) - 0.005);
});
