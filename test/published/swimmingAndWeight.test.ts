import { fish, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const speedAt = (metres: number, celsius: number): number =>
  fish.burstSpeedAtTemperature({ totalLength: u.m(metres), temperature: u.degC(celsius) });

/** Contraction time in seconds, from the speed: a stride of 0.7 lengths takes two contractions. */
const contractionTime = (metres: number, celsius: number): number =>
  (0.35 * metres) / speedAt(metres, celsius);

const lengths = [0.05, 0.1, 0.2, 0.4, 0.8];
const temperatures = [2, 5, 10, 15, 20];

describe("burst speed", () => {
  test("rises with length to the power 0.85 (Wardle & He 1988, quoted in J. Exp. Biol. 151:453; printed)", () => {
    const [small, large] = [0.1, 1].map((metres) => fish.burstSpeed({ totalLength: u.m(metres) }));
    expect(Math.abs(Math.log10(large / small) - 0.85)).toBeLessThan(0.03);
  });

  test("of fish of some 10 to 30 cm is about 10 lengths a second for one second (Bainbridge 1960, J. Exp. Biol. 37:129, summary; printed)", () => {
    for (const metres of [0.1, 0.15, 0.2, 0.293])
      expect(Math.abs(fish.burstSpeed({ totalLength: u.m(metres) }) / metres - 10)).toBeLessThan(1.5);
  });

  test("the contraction time increases with length and decreases with temperature (Wardle & Videler 1980, Nature 284:445, abstract; printed in words)", () => {
    for (const celsius of temperatures)
      lengths
        .slice(1)
        .forEach((metres, at) =>
          expect(contractionTime(metres, celsius)).toBeGreaterThan(contractionTime(lengths[at], celsius)),
        );
    for (const metres of lengths)
      temperatures
        .slice(1)
        .forEach((celsius, at) =>
          expect(contractionTime(metres, celsius)).toBeLessThan(contractionTime(metres, temperatures[at])),
        );
  });

  test("of a fish of 1 m is around 6 lengths a second, and a fish of 10 cm stays below 25 (Wardle 1975, quoted in J. Exp. Biol. 151:453; printed)", () => {
    // The quotation names no temperature. The fit gives 6 lengths a second near 14 °C; 25 for the small fish, which it
    // "can achieve", only near 24 °C.
    expect(speedAt(1, 10)).toBeLessThan(6);
    expect(speedAt(1, 15)).toBeGreaterThan(6);
    for (const celsius of temperatures) expect(speedAt(0.1, celsius) / 0.1).toBeLessThan(25);
    expect(speedAt(0.1, 25) / 0.1).toBeGreaterThan(25);
  });
});

describe("units of length and weight (Froese & Pauly, manual of FishBase, the length-weight table; printed)", () => {
  const exponent = 3.05;
  const weightOf = (coefficient: number): number =>
    u.to.g(fish.weight({ totalLength: u.cm(20), coefficient, exponent }));

  test.each([
    ["mm and g", 8e-6, 8e-6 * 10 ** exponent, 1],
    ["cm and kg", 9e-6, 9e-6 * 1000, 1000],
    ["mm and mg", 8e-3, (8e-3 * 10 ** exponent) / 1000, 0.001],
    ["mm and kg", 8e-9, 8e-9 * 10 ** exponent * 1000, 1000],
  ])(
    "a coefficient for %s gives the same weight once converted to cm and g as printed",
    (units, coefficient, converted, grams) => {
      const lengthThere = units.startsWith("mm") ? 200 : 20;
      expect(weightOf(converted) / (coefficient * lengthThere ** exponent * grams)).toBeCloseTo(1, 12);
    },
  );

  test("a fish of 10 cm weighs on the order of 10 g where its shape is usual, and an eel far less", () => {
    const weightAtTen = new Map(
      fish.speciesTable.map(({ name, weightCoefficient: coefficient, weightExponent }) => [
        name,
        u.to.g(fish.weight({ totalLength: u.cm(10), coefficient, exponent: weightExponent })),
      ]),
    );
    expect(weightAtTen.get("silver eel")).toBeLessThan(3);
    weightAtTen.delete("silver eel");
    expect(weightAtTen.size).toBe(6);
    for (const grams of weightAtTen.values()) {
      expect(grams).toBeGreaterThan(5);
      expect(grams).toBeLessThan(20);
    }
  });
});
