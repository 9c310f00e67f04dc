import * as fc from "fast-check";
import { survival, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const classes = [
  { count: 30, mass: u.g(10), survival: 0.95 },
  { count: 10, mass: u.g(90), survival: 0.75 },
];

const sizeClass = fc.record({
  count: fc.double({ min: 0.01, max: 1000, noNaN: true }),
  mass: fc.double({ min: 1, max: 5000, noNaN: true }).map(u.g),
  survival: fc.double({ min: 0, max: 1, noNaN: true }),
});

const alive = (metres: number): number => 1 - metres ** 2;

describe("weighted", () => {
  it("weighs by numbers and by biomass, both", () => {
    const result = survival.weighted({ classes });
    expect(result.byNumbers).toBeCloseTo((30 * 0.95 + 10 * 0.75) / 40, 12);
    expect(result.byBiomass).toBeCloseTo((300 * 0.95 + 900 * 0.75) / 1200, 12);
    expect(result.count).toBe(40);
    expect(result.biomass).toBeCloseTo(1.2, 12);
    expect(result.numberShares).toEqual([0.75, 0.25]);
    expect(result.biomassShares?.[1]).toBeCloseTo(0.75, 12);
  });

  it("leaves the biomass out where the classes have no masses", () => {
    const result = survival.weighted({
      classes: classes.map(({ count, survival: one }) => ({ count, survival: one })),
    });
    expect(result.byBiomass).toBeUndefined();
    expect(result.biomassShares).toBeUndefined();
    expect(result.byNumbers).toBeCloseTo(0.9, 12);
  });

  it("both lie between the lowest and the highest class", () => {
    fc.assert(
      fc.property(fc.array(sizeClass, { minLength: 1, maxLength: 30 }), (population) => {
        const survivals = population.map((one) => one.survival);
        const { byNumbers, byBiomass } = survival.weighted({ classes: population });
        for (const mean of [byNumbers, byBiomass ?? Number.NaN]) {
          expect(mean).toBeGreaterThanOrEqual(Math.min(...survivals));
          expect(mean).toBeLessThanOrEqual(Math.max(...survivals));
        }
      }),
    );
  });

  it("splitting a class in two changes nothing", () => {
    fc.assert(
      fc.property(fc.array(sizeClass, { minLength: 1, maxLength: 10 }), (population) => {
        const halves = population.flatMap((one) =>
          [one, one].map((half) => ({ ...half, count: half.count / 2 })),
        );
        const whole = survival.weighted({ classes: population });
        const split = survival.weighted({ classes: halves });
        expect(split.byNumbers).toBeCloseTo(whole.byNumbers, 12);
        expect(split.byBiomass).toBeCloseTo(whole.byBiomass ?? Number.NaN, 12);
      }),
    );
  });

  it("is not the survival at the mean length", () => {
    const result = survival.weighted({
      classes: [
        { count: 1, survival: alive(0.1) },
        { count: 1, survival: alive(0.5) },
      ],
    });
    expect(result.byNumbers).toBeCloseTo(0.87, 12);
    expect(alive(0.3)).toBeCloseTo(0.91, 12);
  });

  it.each([
    [{ ...classes[0], count: -1 }, "classes[0].count is -1; it must be at least 0 and finite"],
    [{ ...classes[0], mass: u.g(0) }, "classes[0].mass is 0 kg; it must be above 0 kg and finite"],
    [{ ...classes[0], survival: 95 }, "classes[0].survival is 95; it must be a share from 0 to 1"],
    [{ ...classes[0], count: Number.NaN }, "classes[0].count is NaN; it must be at least 0 and finite"],
    [{ ...classes[0], count: 0 }, "every count is 0; at least one class needs fish"],
  ])("refuses a bad class %#", (bad, sentence) => {
    expect(() => survival.weighted({ classes: [bad] })).toThrow(`survival.weighted: ${sentence}.`);
  });

  it("refuses masses that only some classes have, and no classes", () => {
    expect(() => survival.weighted({ classes: [classes[0], { count: 5, survival: 0.5 }] })).toThrow(
      "survival.weighted: classes[1] and classes[0] differ: give a mass for every class or for none.",
    );
    expect(() => survival.weighted({ classes: [] })).toThrow(/there is no class/);
  });
});
