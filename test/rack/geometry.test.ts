import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rack, river, u } from "kernel-helpers";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const angle = between(10, 89);

/** The size of a relative difference. */
const apart = (one: number, other: number): number => Math.abs(one / other - 1);

describe("geometry of a rack", () => {
  test("a rack square to the channel is as long as the channel is wide, an angled one longer", () => {
    expect(rack.length({ channelWidth: u.m(17), rackAngle: u.deg(90) })).toBe(17);
    fc.assert(
      fc.property(angle, (degrees) => {
        expect(rack.length({ channelWidth: u.m(17), rackAngle: u.deg(degrees) })).toBeGreaterThan(17);
      }),
    );
  });

  test("blockage stays within 0 and 1, falls with the clear spacing and rises with the share of supports", () => {
    fc.assert(
      fc.property(
        between(1, 50),
        between(1, 200),
        between(0, 1),
        between(1.01, 3),
        (bar, gap, share, factor) => {
          const blockage = (clearSpacing: number, supportShare: number): number =>
            rack.blockage({ barThickness: u.mm(bar), clearSpacing: u.mm(clearSpacing), supportShare });
          expect(blockage(gap, share)).toBeGreaterThanOrEqual(0);
          expect(blockage(gap, share)).toBeLessThanOrEqual(1);
          expect(blockage(factor * gap, 0)).toBeLessThan(blockage(gap, 0));
          expect(blockage(gap, share)).toBeGreaterThanOrEqual(blockage(gap, share / factor));
        },
      ),
    );
  });

  test("a rack fully behind supports lets nothing through, and then there is no velocity between the bars", () => {
    expect(rack.blockage({ barThickness: u.mm(8), clearSpacing: u.mm(18), supportShare: 1 })).toBe(1);
    expect(() => rack.gapVelocity({ normalVelocity: u.mps(0.3), blockage: 1 })).toThrow(
      "rack.gapVelocity: blockage is 1; it must be at least 0 and below 1.",
    );
  });
});

describe("velocities at a rack", () => {
  test("nothing flows along a rack square to the flow, to the last digit", () => {
    const square = { approachVelocity: u.mps(0.6), rackAngle: u.deg(90) };
    expect(rack.tangentialVelocity(square)).toBe(0);
    expect(rack.normalVelocity(square)).toBe(0.6);
  });

  test("the flow through the gaps is the flow of the channel", () => {
    fc.assert(
      fc.property(angle, between(0.05, 2), between(0.05, 0.9), (degrees, speed, blockage) => {
        const [width, depth] = [u.m(17), u.m(3.6)];
        const rackAngle = u.deg(degrees);
        const approachVelocity = river.approachVelocity({
          discharge: u.m3ps(speed * width * depth),
          width,
          depth,
        });
        const normalVelocity = rack.normalVelocity({ approachVelocity, rackAngle });
        const open = rack.length({ channelWidth: width, rackAngle }) * depth * (1 - blockage);
        expect(
          apart(rack.gapVelocity({ normalVelocity, blockage }) * open, speed * width * depth),
        ).toBeLessThan(1e-12);
      }),
    );
  });

  test("the sweep time is the length of the rack over the velocity along it", () => {
    fc.assert(
      fc.property(angle, between(0.05, 2), between(2, 60), (degrees, speed, width) => {
        const [channelWidth, rackAngle, approachVelocity] = [u.m(width), u.deg(degrees), u.mps(speed)];
        const expected =
          rack.length({ channelWidth, rackAngle }) / rack.tangentialVelocity({ approachVelocity, rackAngle });
        expect(apart(rack.sweepTime({ channelWidth, rackAngle, approachVelocity }), expected)).toBeLessThan(
          1e-12,
        );
      }),
    );
  });

  test("a rack square to the flow has no sweep time: nothing sweeps along it", () => {
    expect(() =>
      rack.sweepTime({ channelWidth: u.m(17), rackAngle: u.deg(90), approachVelocity: u.mps(0.6) }),
    ).toThrow(
      "rack.sweepTime: rackAngle is 90°; it must be above 0° and below 90° " +
        "(in plan, between rack and flow; at 90° nothing sweeps along the rack).",
    );
  });

  test("the required area brings the normal velocity down to the permitted one", () => {
    const area = rack.requiredArea({ discharge: u.m3ps(34), permittedNormalVelocity: u.mps(0.5) });
    expect(34 / area).toBe(0.5);
  });
});

describe("loads and models", () => {
  test("a clean rack with level water carries no load; a wall with water on one side carries half ρ g h² a metre", () => {
    const level = { upstreamDepth: u.m(3), downstreamDepth: u.m(3), width: u.m(10), blockedShare: 1 };
    expect(rack.hydrostaticLoad(level)).toBe(0);
    expect(rack.hydrostaticLoad({ ...level, downstreamDepth: u.m(0), width: u.m(1) })).toBeCloseTo(44_145, 6);
    expect(rack.hydrostaticLoad.cautions(level).join()).toContain("licensed engineer");
  });

  test("water higher behind the rack than before it is refused", () => {
    const inputs = { upstreamDepth: u.m(3), downstreamDepth: u.m(3.2), width: u.m(10), blockedShare: 0.5 };
    expect(() => rack.hydrostaticLoad(inputs)).toThrow(
      "rack.hydrostaticLoad: downstreamDepth is 3.2 m; it must be at most upstreamDepth, 3 m.",
    );
  });

  test("Froude scales agree with each other: discharge is velocity times area, force is that of weight", () => {
    fc.assert(
      fc.property(between(0.05, 100), (lengthScale) => {
        const { velocity, time, discharge, force } = rack.froudeScale({ lengthScale });
        expect(apart(velocity * time, lengthScale)).toBeLessThan(1e-12);
        expect(apart(discharge, velocity * lengthScale ** 2)).toBeLessThan(1e-12);
        expect(apart(force, lengthScale ** 3)).toBeLessThan(1e-12);
      }),
    );
  });

  test("in a model the Reynolds number of a bar falls with λ^1.5", () => {
    const nature = rack.barReynolds({ approachVelocity: u.mps(0.56), barThickness: u.mm(8) });
    const { velocity } = rack.froudeScale({ lengthScale: 4 });
    const model = rack.barReynolds({ approachVelocity: u.mps(0.56 / velocity), barThickness: u.mm(2) });
    expect(nature / model).toBeCloseTo(8, 12);
  });
});
