import { expect, test } from "vitest";
import { type FittedCurveParameter, fitRamp, logistic, ramp } from "../../kernel-helpers/src/protection";
import { coverageOf, type Recovered } from "./coverage";
import { endlessTrial, madeUpTrial, type MadeUpTrial, withoutRuns } from "./trials";

const rampShare = (threshold: number, exponent: number) => (relativeWidth: number) =>
  ramp.evaluate({ relativeWidth, threshold, exponent });

const logisticShare = (relativeWidth: number) =>
  logistic.evaluate({ relativeWidth, midpoint: 0.5, steepness: 8 });

const recovered = (
  truth: { readonly threshold: number; readonly exponent: number },
  parameters: Readonly<Record<"threshold" | "exponent", FittedCurveParameter>>,
): Recovered[] =>
  (["threshold", "exponent"] as const).map((parameter) => ({
    parameter,
    truth: truth[parameter],
    lower: parameters[parameter].lower,
    upper: parameters[parameter].upper,
  }));

test.each([
  [0.2, 1.5],
  [0.15, 0.8],
  [0.05, 1],
])("a ramp of threshold %f and exponent %f is recovered from 320 fish", (threshold, exponent) => {
  const truth = { threshold, exponent };
  const coverages = coverageOf(`ramp ${threshold}, ${exponent}`, (seed) => {
    const fish = withoutRuns(madeUpTrial(seed, { share: rampShare(threshold, exponent) }));
    return recovered(truth, fitRamp({ fish }).parameters);
  });
  for (const { share } of coverages) {
    expect(share).toBeGreaterThanOrEqual(0.9);
    expect(share).toBeLessThanOrEqual(0.99);
  }
});

const clustered: MadeUpTrial = { share: rampShare(0.15, 0.8), runSpread: 0.9 };

test("outside the family: run effects bend the mean curve, and the widened intervals still hold its exponent", () => {
  const [, ...names] = ["", "threshold", "exponent"] as const;
  const { threshold, exponent } = fitRamp({ fish: endlessTrial(clustered) }).parameters;
  const leastFalse = { threshold: threshold.estimate, exponent: exponent.estimate };
  const coverages = coverageOf("ramp, run effects", (seed) => {
    const { parameters } = fitRamp({ fish: madeUpTrial(seed, clustered) });
    return [
      ...recovered({ threshold: 0.15, exponent: 0.8 }, parameters),
      ...recovered(leastFalse, parameters).map((one) => ({
        ...one,
        parameter: `${one.parameter} of the mean curve`,
      })),
      ...names.map((name) => ({
        parameter: `${name} of the mean curve, fish taken for independent`,
        truth: leastFalse[name],
        ...parameters[name].ifIndependent,
      })),
    ];
  });
  const shareOf = (parameter: string) => coverages.find((one) => one.parameter === parameter)?.share ?? 0;
  expect(shareOf("exponent of the mean curve")).toBeGreaterThanOrEqual(0.9);
  for (const name of names)
    expect(shareOf(`${name} of the mean curve`)).toBeGreaterThanOrEqual(
      shareOf(`${name} of the mean curve, fish taken for independent`),
    );
});

test("outside the family: an S-shaped truth is fitted by a ramp that is off in the middle and at the ends", () => {
  const share = logisticShare;
  const fish = endlessTrial({ share });
  // Some of its fish pass however wide they are, and some are held however slim: the plain ramp takes them for impossible.
  expect(() => fitRamp({ fish })).toThrow("passed the rack, which a ramp holds for impossible");
  const fit = fitRamp({ fish, heldAnyway: true, passedAnyway: true });
  const off = fish.map((one) => Math.abs(fit.share(one.relativeWidth) - share(one.relativeWidth)));
  console.log(
    `ramp with lapses, S-shaped truth: off by up to ${Math.max(...off).toFixed(3)} with endless fish`,
  );
  expect(Math.max(...off)).toBeGreaterThan(0.01);
  expect(Math.max(...off)).toBeLessThan(0.15);
});
