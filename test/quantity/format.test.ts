import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { format, formatNumber, percent, u, type UnitName } from "kernel-helpers";

const thin = "\u2009";

describe("formatNumber(value, digits)", () => {
  test.each([
    [0, "0"],
    [-0, "0"],
    [17, "17"],
    [0.5, "0.5"],
    [0.0071777, "0.00718"],
    [27.613, "27.6"],
    [1234.56, "1235"],
    [12_345.6, `12${thin}346`],
    [-1_234_567, `-1${thin}234${thin}567`],
    [9.996, "10"],
    [999.96, "1000"],
    [0.9999, "1"],
    [0.00012, "0.00012"],
    [1.3e-6, "1.30·10⁻⁶"],
    [-2.5e-7, "-2.50·10⁻⁷"],
    [1e21, "1·10²¹"],
    [Number.NaN, "NaN"],
    [Number.NEGATIVE_INFINITY, "-Infinity"],
  ])("prints %d as %s", (value, text) => {
    expect(formatNumber(value)).toBe(text);
  });

  test("prints as many significant digits as it is told to", () => {
    expect([2, 4, 6].map((digits) => formatNumber(0.0071776648, digits))).toEqual([
      "0.0072",
      "0.007178",
      "0.00717766",
    ]);
  });

  test("never rounds a whole digit away and stays within half of the last digit", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-4, max: 1e9, noNaN: true }),
        fc.integer({ min: 1, max: 8 }),
        (value, digits) => {
          const printed = Number(formatNumber(value, digits).replaceAll(thin, ""));
          const place = Math.min(1, 10 ** (Math.floor(Math.log10(value)) + 1 - digits));
          expect(Math.abs(printed - value)).toBeLessThanOrEqual(0.5000001 * place);
        },
      ),
    );
  });
});

describe("format(quantity, unit, digits)", () => {
  test("puts a space before a unit and none before the sign of degrees", () => {
    expect(format(u.m(0.018), "mm")).toBe("18 mm");
    expect(format(u.deg(38), "deg")).toBe("38°");
    expect(format(u.degC(8.5), "degC")).toBe("8.5 °C");
    expect(format(u.rpm(187.5), "rpm", 4)).toBe("187.5 rpm");
    expect(format(u.W(1_234_000), "kW")).toBe("1234 kW");
  });

  test("refuses a unit that doesn't exist and lists those that do", () => {
    const hostile = format as (quantity: number, unit: string) => string;
    for (const unit of ["inch", "", "toString", "to"]) {
      expect(() => hostile(0.018, unit)).toThrow(RangeError);
      expect(() => hostile(0.018, unit)).toThrow(`there is no unit "${unit}"; the units are m, cm, mm`);
    }
  });

  test("prints what is not a finite number as it is, with its unit", () => {
    const hostile = format as (quantity: number, unit: UnitName) => string;
    expect(hostile(Number.NaN, "m")).toBe("NaN m");
  });
});

test("percent(ratio) prints a ratio as a percentage", () => {
  expect([0, 0.8071, 1, 1.024, 0.00012].map((ratio) => percent(ratio))).toEqual([
    "0 %",
    "80.7 %",
    "100 %",
    "102 %",
    "0.012 %",
  ]);
});
