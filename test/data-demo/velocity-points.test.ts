import { describe, expect, it } from "vitest";
import { distanceToRack, trackFlume as flume, upstreamOfRack } from "../../data-demo/generators/track-flume";
import {
  meanVelocity,
  velocityFieldTruth as truth,
  velocityLayouts,
} from "../../data-demo/generators/velocity-field";
import {
  probeRecord,
  probeTruth,
  rawPoints,
  velocityPoints,
} from "../../data-demo/generators/velocity-points";
import { demoRows } from "./files";
import { correlation, deviation, groupsBy, mean } from "./numbers";

const points = demoRows("velocity-points.csv").map((row) => ({
  pointId: row.pointId,
  layout: row.layout,
  x: Number(row["x [m]"]),
  y: Number(row["y [m]"]),
  z: Number(row["z [m]"]),
  velocityX: Number(row["velocityX [m/s]"]),
  velocityY: Number(row["velocityY [m/s]"]),
  velocityZ: Number(row["velocityZ [m/s]"]),
}));
const samples = demoRows("probe-records.csv").map((row) => ({
  pointId: row.pointId,
  time: Number(row["time [s]"]),
  velocityX: Number(row["velocityX [m/s]"]),
  velocityY: Number(row["velocityY [m/s]"]),
  correlation: Number(row.correlation),
}));
const [fullDepth, bottomOpening] = velocityLayouts;

function tangential({
  velocityX,
  velocityY,
}: {
  readonly velocityX: number;
  readonly velocityY: number;
}): number {
  return velocityX * Math.cos(flume.angle) + velocityY * Math.sin(flume.angle);
}

function normal({
  velocityX,
  velocityY,
}: {
  readonly velocityX: number;
  readonly velocityY: number;
}): number {
  return velocityX * Math.sin(flume.angle) - velocityY * Math.cos(flume.angle);
}

function risingNearBypass(layout: string): number {
  const near = points.filter((point) => point.layout === layout && point.x > 1.5 && point.y > 1.3);
  return mean(near.map(({ velocityZ }) => velocityZ));
}

describe("velocity-points.csv", () => {
  it("has the same places in both layouts, each once, upstream of the rack and between the walls", () => {
    const perLayout = [...groupsBy(points, ({ layout }) => layout).values()].map((group) =>
      group.map(({ x, y, z }) => `${x} ${y} ${z}`),
    );
    expect(perLayout).toHaveLength(2);
    expect(perLayout[0]).toEqual(perLayout[1]);
    expect(new Set(perLayout[0]).size).toBe(perLayout[0].length);
    expect(perLayout[0].length).toBeGreaterThan(100);
    expect(points.filter((point) => !upstreamOfRack(flume, point))).toEqual([]);
    expect(points.filter(({ y, z }) => y <= 0 || y >= flume.width || z <= 0 || z >= truth.depth)).toEqual([]);
  });

  it("carries the discharge of the flume through the farthest section", () => {
    const section = points.filter(({ x, layout }) => x === -1.5 && layout === fullDepth.layout);
    expect(section).toHaveLength(15);
    // Five verticals of three heights stand for their fields: a few per cent are lost to the profiles between them.
    expect(
      Math.abs(mean(section.map(({ velocityX }) => velocityX)) / truth.approachVelocity - 1),
    ).toBeLessThan(0.06);
  });

  it("flows along the rack more than against it: tangential above normal velocity close to the rack", () => {
    const close = points.filter((point) => distanceToRack(flume, point) < 0.12);
    expect(close.length).toBeGreaterThan(20);
    expect(close.filter((point) => tangential(point) <= normal(point))).toEqual([]);
  });

  it("speeds up towards the bypass, more steeply in the layout with the bottom opening", () => {
    const [full, bottom] = velocityLayouts.map(({ layout }) => {
      const before = points.filter((point) => point.layout === layout && point.y === 1.4 && point.z === 0.3);
      const far = before.find(({ x }) => x === 1.3)?.velocityX ?? Number.NaN;
      const near = before.find(({ x }) => x === 1.65)?.velocityX ?? Number.NaN;
      return (near - far) / 0.35;
    });
    expect(full).toBeGreaterThan(0);
    expect(bottom).toBeGreaterThan(full);
  });

  it("sinks towards the bottom opening, and nowhere in the other layout", () => {
    expect(risingNearBypass(bottomOpening.layout)).toBeLessThan(-0.03);
    expect(Math.abs(risingNearBypass(fullDepth.layout))).toBeLessThan(0.01);
  });

  it("lies about the true means by the sampling error alone", () => {
    const independent = (truth.samples * (1 - truth.persistence)) / (1 + truth.persistence);
    const scaled = points.map((point) => {
      const layout = velocityLayouts.find((one) => one.layout === point.layout) ?? fullDepth;
      const expected = meanVelocity(truth, layout, point);
      const speed = Math.hypot(expected.x, expected.y, expected.z);
      return (point.velocityX - expected.x) / ((truth.intensityX * speed) / Math.sqrt(independent));
    });
    expect(Math.abs(mean(scaled))).toBeLessThan(3.5 / Math.sqrt(scaled.length));
    expect(Math.abs(deviation(scaled) - 1)).toBeLessThan(3.5 / Math.sqrt(2 * scaled.length));
  });
});

describe("probe-records.csv", () => {
  const records = groupsBy(samples, ({ pointId }) => pointId);

  it("has the whole record of each point, at the sampling rate", () => {
    expect([...records.keys()]).toEqual([...rawPoints]);
    for (const record of records.values()) {
      expect(record).toHaveLength(truth.samples);
      expect(record[record.length - 1].time).toBeCloseTo((truth.samples - 1) / truth.samplingRate, 9);
    }
  });

  it("shows poor samples by their correlation, as many as stated", () => {
    const poor = samples.filter((sample) => sample.correlation < 70).length / samples.length;
    const share = probeTruth.poorShare;
    expect(Math.abs(poor - share)).toBeLessThan(3.5 * Math.sqrt((share * (1 - share)) / samples.length));
    expect(samples.filter((sample) => sample.correlation >= 66 && sample.correlation < 80)).toEqual([]);
  });

  it("has spikes of good correlation far outside the fluctuations, about as many as stated", () => {
    const spikes = [...records.values()].flatMap((record) => {
      const middle = record.map(({ velocityX }) => velocityX).toSorted((a, b) => a - b)[truth.samples / 2];
      return record.filter((one) => one.correlation >= 70 && Math.abs(one.velocityX - middle) > 0.28);
    });
    const share = probeTruth.spikeShare;
    expect(Math.abs(spikes.length / samples.length - share)).toBeLessThan(
      3.5 * Math.sqrt((share * (1 - share)) / samples.length),
    );
  });

  it.each(rawPoints.map((pointId, index) => ({ pointId, index })))(
    "without the faults gives back mean and turbulence of $pointId",
    ({ pointId, index }) => {
      const point = velocityPoints().find((one) => one.pointId === pointId) ?? velocityPoints()[0];
      const record = probeRecord(point, probeTruth.seed + index);
      const good = record.filter(({ fault }) => fault === "none").map(({ x }) => x);
      const expected = meanVelocity(truth, point.layout, point);
      const spread = truth.intensityX * Math.hypot(expected.x, expected.y, expected.z);
      const independent = (truth.samples * (1 - truth.persistence)) / (1 + truth.persistence);
      expect(Math.abs(mean(good) - expected.x)).toBeLessThan((3.5 * spread) / Math.sqrt(independent));
      expect(Math.abs(deviation(good) / spread - 1)).toBeLessThan(3.5 / Math.sqrt(2 * independent) + 0.02);
      // The file holds the same record.
      const held = records.get(pointId) ?? [];
      expect(held.map(({ velocityX }) => velocityX)).toEqual(record.map(({ x }) => Number(x.toFixed(4))));
    },
  );

  it("keeps the fluctuations' persistence from sample to sample where no fault lies", () => {
    const quiet = { ...probeTruth, spikeShare: 0, poorShare: 0, noise: 0 };
    const values = probeRecord(velocityPoints()[0], 1, quiet).map(({ x }) => x);
    expect(correlation(values.slice(0, -1), values.slice(1))).toBeCloseTo(truth.persistence, 1);
  });
});
