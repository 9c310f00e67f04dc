import * as fc from "fast-check";
import { bypass, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

describe("normalDepth", () => {
  test("is the depth at which manning gives the discharge back", () => {
    fc.assert(
      fc.property(
        fc.record({
          flow: fc.double({ min: 0.001, max: 200, noNaN: true }),
          roughness: fc.double({ min: 0.009, max: 0.1, noNaN: true }),
          bedSlope: fc.double({ min: 1e-5, max: 0.05, noNaN: true }),
          width: fc.double({ min: 0.2, max: 30, noNaN: true }),
          sideSlope: fc.double({ min: 0, max: 3, noNaN: true }),
        }),
        ({ flow, roughness, bedSlope, width, sideSlope }) => {
          const channel = { roughness, bedSlope, bottomWidth: u.m(width), sideSlope };
          const depth = bypass.normalDepth({ ...channel, discharge: u.m3ps(flow) });
          expect(bypass.manning({ ...channel, depth }) / flow).toBeCloseTo(1, 9);
        },
      ),
    );
  });

  test("says when the flow is supercritical, and when it is near critical", () => {
    const channel = { roughness: 0.013, bottomWidth: u.m(1), discharge: u.m3ps(1.4) };
    const cautions = (bedSlope: number): readonly string[] =>
      bypass.normalDepth.cautions({ ...channel, bedSlope });
    expect(cautions(0.03).join()).toContain("supercritical");
    expect(cautions(0.006).join()).toContain("near its critical depth");
    expect(cautions(0.0005)).toEqual([]);
  });
});

describe("what a weir or gate can't do is refused", () => {
  test.each([
    [
      () => bypass.submergence({ upstreamHead: u.m(0.3), downstreamHead: u.m(0.3) }),
      "bypass.submergence: downstreamHead is 0.3 m; it must be below upstreamHead, 0.3 m: water does not flow uphill.",
    ],
    [
      () => bypass.sluiceGateCoefficient({ opening: u.m(2), upstreamDepth: u.m(1.5) }),
      "bypass.sluiceGateCoefficient: opening is 2 m; it must be below upstreamDepth, 1.5 m",
    ],
    [
      () => bypass.contractedWeir({ crestWidth: u.m(0.1), head: u.m(1), contractions: 2 }),
      "bypass.contractedWeir: head is 1 m; with 2 contractions it must be below 0.5 m",
    ],
  ])("%#", (call, sentence) => {
    expect(call).toThrow(sentence);
  });

  test("a head beyond what the coefficient knows is answered with a caution", () => {
    const weir = { crestWidth: u.m(1), crestHeight: u.m(0.1) };
    expect(bypass.sharpCrestedWeir.cautions({ ...weir, head: u.m(0.6) }).join()).toContain(
      "5 times the height",
    );
    expect(bypass.sharpCrestedWeir.cautions({ ...weir, head: u.m(0.4) })).toEqual([]);
  });
});
