import { describe, expect, test } from "vitest";
import { tradeOff } from "../../../kernel-helpers/src/energy";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 17", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");
  const money = { interestRate: 0.04, years: 30 };
  const options = [
    { name: "wide", survival: 0.8, energy: u.MWh(1000) },
    { name: "middle", survival: 0.9, energy: u.MWh(990), investment: 100_000, upkeep: 1000 },
    { name: "narrow", survival: 0.92, energy: u.MWh(980), investment: 300_000, upkeep: 1000 },
  ];
  const weighed = tradeOff({ options, reference: "wide", pricePerMWh: 80, ...money });
  const spacings = [u.mm(40), u.mm(18), u.mm(12)];

  test("17.1 counts the checks that are met", () => {
    exercise("17.1", { checks: [{ met: true }, { met: false }, { met: true }] }, 2);
    expect(verdict()).toContain("✓");
    exercise("17.1", { checks: [{ met: true }, { met: false }, { met: true }] }, 1);
    expect(verdict()).toContain("Hint");
  });

  test("17.2 finds the spacing of the cheapest percentage point and spots metres taken for millimetres", () => {
    exercise("17.2", { weighed, spacings }, u.mm(18));
    expect(verdict()).toContain("✓");
    exercise("17.2", { weighed, spacings }, u.m(18));
    expect(verdict()).toContain("unit");
    exercise("17.2", { weighed, spacings }, u.mm(12));
    expect(verdict()).toContain("Hint");
  });

  test("17.2 says so where no option gains survival", () => {
    expect(() => exercise("17.2", { weighed: weighed.slice(0, 1), spacings }, u.mm(40))).toThrow(
      "no option gains survival",
    );
  });

  test("17.3 turns what the points are worth into an investment", () => {
    // By hand: 12 points at 5000 less 20 MWh at 80 less upkeep 1000 leave 57 400 a year; the factor at 4 %, 30 years is 0.05783.
    exercise("17.3", { option: weighed[2], worthOfPoint: 5000, ...money }, 992_570);
    expect(verdict()).toContain("✓");
    exercise("17.3", { option: weighed[2], worthOfPoint: 5000, ...money }, 57_400);
    expect(verdict()).toContain("Hint");
  });
});
