import { describe, expect, test } from "vitest";
import * as figures from "../../kernel-helpers/src/figures";
import { field } from "../../kernel-helpers/src/velocity";
import { alongFlumeRack, faultyRecord, flumeField, flumeSite, intoBypass } from "./velocities";

describe("probeRecord", () => {
  const record = faultyRecord();

  test("draws every sample as it came and what is kept over it, with the reasons counted", () => {
    const { data } = figures.probeRecord({ record, from: 0, to: 60 });
    const [raw, kept, spikes, poor] = data;
    expect(raw.x).toHaveLength(1500);
    const gaps = (kept.y as readonly (number | null)[]).filter((value) => value === null);
    expect(gaps).toHaveLength(1500 - record.count.good);
    expect(spikes.name).toBe(`spike (${record.count.spikes})`);
    expect(poor.name).toBe(`poor correlation (${record.count.poorCorrelation})`);
  });

  test("refuses a part without samples and says how long the record is", () => {
    expect(() => figures.probeRecord({ record, from: 70 })).toThrow(
      "from 70 s to 90 s the record has 0 samples; it runs from 0 s to 59.96 s",
    );
  });
});

describe("velocityMap", () => {
  test("draws arrows only where the field is known", () => {
    const flow = flumeField("full depth");
    const { data } = figures.velocityMap({ field: flow, site: flumeSite });
    const tails = data.find(({ mode }) => mode === "lines");
    const [x, y] = [tails?.x, tails?.y] as (readonly (number | null)[])[];
    const first = x.filter((_, at) => at % 3 === 0);
    expect(first.length).toBeGreaterThan(30);
    first.forEach((value, arrow) => expect(flow(value ?? NaN, y[3 * arrow] ?? NaN)).toBeDefined());
  });

  test("keeps the colours' range for maps that are compared, and refuses one that doesn't rise", () => {
    const flow = flumeField("full depth");
    const bands = figures.velocityMap({ field: flow, site: flumeSite, range: [0, 1] }).data[0].contours;
    expect(bands).toMatchObject({ start: 0, end: 1 });
    expect(() => figures.velocityMap({ field: flow, site: flumeSite, range: [0.5, 0.5] })).toThrow(
      /range is 0.5 to 0.5 m\/s/,
    );
  });

  test("shows a part of the plan, with what lies in it, and refuses a part outside of it", () => {
    const flow = flumeField("bottom opening");
    const part = { x: [0.8, 1.7], y: [0.9, 1.5] } as const;
    const { data, layout, alt } = figures.velocityMap({ field: flow, site: flumeSite, part });
    const inPart = flow.points.filter(({ x, y }) => x >= 0.8 && x <= 1.7 && y >= 0.9 - 0.03);
    expect(data.find(({ name }) => name === "measured")?.x).toHaveLength(inPart.length);
    expect(JSON.stringify(layout.annotations)).not.toContain('"rack"');
    expect(alt).toContain("a part of the plan");
    expect(() =>
      figures.velocityMap({ field: flow, site: flumeSite, part: { x: [5, 6], y: [0, 1] } }),
    ).toThrow(/part runs from x 5 to 6 m and y 0 to 1 m; both must rise and lie in x -1.52 to 1.71 m/);
  });

  test("says where the water is fastest, and refuses a field outside of the walls", () => {
    const far = [0, 1, 2].map((at) => ({ x: at, y: 50 + at ** 2, velocityX: 1, velocityY: 0 }));
    expect(() => figures.velocityMap({ field: field(far), site: flumeSite })).toThrow(
      /no place between the walls/,
    );
    expect(figures.velocityMap({ field: flumeField("bottom opening"), site: flumeSite }).alt).toMatch(
      /from 50 points: from 0.\d+ m\/s at \(.*\) m to 0.\d+ m\/s at \(1\.\d+, 1\.\d+\) m/,
    );
  });
});

describe("alongRack and alongLine", () => {
  test("draw each layout at its own stations, with the limits in words", () => {
    const along = alongFlumeRack("full depth");
    const { data, alt } = figures.alongRack({
      layouts: [{ name: "full depth", along }],
      limits: [{ name: "limit", value: 0.5 }],
    });
    expect(data.map(({ name }) => name)).toEqual(["full depth, normal", "full depth, along the rack"]);
    expect(data[0].y).toEqual(along.stations.map(({ normal }) => normal));
    expect(alt).toMatch(/Marked: limit at 0.5 m\/s\./);
  });

  test("draw the gradient in the middle of its stretch, or the speed at its station", () => {
    const along = intoBypass("full depth");
    const lines = [{ name: "full depth", along }];
    expect(figures.alongLine({ lines }).data[0].x).toEqual(along.gradients.map(({ distance }) => distance));
    expect(figures.alongLine({ lines, shows: "speed" }).data[0].x).toEqual(
      along.stations.map(({ distance }) => distance),
    );
    expect(() => figures.alongLine({ lines: [] })).toThrow(/nothing to draw/);
    expect(() => figures.alongRack({ layouts: [] })).toThrow(/nothing to draw/);
  });
});
