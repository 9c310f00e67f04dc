import { energy, u } from "kernel-helpers";
import { array, assert, double, property, record as records } from "fast-check";
import { describe, expect, test } from "vitest";

describe("energy.annuityFactor", () => {
  test("pays back with present values that add up to one", () => {
    const factor = energy.annuityFactor({ interestRate: 0.04, years: 30 });
    let present = 0;
    for (let year = 1; year <= 30; year++) present += factor / 1.04 ** year;
    expect(present).toBeCloseTo(1, 12);
  });

  test("is one over the years without interest, and close to it for a rate near none", () => {
    expect(energy.annuityFactor({ interestRate: 0, years: 25 })).toBe(1 / 25);
    expect(energy.annuityFactor({ interestRate: 1e-12, years: 25 })).toBeCloseTo(1 / 25, 10);
  });

  test("comes down to the interest alone over a very long time", () => {
    expect(energy.annuityFactor({ interestRate: 0.05, years: 1000 })).toBeCloseTo(0.05, 12);
  });
});

const option = records({
  survival: double({ min: 0, max: 1, noNaN: true }),
  energy: double({ min: 0, max: 100, noNaN: true }).map((amount) => u.GWh(amount)),
});
const options = array(option, { minLength: 1, maxLength: 30 });
const beats = (one: energy.Gains, other: energy.Gains) =>
  one.survival >= other.survival &&
  one.energy >= other.energy &&
  (one.survival > other.survival || one.energy > other.energy);

describe("energy.paretoFront", () => {
  test("has no option that another beats, and every option outside is beaten by one on it", () => {
    assert(
      property(options, (all) => {
        const front = energy.paretoFront(all);
        expect(front.length).toBeGreaterThan(0);
        for (const one of front) expect(all.some((other) => beats(other, one))).toBe(false);
        for (const one of all)
          expect(front.includes(one) || front.some((other) => beats(other, one))).toBe(true);
      }),
    );
  });

  test("rises in survival where it falls in energy", () => {
    assert(
      property(options, (all) => {
        const front = energy.paretoFront(all);
        for (let at = 1; at < front.length; at++) {
          expect(front[at].energy).toBeLessThanOrEqual(front[at - 1].energy);
          expect(front[at].survival).toBeGreaterThanOrEqual(front[at - 1].survival);
        }
      }),
    );
  });

  test("does not hang on the order of the options", () => {
    assert(
      property(options, (all) => {
        const front = new Set(energy.paretoFront(all));
        expect(new Set(energy.paretoFront(all.toReversed()))).toEqual(front);
      }),
    );
  });

  test("is its own front", () => {
    assert(
      property(options, (all) => {
        const front = energy.paretoFront(all);
        expect(energy.paretoFront(front)).toEqual(front);
      }),
    );
  });

  test("keeps equal options and refuses a survival above 1", () => {
    const one = { survival: 0.9, energy: u.GWh(8) };
    expect(energy.paretoFront([one, { ...one }])).toHaveLength(2);
    expect(() => energy.paretoFront([{ survival: 90, energy: u.GWh(8) }])).toThrow(
      "energy.paretoFront: survival of options[0] is 90",
    );
  });
});

describe("energy.tradeOff", () => {
  const asked = {
    options: [
      { name: "40 mm", survival: 0.8, energy: u.GWh(9), investment: 100_000 },
      { name: "25 mm", survival: 0.85, energy: u.GWh(8.7), investment: 400_000, upkeep: 2000 },
      { name: "18 mm", survival: 0.9, energy: u.GWh(8.9), investment: 600_000 },
    ],
    reference: "40 mm",
    pricePerMWh: 80,
    interestRate: 0.04,
    years: 30,
  };

  test("counts lost revenue and annuity against percentage points gained, as by hand", () => {
    const factor = (0.04 * 1.04 ** 30) / (1.04 ** 30 - 1);
    const [reference, , fine] = energy.tradeOff(asked);
    expect(fine.lostRevenue).toBeCloseTo(100 * 80, 6);
    expect(fine.yearlySpending).toBeCloseTo(500_000 * factor, 6);
    expect(fine.costPerPoint).toBeCloseTo((8000 + 500_000 * factor) / 10, 6);
    expect(reference).toMatchObject({
      survivalGained: 0,
      energyLost: 0,
      yearlyCost: 0,
      costPerPoint: undefined,
    });
  });

  test("says which option beats another", () => {
    expect(energy.tradeOff(asked).map(({ onFront, beatenBy }) => [onFront, beatenBy])).toEqual([
      [true, undefined],
      [false, "18 mm"],
      [true, undefined],
    ]);
  });

  test("has the front of energy.paretoFront", () => {
    assert(
      property(options, (all) => {
        const named = all.map((one, at) => ({ ...one, name: String(at) }));
        const weighed = energy.tradeOff({ ...asked, options: named, reference: "0" });
        const front = new Set(energy.paretoFront(named).map(({ name }) => name));
        expect(new Set(weighed.filter((one) => one.onFront).map(({ name }) => name))).toEqual(front);
      }),
    );
  });

  test("refuses an unknown reference, names that stand twice and negative money", () => {
    expect(() => energy.tradeOff({ ...asked, reference: "30 mm" })).toThrow(
      'reference is "30 mm", which is no option; the options are "40 mm", "25 mm", "18 mm".',
    );
    const twice = [asked.options[0], asked.options[0]];
    expect(() => energy.tradeOff({ ...asked, options: twice })).toThrow('two options are called "40 mm"');
    const odd = [{ ...asked.options[0], investment: -1 }];
    expect(() => energy.tradeOff({ ...asked, options: odd })).toThrow('investment of "40 mm" is -1');
    expect(() => energy.tradeOff({ ...asked, pricePerMWh: -80 })).toThrow("pricePerMWh is -80");
  });
});
