import { describe, expect, it } from "vitest";
import { fishLengthsCsv, fishLengthsTruth } from "../../data-demo/generators/fish-lengths";
import { demoSpecies, lengthSummary } from "../../data-demo/generators/species";
import { demoRows } from "./files";

const sample = demoRows("fish-lengths.csv").map((row) => ({
  fishId: row.fishId,
  date: row.date,
  species: row.species,
  totalLength: Number(row["totalLength [mm]"]),
  weight: Number(row["weight [g]"]),
}));
const facts = new Map(demoRows("plant.csv").map((row) => [row.key, Number(row.value)]));

function fishOf(species: string) {
  return sample.filter((fish) => fish.species === species);
}

function withoutIde(csv: string): string[] {
  // The ids count on through all species, and the order of dates is theirs too: both stay.
  return csv.split("\n").filter((row) => !row.includes(",ide,"));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Least squares y = intercept + slope x, with the standard error of the slope and the residual deviation. */
function line(x: readonly number[], y: readonly number[]) {
  const meanX = mean(x);
  const meanY = mean(y);
  const sxx = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  const slope = x.reduce((sum, value, index) => sum + (value - meanX) * (y[index] - meanY), 0) / sxx;
  const intercept = meanY - slope * meanX;
  const squares = y.reduce((sum, value, index) => sum + (value - intercept - slope * x[index]) ** 2, 0);
  const deviation = Math.sqrt(squares / (x.length - 2));
  return { slope, intercept, deviation, slopeError: deviation / Math.sqrt(sxx) };
}

describe("fish-lengths.csv", () => {
  it("has 840 fish, each with its own id, in order of date", () => {
    expect(sample).toHaveLength(840);
    expect(new Set(sample.map(({ fishId }) => fishId)).size).toBe(840);
    const dates = sample.map(({ date }) => date);
    expect(dates).toEqual(dates.toSorted());
  });

  it("has the stated number of each species and no other species", () => {
    const counts = Object.fromEntries(demoSpecies.map(({ species }) => [species, fishOf(species).length]));
    expect(counts).toEqual({
      roach: 210,
      grayling: 90,
      ide: 80,
      perch: 120,
      bleak: 180,
      burbot: 60,
      "silver eel": 100,
    });
    expect(Object.values(counts).reduce((sum, count) => sum + count, 0)).toBe(sample.length);
  });

  it("has every fish in a migration season of its species", () => {
    for (const species of demoSpecies) {
      const months = species.seasons.flatMap((season) => {
        const first = facts.get(`${season}MigrationFirstMonth`) ?? Number.NaN;
        const last = facts.get(`${season}MigrationLastMonth`) ?? Number.NaN;
        return Array.from({ length: last - first + 1 }, (_, index) => first + index);
      });
      const caught = new Set(fishOf(species.species).map(({ date }) => Number(date.slice(5, 7))));
      const seen = [...caught].toSorted((a, b) => a - b);
      expect({ species: species.species, months: seen }).toEqual({ species: species.species, months });
    }
  });

  it("has silver eels of 450 to 950 mm, large ones and small ones", () => {
    const lengths = fishOf("silver eel").map(({ totalLength }) => totalLength);
    expect(Math.min(...lengths)).toBeGreaterThanOrEqual(450);
    expect(Math.max(...lengths)).toBeLessThanOrEqual(950);
    expect(Math.max(...lengths) - Math.min(...lengths)).toBeGreaterThan(250);
  });

  it("changes one species only when only that species changes", () => {
    const heavier = demoSpecies.map((fish) =>
      fish.species === "ide" ? { ...fish, weightExponent: 3.2 } : fish,
    );
    const changed = fishLengthsCsv(fishLengthsTruth, heavier);
    expect(withoutIde(changed)).toEqual(withoutIde(fishLengthsCsv()));
    expect(changed).not.toBe(fishLengthsCsv());
  });
});

describe.each(demoSpecies)("a fit to the sampled $species gives back the truth:", (truth) => {
  const fish = fishOf(truth.species);

  it("exponent, coefficient and scatter of the weight", () => {
    const fit = line(
      fish.map(({ totalLength }) => Math.log(totalLength / 10)),
      fish.map(({ weight }) => Math.log(weight)),
    );
    expect(Math.abs(fit.slope - truth.weightExponent)).toBeLessThan(3.5 * fit.slopeError);
    expect(fit.slopeError).toBeLessThan(0.08);
    const deviationError = truth.weightSpread / Math.sqrt(2 * fish.length);
    expect(Math.abs(fit.deviation - truth.weightSpread)).toBeLessThan(3.5 * deviationError);
    // With the exponent held at its truth the coefficient is the mean of the leftovers.
    const logs = fish.map(
      ({ totalLength, weight }) => Math.log(weight) - truth.weightExponent * Math.log(totalLength / 10),
    );
    const allowed = (3.5 * truth.weightSpread) / Math.sqrt(fish.length);
    expect(Math.abs(mean(logs) - Math.log(truth.weightCoefficient))).toBeLessThan(allowed);
  });

  it("mean and spread of ln(length) over all age classes", () => {
    const logs = fish.map(({ totalLength }) => Math.log(totalLength));
    const { medianLength, lengthSpread } = lengthSummary(truth.ageClasses);
    const error = lengthSpread / Math.sqrt(fish.length);
    expect(Math.abs(mean(logs) - Math.log(medianLength))).toBeLessThan(3.5 * error);
    const deviation = Math.sqrt(mean(logs.map((value) => (value - mean(logs)) ** 2)));
    expect(Math.abs(deviation - lengthSpread)).toBeLessThan(3.5 * error);
  });
});

describe("species.csv", () => {
  const rows = demoRows("species.csv");

  it("has age-class shares that add up to 1", () => {
    const sums = demoSpecies.map(({ ageClasses }) => ageClasses.reduce((sum, { share }) => sum + share, 0));
    for (const sum of sums) expect(sum).toBeCloseTo(1, 12);
  });

  it("summarises one age class by itself", () => {
    const summary = lengthSummary([{ share: 1, medianLength: 140, spread: 0.2 }]);
    expect(summary.medianLength).toBeCloseTo(140, 9);
    expect(summary.lengthSpread).toBeCloseTo(0.2, 9);
  });

  it("summarises two equal, narrow age classes by their geometric mean and half the distance of their logarithms", () => {
    const summary = lengthSummary([
      { share: 0.5, medianLength: 100, spread: 0 },
      { share: 0.5, medianLength: 400, spread: 0 },
    ]);
    expect(summary.medianLength).toBeCloseTo(200, 9);
    expect(summary.lengthSpread).toBeCloseTo(Math.log(2), 9);
  });

  it("has slender eels, and a fish that does not turn beside fish that do", () => {
    const eel = rows.filter(({ bodyShape }) => bodyShape === "eel-like");
    expect(eel.map(({ species }) => species)).toEqual(["silver eel"]);
    expect(Number(eel[0].widthRatio)).toBeLessThan(0.05);
    expect(new Set(rows.map(({ turnsOnSide }) => turnsOnSide))).toEqual(new Set(["yes", "no"]));
  });

  it("marks every row as invented", () => {
    expect(rows.filter(({ note }) => !note.startsWith("invented"))).toEqual([]);
  });

  it("has bodies no wider than they are high", () => {
    expect(rows.filter((row) => Number(row.widthRatio) > Number(row.heightRatio))).toEqual([]);
  });
});
