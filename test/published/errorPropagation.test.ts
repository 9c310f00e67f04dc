import { describe, expect, test } from "vitest";
import { statistics } from "kernel-helpers";

/** How far a result lies from a printed number. */
const off = (value: number, printed: number): number => Math.abs(value - printed);

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

describe("resistance and reactance, JCGM 100:2008, example H.2", () => {
  // Table H.2 (from memory; its printed means and correlations are checked below), five observations of V in V, I in mA, φ in rad.
  const table = {
    V: [5.007, 4.994, 5.005, 4.99, 4.999],
    I: [19.663, 19.639, 19.64, 19.685, 19.678],
    phi: [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
  };
  const crossed = (one: readonly number[], other: readonly number[]): number =>
    one.reduce((sum, value, at) => sum + (value - mean(one)) * (other[at] - mean(other)), 0);
  const errorOf = (values: readonly number[]): number => Math.sqrt(crossed(values, values) / 20);
  const together = (one: readonly number[], other: readonly number[]): number =>
    crossed(one, other) / Math.sqrt(crossed(one, one) * crossed(other, other));
  const measured = {
    at: { V: mean(table.V), I: mean(table.I) / 1000, phi: mean(table.phi) },
    standardErrors: { V: errorOf(table.V), I: errorOf(table.I) / 1000, phi: errorOf(table.phi) },
    correlations: [
      ["V", "I", together(table.V, table.I)],
      ["V", "phi", together(table.V, table.phi)],
      ["I", "phi", together(table.I, table.phi)],
    ],
  } as const;

  test("has the printed means, errors and correlations", () => {
    expect(off(measured.at.V, 4.999)).toBeLessThanOrEqual(1e-9);
    expect(off(1000 * measured.at.I, 19.661)).toBeLessThanOrEqual(1e-9);
    expect(off(measured.at.phi, 1.04446)).toBeLessThanOrEqual(1e-9);
    expect(off(measured.standardErrors.V, 0.0032)).toBeLessThanOrEqual(5e-5);
    expect(off(measured.correlations[0][2], -0.36)).toBeLessThanOrEqual(0.005);
    expect(off(measured.correlations[1][2], 0.86)).toBeLessThanOrEqual(0.005);
    expect(off(measured.correlations[2][2], -0.65)).toBeLessThanOrEqual(0.005);
  });

  test.each([
    [
      "resistance",
      ({ V, I, phi }: { V: number; I: number; phi: number }) => (V / I) * Math.cos(phi),
      127.732,
      0.071,
    ],
    [
      "reactance",
      ({ V, I, phi }: { V: number; I: number; phi: number }) => (V / I) * Math.sin(phi),
      219.847,
      0.295,
    ],
    ["impedance", ({ V, I }: { V: number; I: number }) => V / I, 254.26, 0.236],
  ])("gives the %s as printed in table H.4", (_, of, value, standardError) => {
    const propagated = statistics.propagateErrors({ of, ...measured });
    expect(off(propagated.value, value)).toBeLessThanOrEqual(0.0006);
    expect(off(propagated.standardError, standardError)).toBeLessThanOrEqual(0.0006);
  });
});

test("a thermal expansion coefficient is 1.7266e-5 1/K with error 1.76e-6 1/K (NIST Technical Note 1900, example E13)", () => {
  const { value, standardError } = statistics.propagateErrors({
    of: ({ L0, L1, T0, T1 }) => (L1 - L0) / (L0 * (T1 - T0)),
    at: { L0: 1.4999, L1: 1.5021, T0: 288.15, T1: 373.1 },
    standardErrors: { L0: 1e-4, L1: 2e-4, T0: 0.02, T1: 0.05 },
  });
  expect(off(value, 1.7266e-5)).toBeLessThanOrEqual(0.0001e-5);
  expect(off(standardError, 1.76e-6)).toBeLessThanOrEqual(0.005e-6);
});
