import { describe, expect, test } from "vitest";
import { meanVelocity, velocityFieldTruth } from "../../data-demo/generators/velocity-field";
import { probeRecord, probeTruth, velocityPoints } from "../../data-demo/generators/velocity-points";
import { cleanRecord, correlatedMean, recordStatistics } from "../../kernel-helpers/src/velocity";
import { normals, persistent } from "../velocity/turbulence";
import { coverageOf } from "./coverage";

const samples = 1500;
const recovered = (title: string, draw: (normal: () => number) => readonly (number | undefined)[]) =>
  coverageOf(title, (seed) => {
    const { lower, upper } = correlatedMean(draw(normals(seed)), { step: 0.04 });
    return [{ parameter: "mean", truth: 0, lower, upper }];
  })[0].share;

/** Fluctuations that swing: each takes 1.9 times the last less 0.95 times the one before; a vortex street does so. */
function swinging(normal: () => number): number[] {
  let [last, before] = [0, 0];
  const next = (): number => {
    const value = 1.9 * Math.cos(0.3) * last - 0.9025 * before + normal();
    before = last;
    last = value;
    return value;
  };
  for (let i = 0; i < 500; i++) next();
  return Array.from({ length: samples }, next);
}

describe("the sampling error of a mean of correlated samples", () => {
  test("holds the truth in 90 to 99 % of 200 records with geometric correlation", () => {
    const share = recovered("mean, persistence 0.9", (normal) => persistent(normal, samples, 0.9));
    expect(share).toBeGreaterThanOrEqual(0.9);
    expect(share).toBeLessThanOrEqual(0.99);
  });

  test("holds it as well with a tenth of the samples left out at random", () => {
    const share = recovered("mean, persistence 0.9, a tenth missing", (normal) =>
      persistent(normal, samples, 0.9).map((value) => (normal() > 1.2816 ? undefined : value)),
    );
    expect(share).toBeGreaterThanOrEqual(0.9);
    expect(share).toBeLessThanOrEqual(0.99);
  });

  test("holds it as well behind the cleaning of raw records with spikes and poor samples", () => {
    const points = velocityPoints();
    const truth = { ...velocityFieldTruth, samples: 750 };
    const coverages = coverageOf("raw record, cleaned", (seed) => {
      const point = points[seed % points.length];
      const mean = meanVelocity(truth, point.layout, point);
      const raw = probeRecord(point, 20_000 + seed, probeTruth, truth);
      const found = recordStatistics(
        cleanRecord(
          raw.map(({ time, x, y, z, correlation }) => ({
            time,
            velocityX: x,
            velocityY: y,
            velocityZ: z,
            correlation,
          })),
        ),
      );
      return [
        { parameter: "velocityX", truth: mean.x, ...found.velocityX.sampling },
        { parameter: "velocityY", truth: mean.y, ...found.velocityY.sampling },
        { parameter: "velocityZ", truth: mean.z, ...found.velocityZ.sampling },
      ];
    });
    for (const { share } of coverages) {
      expect(share).toBeGreaterThanOrEqual(0.9);
      expect(share).toBeLessThanOrEqual(0.99);
    }
  });

  // Outside of what the method can see.
  test("is too wide for fluctuations that swing, whose correlations go below zero and are not counted", () => {
    const share = recovered("mean, swinging fluctuations", swinging);
    expect(share).toBeGreaterThan(0.99);
  });

  test("is too narrow where the flow wanders slowly: the record is only a few such swings long", () => {
    const share = recovered("mean, slow swings under fast ones", (normal) => {
      const slow = persistent(normal, samples, 0.998);
      return persistent(normal, samples, 0.8).map((value, at) => value + slow[at]);
    });
    expect(share).toBeLessThan(0.9);
  });
});
