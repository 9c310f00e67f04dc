import * as fc from "fast-check";
import { bypass, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const structure = {
  entrance: { width: u.m(0.55), sillLevel: u.m(0), bedLevel: u.m(0) },
  control: {
    kind: "rampedCrest",
    crestWidth: u.m(0.8),
    crestLevel: u.m(2.6),
    accelerationLength: u.m(3),
  },
  chute: { width: u.m(0.8), length: u.m(60), bedSlope: 0.06, roughness: 0.013, headLevel: u.m(2.6) },
  pool: { bottomLevel: u.m(-3) },
} as const satisfies bypass.BypassStructure;

const water: bypass.BypassWater = {
  turbineFlow: u.m3ps(34),
  approachVelocity: u.mps(34 / (17 * 3.6)),
  headwaterLevel: u.m(3.6),
  tailwaterLevel: u.m(-1.8),
};

describe("bypass.flowThrough", () => {
  const flow = bypass.flowThrough(structure, water);

  test("passes what its free crest lets through, and continuity holds at entrance, crest and chute", () => {
    const free = bypass.broadCrestedWeir({ crestWidth: u.m(0.8), energyHead: u.m(1) });
    expect(flow.discharge).toBeCloseTo(free, 12);
    expect(flow.control.state).toBe("free");
    expect(flow.entranceVelocity * 0.55 * 3.6).toBeCloseTo(free, 12);
    expect(flow.control.velocity * 0.8 * (2 / 3)).toBeCloseTo(free, 9);
    for (const { depth, velocity } of flow.chute.profile) expect(depth * velocity * 0.8).toBeCloseTo(free, 9);
  });

  test("adds the velocity in the chute to the fall", () => {
    const lip = flow.chute.profile.at(-1);
    const energy = flow.outfall.fallHeight + (lip?.velocity ?? 0) ** 2 / (2 * 9.81);
    expect(flow.outfall.impactVelocity).toBeCloseTo(Math.sqrt(2 * 9.81 * energy), 3);
    expect(flow.outfall.impactVelocity).toBeGreaterThan(
      bypass.impactVelocity({ fallHeight: flow.outfall.fallHeight }),
    );
    expect(flow.outfall.lipLevel).toBeCloseTo(-1, 12);
    expect(flow.outfall.poolDepth).toBeCloseTo(1.2, 12);
  });

  test("hands its values to the check of practice", () => {
    const unmet = bypass.checkPractice(flow.values).filter((row) => !row.met);
    expect(unmet).toEqual([]);
    expect(flow.shareOfTurbineFlow).toBeCloseTo(flow.discharge / 34, 12);
  });

  test("more headwater never means less discharge, for any control", () => {
    const controls: bypass.Control[] = [
      structure.control,
      {
        kind: "sharpCrest",
        crestWidth: u.m(0.8),
        crestLevel: u.m(2.7),
        floorLevel: u.m(0),
        accelerationLength: u.m(1),
      },
      {
        kind: "sluiceGate",
        width: u.m(0.8),
        sillLevel: u.m(2),
        opening: u.m(0.5),
        accelerationLength: u.m(1),
      },
      { kind: "orifice", width: u.m(0.6), height: u.m(0.5), sillLevel: u.m(1.9), accelerationLength: u.m(1) },
    ];
    const low = { ...structure.chute, headLevel: u.m(1.9) };
    fc.assert(
      fc.property(
        fc.constantFrom(...controls),
        fc.double({ min: 3, max: 4.2, noNaN: true }),
        fc.double({ min: 0.01, max: 0.5, noNaN: true }),
        (control, level, more) => {
          const at = (headwaterLevel: number): number =>
            bypass.flowThrough(
              { ...structure, control, chute: low },
              { ...water, headwaterLevel: u.m(headwaterLevel) },
            ).discharge;
          expect(at(level + more)).toBeGreaterThan(at(level));
        },
      ),
      { numRuns: 40 },
    );
  });

  test("a mild chute or a high tailwater drowns a sharp crest until both carry the same flow", () => {
    const control: bypass.SharpCrest = {
      kind: "sharpCrest",
      crestWidth: u.m(0.8),
      crestLevel: u.m(2.6),
      floorLevel: u.m(0),
      accelerationLength: u.m(1),
    };
    const mild = { ...structure.chute, bedSlope: 0.001, headLevel: u.m(2) };
    const drowned = bypass.flowThrough({ ...structure, control, chute: mild }, water);
    expect(drowned.control.state).toBe("drowned");
    expect(drowned.cautions.join()).toContain("the chute is mild");
    // By hand: what the weir keeps with the water of the chute behind it.
    const behind = 2 + drowned.chute.profile[0].depth - 2.6;
    const kept = bypass.submergence({ upstreamHead: u.m(1), downstreamHead: u.m(behind) });
    const free = bypass.sharpCrestedWeir({ crestWidth: u.m(0.8), head: u.m(1), crestHeight: u.m(2.6) });
    expect(drowned.discharge).toBeCloseTo(kept * free, 6);
  });

  test.each([
    [{ headwaterLevel: u.m(2.5) }, "the bypass falls dry: the water upstream, at 2.5 m, does not reach"],
    [{ tailwaterLevel: u.m(4) }, "tailwaterLevel is 4 m; it must be below headwaterLevel, 3.6 m"],
    [{ tailwaterLevel: u.m(-3.2) }, "it must be above the pool's bottomLevel, -3 m"],
    [{ turbineFlow: u.m3ps(0) }, "turbineFlow is 0 m³/s; it must be above 0 m³/s"],
  ])("refuses water that the bypass can't meet: %#", (change, sentence) => {
    expect(() => bypass.flowThrough(structure, { ...water, ...change })).toThrow(sentence);
  });

  test("refuses a bypass that can't be built", () => {
    const entrance = { ...structure.entrance, sillLevel: u.m(-1) };
    expect(() => bypass.flowThrough({ ...structure, entrance }, water)).toThrow(
      "the entrance's sillLevel is -1 m; it must be at least its bedLevel, 0 m",
    );
    const chute = { ...structure.chute, headLevel: u.m(3.7) };
    expect(() => bypass.flowThrough({ ...structure, chute }, water)).toThrow("headLevel is 3.7 m");
  });
});

describe("bypass.adjust", () => {
  const gate = {
    ...structure,
    control: {
      kind: "sluiceGate",
      width: u.m(0.8),
      sillLevel: u.m(2),
      opening: u.m(0.1),
      accelerationLength: u.m(1),
    },
    chute: { ...structure.chute, headLevel: u.m(2) },
  } as const satisfies bypass.BypassStructure;

  test("finds the crest level or gate opening at which the bypass passes what is wanted", () => {
    const wanted = u.m3ps(1.2);
    const crest = bypass.adjust<bypass.RampedCrest>(structure, water, wanted);
    expect(bypass.flowThrough(crest, water).discharge).toBeCloseTo(1.2, 9);
    expect(3.6 - crest.control.crestLevel).toBeCloseTo(
      bypass.broadCrestedWeirHead({ discharge: wanted, crestWidth: u.m(0.8) }),
      6,
    );
    const opened = bypass.adjust<bypass.SluiceGate>(gate, water, wanted);
    expect(opened.control.opening).toBeCloseTo(
      bypass.sluiceGateOpening({ discharge: wanted, width: u.m(0.8), upstreamDepth: u.m(1.6) }),
      6,
    );
  });

  test("says how much the control can pass where more is wanted", () => {
    expect(() => bypass.adjust<bypass.SluiceGate>(gate, water, u.m3ps(9))).toThrow(
      /bypass\.adjust: discharge is 9 m³\/s; this control passes .* at these water levels/,
    );
  });
});
