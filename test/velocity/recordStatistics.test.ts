import { describe, expect, test } from "vitest";
import { cleanRecord, recordStatistics } from "../../kernel-helpers/src/velocity";
import { changed, cleanSamples } from "./turbulence";

const clean = cleanSamples(21, 6000);

describe("recordStatistics", () => {
  const found = recordStatistics(cleanRecord(clean));

  test("finds means, intensities and kinetic energy of a record whose truth is known", () => {
    expect(Math.abs(found.velocityX.mean - 0.5)).toBeLessThan(3 * found.velocityX.sampling.standardError);
    expect(Math.abs(found.velocityY.mean - 0.05)).toBeLessThan(3 * found.velocityY.sampling.standardError);
    expect(found.meanSpeed).toBeCloseTo(Math.hypot(0.5, 0.05), 2);
    expect(found.velocityX.intensity).toBeCloseTo(0.05 / Math.hypot(0.5, 0.05), 2);
    const k = (0.05 ** 2 + 0.035 ** 2 + 0.025 ** 2) / 2;
    expect(Math.abs(found.turbulentKineticEnergy / k - 1)).toBeLessThan(0.15);
  });

  test("finds no product of fluctuations that are independent, and that of those that are not", () => {
    expect(Math.abs(found.meanProducts.xy)).toBeLessThan(0.15 * 0.05 * 0.035);
    const tied = clean.map((one) => ({ ...one, velocityZ: -0.2 * (one.velocityX - 0.5) }));
    expect(recordStatistics(cleanRecord(tied)).meanProducts.xz).toBeCloseTo(-0.2 * 0.05 ** 2, 4);
  });

  test("takes good samples only: what is left out may hold anything", () => {
    const at = [50, 500, 5000];
    const poor = cleanRecord(changed(clean, at, () => ({ correlation: 10 })));
    const absurd = cleanRecord(changed(clean, at, () => ({ correlation: 10, velocityX: 1e6 })));
    expect(recordStatistics(absurd)).toEqual(recordStatistics(poor));
  });

  test("has no intensity where the water stands still", () => {
    const still = clean.map((one) => ({ ...one, velocityX: 0, velocityY: 0, velocityZ: 0 }));
    expect(recordStatistics(cleanRecord(still)).velocityX.intensity).toBeUndefined();
  });
});
