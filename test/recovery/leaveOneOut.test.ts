import { expect, test } from "vitest";
import { leaveOneOut, logistic } from "../../kernel-helpers/src/protection";
import { coverageOf, sets } from "./coverage";
import { madeUpTrial } from "./trials";

const species = ["first", "second", "third", "fourth"];
const share = (relativeWidth: number) => logistic.evaluate({ relativeWidth, midpoint: 0.5, steepness: 6 });

test("species on one curve are predicted by the others, with run effects, and few trials raise a false alarm", () => {
  let alarms = 0;
  const coverages = coverageOf("one species left out, run effects", (seed) => {
    const fish = madeUpTrial(seed, { share, runSpread: 0.9 }).map((one) => ({
      ...one,
      species: species[Number(one.cluster.slice("run ".length)) % species.length],
    }));
    const left = leaveOneOut({ fish, family: "logistic" }).species;
    if (left.some((one) => one.offTheCurve)) alarms += 1;
    return left.map(({ species: name, lower, upper }) => ({
      parameter: `difference of the ${name} species`,
      truth: 0,
      lower,
      upper,
    }));
  });
  console.log(`one species left out, run effects: ${alarms} of ${sets} trials name a species off the curve`);
  const mean = coverages.reduce((sum, one) => sum + one.share, 0) / coverages.length;
  expect(mean).toBeGreaterThan(0.92);
  expect(mean).toBeLessThan(0.98);
  expect(alarms / sets).toBeLessThan(0.1);
});
