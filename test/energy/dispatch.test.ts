import { energy, u } from "kernel-helpers";
import { assert, double, property } from "fast-check";
import { describe, expect, test } from "vitest";
import { curve, unit } from "./plant";

const two = [unit, unit];
const run = (flow: number, units = two) => energy.dispatch({ available: u.m3ps(flow), units });

describe("energy.dispatch", () => {
  test("keeps both units still below the technical minimum of one", () => {
    expect(run(3.99)).toEqual({ unitFlows: [0, 0], turbineFlow: 0, running: 0, efficiency: 0, unused: 3.99 });
  });

  test("runs one unit on little water, two equal ones on much, and leaves what they can't take", () => {
    expect(run(6).unitFlows).toEqual([6, 0]);
    expect(run(30).unitFlows).toEqual([15, 15]);
    expect(run(50)).toMatchObject({ unitFlows: [17, 17], turbineFlow: 34, unused: 16 });
  });

  test("goes to the second unit where two give more power than one", () => {
    for (let flow = 8; flow <= 17; flow += 0.25) {
      const one = flow * unit(u.m3ps(flow));
      const both = flow * unit(u.m3ps(flow / 2));
      expect(run(flow).running).toBe(both > one ? 2 : 1);
    }
  });

  test("comes within 0.2 % of the best split of two such units, found by a plain search", () => {
    for (const flow of [9, 12.3, 18, 23.7, 31]) {
      const { turbineFlow, efficiency } = run(flow);
      let best = 0;
      for (let first = 0; first <= flow; first += 0.01) {
        const power = [first, flow - first].reduce(
          (sum, part) => sum + (part >= 4 && part <= 17 ? part * unit(u.m3ps(part)) : 0),
          0,
        );
        best = Math.max(best, power);
      }
      expect(turbineFlow * efficiency).toBeGreaterThanOrEqual(0.998 * best);
    }
  });

  test("takes less water where a second unit would cost more efficiency than its water brings", () => {
    const steep = curve([4, 0.5], [17, 0.9]);
    const result = run(18, [steep, steep]);
    expect(result.unitFlows).toEqual([17, 0]);
    expect(result.unused).toBeCloseTo(1, 12);
  });

  test("shares water between unequal units by their size, none of them below its minimum", () => {
    const small = curve([2.5, 0.8], [5, 0.9]);
    const { unitFlows } = run(9, [curve([1, 0.8], [15, 0.9]), small]);
    expect(unitFlows[0] + unitFlows[1]).toBeCloseTo(9, 12);
    expect(unitFlows[1] === 0 || unitFlows[1] >= 2.5).toBe(true);
  });

  test("never uses more water than there is, nor runs a unit outside its curve", () => {
    assert(
      property(double({ min: 0, max: 200, noNaN: true }), (flow) => {
        const { unitFlows, turbineFlow, unused, efficiency } = run(flow);
        expect(turbineFlow + unused).toBeCloseTo(flow, 9);
        for (const one of unitFlows) expect(one === 0 || (one >= 4 && one <= 17)).toBe(true);
        expect(efficiency).toBeLessThanOrEqual(0.9 + 1e-12);
      }),
    );
  });

  test("refuses no unit, more than ten, and a negative flow", () => {
    expect(() => run(10, [])).toThrow("there are 0 units; give 1 to 10");
    expect(() =>
      run(
        10,
        Array.from({ length: 11 }, () => unit),
      ),
    ).toThrow("there are 11 units");
    expect(() => run(-1)).toThrow("available is -1 m³/s; it must be at least 0 m³/s");
  });
});
