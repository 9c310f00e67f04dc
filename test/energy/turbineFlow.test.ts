import * as fc from "fast-check";
import { energy, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const plant = {
  designDischarge: u.m3ps(34),
  residualFlow: u.m3ps(2.5),
  bypassFlow: u.m3ps(1.5),
  technicalMinimum: u.m3ps(4),
};

const at = (riverFlow: number): number => energy.turbineFlow({ ...plant, riverFlow: u.m3ps(riverFlow) });

describe("energy.turbineFlow", () => {
  test("takes residual flow and bypass off the river first", () => {
    expect(at(30)).toBeCloseTo(26, 12);
  });

  test("stays at the design discharge from the flow that fills all claims upwards", () => {
    expect(at(37.9)).toBeCloseTo(33.9, 12);
    expect(at(38)).toBe(34);
    expect(at(500)).toBe(34);
  });

  test("runs at the technical minimum itself and stands still below it", () => {
    expect(at(8)).toBe(4);
    expect(at(7.99)).toBe(0);
  });

  test("is 0, never negative, where the river does not fill the claims before it", () => {
    expect(at(0)).toBe(0);
    expect(energy.turbineFlow({ ...plant, riverFlow: u.m3ps(3), technicalMinimum: u.m3ps(0) })).toBe(0);
  });

  test("never rises above the design discharge or the river, and never falls as the river rises", () => {
    const flow = fc.double({ min: 0, max: 200, noNaN: true });
    fc.assert(
      fc.property(flow, flow, flow, flow, fc.double({ min: 0.1, max: 200, noNaN: true }), (...drawn) => {
        const [river, more, residual, bypass, design] = drawn;
        const claims = {
          designDischarge: u.m3ps(design),
          residualFlow: u.m3ps(residual),
          bypassFlow: u.m3ps(bypass),
          technicalMinimum: u.m3ps(0.1 * design),
        };
        const low = energy.turbineFlow({ ...claims, riverFlow: u.m3ps(river) });
        const high = energy.turbineFlow({ ...claims, riverFlow: u.m3ps(river + more) });
        expect(low).toBeLessThanOrEqual(Math.min(design, river));
        expect(high).toBeGreaterThanOrEqual(low);
      }),
    );
  });

  test("refuses a negative flow and a plant without design discharge", () => {
    const riverFlow = u.m3ps(30);
    expect(() => energy.turbineFlow({ ...plant, riverFlow, residualFlow: u.m3ps(-25) })).toThrow(
      "energy.turbineFlow: residualFlow is -25 m³/s; it must be at least 0 m³/s",
    );
    expect(() => energy.turbineFlow({ ...plant, riverFlow, designDischarge: u.m3ps(0) })).toThrow(
      "energy.turbineFlow: designDischarge is 0 m³/s; it must be above 0 m³/s",
    );
  });

  test("cautions where the technical minimum lies above the design discharge", () => {
    const given = { ...plant, riverFlow: u.m3ps(30) };
    expect(energy.turbineFlow.cautions(given)).toEqual([]);
    expect(energy.turbineFlow.cautions({ ...given, technicalMinimum: u.m3ps(35) })).toEqual([
      "energy.turbineFlow: technical minimum is 35 m³/s, above the design discharge of 34 m³/s: the turbines never run.",
    ]);
  });

  test("shows the water for the turbines before the technical minimum is asked", () => {
    const [available, result] = energy.turbineFlow.lines({ ...plant, riverFlow: u.m3ps(7) });
    expect(available.value).toBe("3\\,\\mathrm{m^3/s}");
    expect(result.value).toBe("0\\,\\mathrm{m^3/s}");
  });
});
