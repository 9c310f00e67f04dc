import { describe, expect, it } from "vitest";
import {
  bodyTruths,
  fishMeasurementsCsv,
  fishMeasurementsTruth,
  speciesNamed,
} from "../../data-demo/generators/fish-measurements";
import { lengthSummary } from "../../data-demo/generators/species";
import { demoRows } from "./files";
import { correlation, line, mean } from "./numbers";

const sample = demoRows("fish-measurements.csv").map((row) => ({
  fishId: row.fishId,
  species: row.species,
  totalLength: Number(row["totalLength [mm]"]),
  width: Number(row["width [mm]"]),
  height: Number(row["height [mm]"]),
  weight: Number(row["weight [g]"]),
}));

function fishOf(species: string) {
  return sample.filter((fish) => fish.species === species);
}

function withoutPerch(csv: string): string[] {
  return csv.split("\n").filter((row) => !row.includes(",perch,"));
}

describe("fish-measurements.csv", () => {
  it("has 305 fish, each with its own id, in the stated numbers of each species", () => {
    expect(new Set(sample.map(({ fishId }) => fishId)).size).toBe(305);
    expect(bodyTruths.map(({ species }) => fishOf(species).length)).toEqual(
      bodyTruths.map(({ count }) => count),
    );
    expect(sample).toHaveLength(305);
  });

  it("has no fish wider than it is high", () => {
    expect(sample.filter(({ width, height }) => width > height)).toEqual([]);
  });

  it("has wide fish that are heavy for their length: the scatters of one fish go together", () => {
    const residuals = bodyTruths.map(({ species }) => {
      const fish = fishOf(species);
      const lengths = fish.map(({ totalLength }) => Math.log(totalLength));
      return {
        width: line(
          lengths,
          fish.map(({ width }) => Math.log(width)),
        ).residuals,
        weight: line(
          lengths,
          fish.map(({ weight }) => Math.log(weight)),
        ).residuals,
      };
    });
    const shared = correlation(
      residuals.flatMap(({ width }) => width),
      residuals.flatMap(({ weight }) => weight),
    );
    expect(Math.abs(shared - fishMeasurementsTruth.girthCorrelation)).toBeLessThan(3.5 / Math.sqrt(305));
  });

  it("changes one species only when only that species changes", () => {
    const slimmer = bodyTruths.map((body) =>
      body.species === "perch" ? { ...body, widthAllometry: -0.1 } : body,
    );
    const changed = fishMeasurementsCsv(fishMeasurementsTruth, slimmer);
    expect(withoutPerch(changed)).toEqual(withoutPerch(fishMeasurementsCsv()));
    expect(changed).not.toBe(fishMeasurementsCsv());
  });
});

describe.each(bodyTruths)("a fit to the measured $species gives back the truth:", (truth) => {
  const species = speciesNamed(truth.species);
  const fish = fishOf(truth.species);
  const relative = fish.map(({ totalLength }) =>
    Math.log(totalLength / lengthSummary(species.ageClasses).medianLength),
  );
  const dimensions = [
    {
      dimension: "width",
      ratio: species.widthRatio,
      allometry: truth.widthAllometry,
      spread: truth.widthSpread,
    },
    {
      dimension: "height",
      ratio: species.heightRatio,
      allometry: truth.heightAllometry,
      spread: truth.heightSpread,
    },
  ] as const;

  it.each(dimensions)(
    "ratio, allometry and scatter of the $dimension",
    ({ dimension, ratio, allometry, spread }) => {
      const ratios = fish.map((one) => Math.log(one[dimension] / one.totalLength));
      const fit = line(relative, ratios);
      expect(Math.abs(fit.slope - allometry)).toBeLessThan(3.5 * fit.slopeError);
      expect(Math.abs(fit.scatter - spread)).toBeLessThan((3.5 * spread) / Math.sqrt(2 * fish.length));
      const leftovers = ratios.map((value, index) => value - allometry * relative[index]);
      expect(Math.abs(mean(leftovers) - Math.log(ratio))).toBeLessThan(
        (3.5 * spread) / Math.sqrt(fish.length),
      );
    },
  );
});
