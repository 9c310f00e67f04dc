import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

/** The flows of nine days: 10, 20, … 90 m³/s, so that exceedance 0.1 is 90 m³/s and 0.9 is 10 m³/s. */
const record = Array.from({ length: 9 }, (_, day) => ({
  date: `2026-03-0${day + 1}`,
  discharge: u.m3ps(10 * (day + 1)),
}));

describe("exercises of notebook 01", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");
  const wanted = { record, daysAYear: 0.2 * 365.25 };
  const channel = { ...wanted, waterDepth: u.m(4), permittedVelocity: u.mps(0.5) };

  test("01.1 accepts the flow of the exceedance, refuses that of the rest of the time, spots litres", () => {
    exercise("01.1", { record, exceedance: 0.3 }, u.m3ps(70));
    expect(verdict()).toContain("✓");
    exercise("01.1", { record, exceedance: 0.3 }, u.m3ps(30));
    expect(verdict()).toContain("Hint");
    exercise("01.1", { record, exceedance: 0.3 }, u.Lps(70));
    expect(verdict()).toContain("1/1000 times");
    exercise("01.1", { record, exceedance: 0.7 }, u.m3ps(30));
    expect(verdict()).toContain("✓");
  });

  test("01.2 accepts the mean days a year and refuses the count over the record", () => {
    const inputs = { record, flow: u.m3ps(40) }; // reached on six of nine days
    exercise("01.2", inputs, (6 / 9) * 365.25);
    expect(verdict()).toContain("✓");
    exercise("01.2", inputs, 6);
    expect(verdict()).toContain("Hint");
  });

  test("01.3 accepts the captured share as a ratio and spots per cent", () => {
    const inputs = { record, designDischarge: u.m3ps(30) };
    const ratio = (10 + 20 + 7 * 30) / 450;
    exercise("01.3", inputs, ratio);
    expect(verdict()).toContain("✓");
    exercise("01.3", inputs, 100 * ratio);
    expect(verdict()).toContain("100 times");
    exercise("01.3", { record, designDischarge: u.m3ps(90) }, ratio);
    expect(verdict()).toContain("Hint");
  });

  test("01.4 accepts the flow reached on the wanted days of the year", () => {
    exercise("01.4", wanted, u.m3ps(80));
    expect(verdict()).toContain("✓");
    exercise("01.4", { record, daysAYear: 0.5 * 365.25 }, u.m3ps(80));
    expect(verdict()).toContain("Hint");
  });

  test("01.5 accepts the width that continuity asks for and follows the depth", () => {
    exercise("01.5", channel, u.m(80 / (4 * 0.5)));
    expect(verdict()).toContain("✓");
    exercise("01.5", { ...channel, waterDepth: u.m(2) }, u.m(40));
    expect(verdict()).toContain("Hint");
    exercise("01.5", channel, u.mm(40));
    expect(verdict()).toContain("1/1000 times");
  });
});
