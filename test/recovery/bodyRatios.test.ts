import { expect, test } from "vitest";
import {
  bodyTruths,
  fishMeasurementsTruth,
  measuredFish,
} from "../../data-demo/generators/fish-measurements";
import { demoSpecies, lengthSummary } from "../../data-demo/generators/species";
import { bodyRatios } from "../../kernel-helpers/src/fish";
import { u } from "../../kernel-helpers/src/quantity/u";
import { coverageOf } from "./coverage";

test("body ratios and their growth with length are recovered from 60 roach", () => {
  const roach = demoSpecies.find(({ species }) => species === "roach");
  const body = bodyTruths.find(({ species }) => species === "roach");
  if (roach === undefined || body === undefined) throw new Error("the demo plant has no roach.");
  const middle = lengthSummary(roach.ageClasses).medianLength / 1000;
  const coverages = coverageOf("body ratios of roach", (seed) => {
    const fish = measuredFish({ ...fishMeasurementsTruth, seed: 10_000 + seed }, [body]).map((one) => ({
      species: one.species,
      totalLength: u.mm(one.totalLength),
      width: u.mm(one.width),
      height: u.mm(one.height),
    }));
    const [{ width, height, medianLength }] = bodyRatios({ fish });
    // The truth is that of the species' median length; the interval, that of the sample's.
    const moved = (allometry: number) => (medianLength / middle) ** allometry;
    return [
      {
        parameter: "width ratio",
        truth: roach.widthRatio * moved(body.widthAllometry),
        ...width.atMedianLength,
      },
      {
        parameter: "height ratio",
        truth: roach.heightRatio * moved(body.heightAllometry),
        ...height.atMedianLength,
      },
      { parameter: "growth of the width ratio", truth: body.widthAllometry, ...width.allometry },
      { parameter: "growth of the height ratio", truth: body.heightAllometry, ...height.allometry },
    ];
  });
  for (const { share } of coverages) {
    expect(share).toBeGreaterThanOrEqual(0.9);
    expect(share).toBeLessThanOrEqual(0.99);
  }
});
