import { describe, expect, test } from "vitest";
import { cleanRecord } from "../../kernel-helpers/src/velocity";
import { meanVelocity, velocityFieldTruth } from "../../data-demo/generators/velocity-field";
import { probeRecord, velocityPoints } from "../../data-demo/generators/velocity-points";
import { changed, cleanSamples, normals } from "./turbulence";

const clean = cleanSamples(11);

const deviation = (values: readonly number[]): number => {
  const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
  return Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / values.length);
};

describe("cleanRecord", () => {
  test("keeps every sample as it came, with a verdict on each", () => {
    const raw = changed(clean, [400, 401, 900], ({ velocityX }) => ({ velocityX: velocityX + 0.7 }));
    const { samples, count } = cleanRecord(raw);
    expect(
      samples.map(({ time, velocityX, velocityY, velocityZ, correlation }) => ({
        time,
        velocityX,
        velocityY,
        velocityZ,
        correlation,
      })),
    ).toEqual(raw);
    expect(count.good + count.spikes + count.poorCorrelation).toBe(raw.length);
    expect([400, 401, 900].map((at) => samples[at].verdict)).toEqual(["spike", "spike", "spike"]);
  });

  test("says in which component a sample is a spike", () => {
    const raw = changed(clean, [500], () => ({ velocityZ: -0.9 }));
    expect(cleanRecord(raw).samples[500].spikeIn).toEqual(["velocityZ"]);
  });

  test("leaves a record without faults nearly alone, in both methods", () => {
    expect(cleanRecord(clean).removedShare).toBeLessThan(0.01);
    expect(cleanRecord(clean, { method: "original" }).removedShare).toBeLessThan(0.01);
  });

  test("holds the correlation against the stated limit, and calls such a sample no spike", () => {
    const raw = changed(clean, [100, 200, 300], () => ({ correlation: 60, velocityX: 2 }));
    const strict = cleanRecord(raw);
    expect(strict.count.poorCorrelation).toBe(3);
    expect([100, 200, 300].map((at) => strict.samples[at].verdict)).toEqual(
      Array.from({ length: 3 }, () => "poor correlation"),
    );
    const lax = cleanRecord(raw, { lowestCorrelation: 50 });
    expect(lax.count.poorCorrelation).toBe(0);
    expect([100, 200, 300].map((at) => lax.samples[at].verdict)).toEqual(["spike", "spike", "spike"]);
  });

  test("bridges what it leaves out with values between the neighbours, and leaves good ones as they are", () => {
    const raw = changed(clean, [700], () => ({ velocityX: 3 }));
    const { samples } = cleanRecord(raw);
    expect(Math.abs(samples[700].bridged.velocityX - clean[700].velocityX)).toBeLessThan(0.1);
    const good = samples.filter(({ verdict }) => verdict === "good");
    expect(good.every(({ bridged, velocityX }) => bridged.velocityX === velocityX)).toBe(true);
  });

  test.each(["robust", "original"] as const)(
    "finds every spike of forty raw records with known faults (%s), at the price of some neighbours",
    (method) => {
      const points = velocityPoints();
      let missed = 0;
      let spikes = 0;
      let falseAlarms = 0;
      let faultless = 0;
      for (let n = 0; n < 40; n++) {
        const truth = probeRecord(points[7 * n], 900 + n);
        const { samples } = cleanRecord(
          truth.map(({ time, x, y, z, correlation }) => ({
            time,
            velocityX: x,
            velocityY: y,
            velocityZ: z,
            correlation,
          })),
          { method },
        );
        for (const [at, { fault }] of truth.entries()) {
          if (fault === "spike") spikes++;
          if (fault === "spike" && samples[at].verdict === "good") missed++;
          if (fault === "none") faultless++;
          if (fault === "none" && samples[at].verdict !== "good") falseAlarms++;
        }
      }
      expect(spikes).toBeGreaterThan(1000);
      expect(missed).toBeLessThanOrEqual(0.002 * spikes);
      expect(falseAlarms).toBeLessThan(0.12 * faultless);
    },
  );

  test("brings the standard deviation of a record with spikes back to that of the flow", () => {
    const point = velocityPoints()[61];
    const speed = Math.hypot(...Object.values(meanVelocity(velocityFieldTruth, point.layout, point)));
    const raw = probeRecord(point, 7311).map(({ time, x, y, z, correlation }) => ({
      time,
      velocityX: x,
      velocityY: y,
      velocityZ: z,
      correlation,
    }));
    const good = cleanRecord(raw).samples.filter(({ verdict }) => verdict === "good");
    expect(deviation(raw.map(({ velocityX }) => velocityX)) / (0.1 * speed)).toBeGreaterThan(2);
    expect(deviation(good.map(({ velocityX }) => velocityX)) / (0.1 * speed)).toBeCloseTo(1, 0);
  });

  test("finds spikes that are a seventh of a record; the original method is blinded by them", () => {
    const normal = normals(17);
    const spikes = clean.map(() => normal() > 1.07);
    const raw = clean.map((sample, at) =>
      spikes[at] ? { ...sample, velocityX: sample.velocityX + (normal() > 0 ? 0.3 : -0.3) } : sample,
    );
    const found = (method: "robust" | "original"): number => {
      const { samples } = cleanRecord(raw, { method, leastGoodShare: 0.3 });
      const marked = samples.filter(({ verdict }, at) => spikes[at] && verdict === "spike").length;
      return marked / spikes.filter(Boolean).length;
    };
    expect(found("robust")).toBe(1);
    expect(found("original")).toBeLessThan(0.2);
  });

  test("takes a component that never changes for one without spikes", () => {
    const still = clean.map((sample) => ({ ...sample, velocityY: 0, velocityZ: 0 }));
    expect(cleanRecord(still).removedShare).toBeLessThan(0.01);
  });
});

describe("cleanRecord refuses", () => {
  test("a record of which too little is good, with the share and the remedy", () => {
    const half = clean.map((sample, at) => ({ ...sample, correlation: at % 2 === 0 ? 40 : 90 }));
    expect(() => cleanRecord(half)).toThrow(
      "velocity.cleanRecord: 750 of 1500 samples fall out by a correlation below 70 %; at least 70 % must be good. Measure the point again",
    );
    expect(cleanRecord(half, { leastGoodShare: 0.3 }).count.poorCorrelation).toBe(750);
  });

  test("times out of order, the same time twice and a gap", () => {
    const swapped = clean.map((sample, at) => (at === 10 ? { ...sample, time: 0.1 } : sample));
    expect(() => cleanRecord(swapped)).toThrow(
      /sample 11 is at 0.1 s, not after the one before it at 0.36 s/,
    );
    const twice = [...clean.slice(0, 100), ...clean.slice(99)];
    expect(() => cleanRecord(twice)).toThrow(/sort the record by time and keep each sample once/);
    const gap = [...clean.slice(0, 100), ...clean.slice(120)];
    expect(() => cleanRecord(gap)).toThrow(/evenly spaced/);
  });

  test("too few samples, a correlation beyond 100 % and a value that is no number", () => {
    expect(() => cleanRecord(clean.slice(0, 99))).toThrow(/has 99 samples; it must have at least 100/);
    expect(() => cleanRecord(changed(clean, [3], () => ({ correlation: 101 })))).toThrow(
      /correlation of sample 4 is 101; it must lie from 0 to 100/,
    );
    expect(() => cleanRecord(changed(clean, [3], () => ({ velocityX: NaN })))).toThrow(
      /velocityX of sample 4 is NaN/,
    );
  });

  test("a method that it does not know", () => {
    const method: string = "wavelet";
    expect(() => cleanRecord(clean, { method: method as "robust" })).toThrow(/"robust" or "original"/);
  });
});
