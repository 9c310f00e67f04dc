import { inspect } from "node:util";
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { u, type UnitName, units } from "kernel-helpers";

const names = Object.keys(units) as UnitName[]; // the keys of a constant object
const finite = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 });

/** Constructor and reader of a unit known only at run time. */
const make = (name: UnitName): ((value: number) => number) => u[name];
const read = (name: UnitName): ((quantity: number) => number) => u.to[name] as (quantity: number) => number;

test("u, evaluated in a cell, prints how quantities are made, dimension by dimension", () => {
  expect(inspect(u)).toContain("\n  a length: u.m(…), u.cm(…) or u.mm(…)\n");
  expect(inspect(u)).not.toContain("Function");
  expect(Object.keys(u).toSorted()).toEqual([...names, "to"].toSorted());
});

describe("a unit constructor", () => {
  test.each(names)("u.%s and its reader in u.to undo each other", (name) => {
    fc.assert(
      fc.property(finite, (value) => {
        expect(Math.abs(read(name)(make(name)(value)) - value)).toBeLessThanOrEqual(
          3 * Number.EPSILON * Math.abs(value) + 1e-300,
        );
      }),
    );
  });

  test("stores SI units", () => {
    expect([u.cm(18), u.km(2), u.cm2(5), u.L(250), u.cmps(56), u.Lps(400)]).toEqual([
      0.18, 2000, 0.0005, 0.25, 0.56, 0.4,
    ]);
    expect([u.min(1), u.h(1), u.d(1), u.kPa(101.325), u.bar(1.5), u.kN(3)]).toEqual([
      60, 3600, 86_400, 101_325, 150_000, 3000,
    ]);
    expect([u.kW(7), u.MW(1.5), u.kWh(1), u.MWh(1), u.GWh(1), u.g(250), u.t(2)]).toEqual([
      7000, 1.5e6, 3.6e6, 3.6e9, 3.6e12, 0.25, 2000,
    ]);
    expect(u.rpm(187.5)).toBe(3.125);
    expect(u.deg(180)).toBe(Math.PI);
    expect(u.degC(8)).toBe(8);
  });

  test("keeps millimetres as typed: u.mm(n) is the number that n/1000 reads as", () => {
    expect(u.mm(18)).toBe(0.018);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10_000_000 }), (value) => {
        expect(u.mm(value)).toBe(Number(`${value}e-3`));
        expect(u.to.mm(u.mm(value))).toBe(value);
      }),
    );
  });

  test.each(names)("u.%s refuses anything but a finite number and names itself", (name) => {
    const hostile = make(name) as (value: unknown) => number;
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, "3", null, undefined, {}, 1n]) {
      expect(() => hostile(value)).toThrow(RangeError);
      expect(() => hostile(value)).toThrow(`u.${name} was given ${String(value)}; it takes a finite number.`);
    }
  });

  test("belongs to a dimension whose default unit belongs to it too", () => {
    expect(names.filter((name) => units[name].symbol === "")).toEqual([]);
    expect(new Set(names.map((name) => `${units[name].dimension} ${units[name].symbol}`)).size).toBe(
      names.length,
    );
  });
});
