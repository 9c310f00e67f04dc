import * as fc from "fast-check";
import { turbine, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { halvernRunner as runner } from "./units";

const strikeOf = (metres: number): number =>
  turbine.strikeProbability({ totalLength: u.m(metres), waterLength: u.m(0.64) });

describe("strike by water length", () => {
  it("waterLength is the axial velocity times the time between two blades, along the inclined path", () => {
    const axial = 17 / ((Math.PI / 4) * (1.95 ** 2 - 0.82 ** 2));
    const between = 1 / (3.125 * 4);
    expect(turbine.waterLength(runner)).toBeCloseTo((axial * between) / Math.cos((29.8 * Math.PI) / 180), 12);
  });

  it("strikeProbability is linear in length below the cap and 1 above it", () => {
    expect(strikeOf(0.32)).toBeCloseTo(0.5, 12);
    expect(strikeOf(0.64)).toBe(1);
    expect(strikeOf(2)).toBe(1);
  });

  it("waterLength refuses a hub as wide as the runner and a flow across the axis", () => {
    expect(() => turbine.waterLength({ ...runner, hubDiameter: u.m(1.95) })).toThrow(
      "turbine.waterLength: hubDiameter is 1.95 m; it must be below runnerDiameter, 1.95 m.",
    );
    expect(() => turbine.waterLength({ ...runner, inflowAngle: u.deg(90) })).toThrow(/inflowAngle is 90°/);
  });

  it("bladeSpacing times the blades is the circle through mid-blade", () => {
    const metres = fc.double({ min: 0.5, max: 8, noNaN: true });
    fc.assert(
      fc.property(
        metres,
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        fc.integer({ min: 2, max: 8 }),
        (edge, hub, blades) => {
          const spacing = turbine.bladeSpacing({
            runnerDiameter: u.m(edge),
            hubDiameter: u.m(hub * edge),
            blades,
          });
          expect((spacing * blades) / (Math.PI * edge)).toBeCloseTo((1 + hub) / 2, 10);
        },
      ),
    );
  });
});
