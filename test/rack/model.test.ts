import { describe, expect, test } from "vitest";
import { rack, rackLoss, river, u } from "kernel-helpers";

const nature = {
  channelWidth: u.m(17),
  waterDepth: u.m(3.6),
  barThickness: u.mm(8),
  clearSpacing: u.mm(18),
  discharge: u.m3ps(34),
  rackAngle: u.deg(38),
  sweepTime: u.s(60),
};

const froude = (velocity: number, depth: number): number => velocity / Math.sqrt(9.81 * depth);

describe("a Froude model", () => {
  test("goes to the model and back to nature without loss", () => {
    for (const scale of [0.5, 1, 2, 7.3, 40]) {
      const back = rack.toNature(scale, rack.toModel(scale, nature));
      for (const name of Object.keys(nature) as (keyof typeof nature)[]) {
        expect(back[name]).toBeCloseTo(nature[name], 12);
      }
    }
  });

  test("has the Froude number and the angle of nature, and obeys continuity", () => {
    const model = rack.toModel(9, {
      ...nature,
      approachVelocity: river.approachVelocity({
        discharge: nature.discharge,
        width: nature.channelWidth,
        depth: nature.waterDepth,
      }),
    });
    expect(froude(model.approachVelocity, model.waterDepth)).toBeCloseTo(froude(34 / (17 * 3.6), 3.6), 12);
    expect(model.discharge / (model.channelWidth * model.waterDepth)).toBeCloseTo(model.approachVelocity, 12);
    expect(model.rackAngle).toBe(nature.rackAngle);
  });

  test("has a head loss that scales like a length where the loss coefficient is the same", () => {
    const loss = (at: {
      barThickness: typeof nature.barThickness;
      clearSpacing: typeof nature.clearSpacing;
      approachVelocity: ReturnType<typeof u.mps>;
    }) => rackLoss.kirschmer({ ...at, shapeFactor: 2.42, inclination: u.deg(70) });
    const { barThickness, clearSpacing } = nature;
    const full = { barThickness, clearSpacing, approachVelocity: u.mps(0.56) };
    const headLoss = loss(rack.toModel(6, full));
    expect(rack.toNature(6, { headLoss }).headLoss).toBeCloseTo(loss(full), 12);
  });

  test("refuses what it can't scale", () => {
    const unknown = { viscosity: 1 } as object;
    expect(() => rack.toModel(4, unknown)).toThrow(
      'rack.toModel: "viscosity" is nothing it knows how to scale; it scales channelWidth,',
    );
    expect(() => rack.toModel(4, { waterDepth: u.m(-1) })).toThrow(
      "rack.toModel: waterDepth is -1; it must be a quantity of at least 0.",
    );
    expect(() => rack.toModel(0, nature)).toThrow("rack.froudeScale: lengthScale is 0; it must be above 0");
  });
});

describe("the Reynolds number of a bar in the model", () => {
  test("is that of the shrunk bar in the slower water", () => {
    const lengthScale = 5;
    const model = rack.toModel(lengthScale, { approachVelocity: u.mps(0.56), barThickness: u.mm(8) });
    expect(
      rack.modelBarReynolds({ approachVelocity: u.mps(0.56), barThickness: u.mm(8), lengthScale }),
    ).toBeCloseTo(rack.barReynolds(model), 8);
  });
});

describe("the scales that a flume allows", () => {
  const flume = { width: u.m(1.5), depth: u.m(0.8), discharge: u.Lps(300) };
  const channel = {
    channelWidth: u.m(12),
    waterDepth: u.m(2.4),
    discharge: u.m3ps(14),
    barThickness: u.mm(8),
    flume,
  };

  test("are the demands of width, depth, pump and bars, each just met at its scale", () => {
    const { demands, least, greatest, fits, barReynoldsAtLeast } = rack.modelScales(channel);
    const at = Object.fromEntries(demands.map(({ demand, lengthScale }) => [demand, lengthScale]));
    expect(
      rack.toModel(at["width of the flume"], { channelWidth: channel.channelWidth }).channelWidth,
    ).toBeCloseTo(flume.width, 12);
    expect(rack.toModel(at["depth of the flume"], { waterDepth: channel.waterDepth }).waterDepth).toBeCloseTo(
      flume.depth,
      12,
    );
    expect(rack.toModel(at.pump, { discharge: channel.discharge }).discharge).toBeCloseTo(
      flume.discharge,
      12,
    );
    const approachVelocity = u.mps(14 / (12 * 2.4));
    expect(
      rack.modelBarReynolds({ approachVelocity, barThickness: u.mm(8), lengthScale: greatest }),
    ).toBeCloseTo(rack.barReynoldsLimit.least, 8);
    expect([least, fits]).toEqual([8, false]);
    expect(barReynoldsAtLeast).toBeCloseTo(
      rack.modelBarReynolds({ approachVelocity, barThickness: u.mm(8), lengthScale: 8 }),
      8,
    );
  });

  test("fit where the flume is large enough, and the whole channel is then kept", () => {
    const large = { width: u.m(12), depth: u.m(3), discharge: u.m3ps(20) };
    const { fits, section, greatest, approachVelocity } = rack.modelScales({ ...channel, flume: large });
    expect([fits, section.widthShare, section.depthShare]).toEqual([true, 1, 1]);
    expect(section.discharge).toBeCloseTo(
      rack.toModel(greatest, { discharge: channel.discharge }).discharge,
      12,
    );
    expect(section.froudeNumber).toBeCloseTo(froude(approachVelocity, channel.waterDepth), 12);
  });

  test("leave a part of the channel where only that fits, with the velocity of the model", () => {
    for (const pump of [0.2, 0.6, 2]) {
      const small = { width: u.m(1.5), depth: u.m(0.8), discharge: u.m3ps(pump) };
      const { fits, section, greatest, approachVelocity } = rack.modelScales({ ...channel, flume: small });
      expect(fits).toBe(false);
      expect(section.width).toBeLessThanOrEqual(1.5 * (1 + 1e-12));
      expect(section.depth).toBeCloseTo(0.8, 12);
      expect(section.discharge).toBeLessThanOrEqual(pump * (1 + 1e-12));
      expect(Math.max(section.width / 1.5, section.discharge / pump)).toBeCloseTo(1, 10);
      expect(section.discharge / (section.width * section.depth)).toBeCloseTo(
        rack.toModel(greatest, { approachVelocity }).approachVelocity,
        12,
      );
      expect(section.froudeNumber).toBeGreaterThan(froude(approachVelocity, channel.waterDepth));
    }
  });

  test("follow an edited limit and warmer water, and name where the limit comes from", () => {
    const usual = rack.modelScales(channel);
    const edited = rack.modelScales({ ...channel, leastBarReynolds: 300, kinematicViscosity: u.m2ps(1e-6) });
    expect(edited.greatest / usual.greatest).toBeCloseTo((5 * 1.3) ** (2 / 3), 10);
    expect([usual.limit.source.provenance, edited.limit.source.provenance]).toEqual(["practice", "stated"]);
  });

  test("refuse sizes that are none", () => {
    expect(() => rack.modelScales({ ...channel, flume: { ...flume, width: u.m(0) } })).toThrow(
      "rack.modelScales: flume.width is 0 m; it must be above 0 m.",
    );
    expect(() => rack.modelScales({ ...channel, leastBarReynolds: -1 })).toThrow(
      /rack\.modelScales: .*above 0/,
    );
  });
});
