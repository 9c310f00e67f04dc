import { bypass, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const steep = { width: u.m(0.8), length: u.m(60), bedSlope: 0.06, roughness: 0.013, headLevel: u.m(2.6) };
const mild = { ...steep, length: u.m(400), bedSlope: 0.001 };
const discharge = u.m3ps(1.36);

/** Depth and velocity head above the bed. */
const energyHead = ({ depth, velocity }: bypass.WaterPoint): number => depth + velocity ** 2 / (2 * 9.81);

/** Friction slope by Manning's equation, written out. */
const friction = ({ depth, velocity }: bypass.WaterPoint): number => {
  const radius = (0.8 * depth) / (0.8 + 2 * depth);
  return (0.013 * velocity) ** 2 / radius ** (4 / 3);
};

describe("bypass.chuteFlow", () => {
  test("a steep chute falls from critical depth to uniform flow", () => {
    const {
      profile,
      normalDepth,
      criticalDepth,
      steep: isSteep,
    } = bypass.chuteFlow(steep, {
      discharge,
      endLevel: u.m(-2),
    });
    expect(isSteep).toBe(true);
    expect(profile[0].depth).toBeCloseTo(criticalDepth, 9);
    expect(profile.at(-1)?.depth).toBeCloseTo(normalDepth, 2);
    const depths = profile.map(({ depth }) => depth);
    expect(depths).toEqual(depths.toSorted((a, b) => b - a));
    expect(normalDepth).toBeCloseTo(
      bypass.normalDepth({ discharge, bedSlope: 0.06, roughness: 0.013, bottomWidth: u.m(0.8) }),
      12,
    );
  });

  test("a mild chute runs uniform and falls to critical depth at its lip", () => {
    const flow = bypass.chuteFlow({ ...mild, length: u.m(4000) }, { discharge, endLevel: u.m(-9) });
    expect(flow.steep).toBe(false);
    expect(flow.profile.at(-1)?.depth).toBeCloseTo(flow.criticalDepth, 9);
    expect(flow.profile[0].depth).toBeCloseTo(flow.normalDepth, 2);
  });

  test("water standing over the lip backs up a mild chute", () => {
    const flow = bypass.chuteFlow(mild, { discharge, endLevel: u.m(2.6 - 0.4 + 1.9) });
    expect(flow.profile.at(-1)?.depth).toBeCloseTo(1.9, 9);
    expect(flow.profile[0].depth).toBeGreaterThan(flow.normalDepth);
  });

  test.each([
    ["steep", steep],
    ["mild", mild],
  ])("keeps the energy along a %s chute: bed less friction is what the head gains", (_, chute) => {
    const { profile } = bypass.chuteFlow(chute, { discharge, endLevel: u.m(-2) });
    for (const [from, to] of [
      [10, 40],
      [60, 120],
    ]) {
      const pieces = profile.slice(from, to).map((point, at) => {
        const next = profile[from + at + 1];
        const length = next.distance - point.distance;
        return length * (chute.bedSlope - (friction(point) + friction(next)) / 2);
      });
      const gained = energyHead(profile[to]) - energyHead(profile[from]);
      expect(gained).toBeCloseTo(
        pieces.reduce((sum, piece) => sum + piece, 0),
        2,
      );
    }
  });

  test("refuses a chute that can't be built", () => {
    expect(() => bypass.chuteFlow({ ...steep, bedSlope: 0 }, { discharge, endLevel: u.m(0) })).toThrow(
      "bypass.chuteFlow: bedSlope is 0; it must be above 0 and at most 1",
    );
  });
});

describe("bypass.evenRamp", () => {
  const ramp = {
    entranceWidth: u.m(0.55),
    crestWidth: u.m(0.8),
    headwaterLevel: u.m(3.6),
    sillLevel: u.m(0),
    entranceVelocity: u.mps(0.687),
    crestVelocity: u.mps(2.555),
    rampLength: u.m(3),
  };
  const points = bypass.evenRamp(ramp);

  test("rises evenly in velocity and carries the same flow everywhere", () => {
    const flow = 0.687 * 0.55 * 3.6;
    points.slice(1).forEach(({ distance, floorLevel, waterLevel, velocity }, at) => {
      const width = 0.55 + (0.25 * distance) / 3;
      expect((velocity - points[at].velocity) / (distance - points[at].distance)).toBeCloseTo(1.868 / 3, 9);
      // Next to the entrance the floor is held at the sill.
      const carried = width * (waterLevel - floorLevel) * velocity;
      expect(floorLevel === 0 ? flow : carried).toBeCloseTo(flow, 9);
    });
  });

  test("ends at the crest that the same flow needs", () => {
    const head = bypass.broadCrestedWeirHead({ discharge: u.m3ps(0.687 * 0.55 * 3.6), crestWidth: u.m(0.8) });
    expect(3.6 - (points.at(-1)?.floorLevel ?? 0)).toBeCloseTo(head, 3);
  });

  test("refuses a velocity that does not rise", () => {
    expect(() => bypass.evenRamp({ ...ramp, crestVelocity: u.mps(0.5) })).toThrow(
      "bypass.evenRamp: crestVelocity is 0.5 m/s; it must be above entranceVelocity, 0.687 m/s.",
    );
  });
});
