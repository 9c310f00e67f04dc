import { expect, test } from "vitest";
import { ascent, descent, textWidth } from "../../../kernel-helpers/src/host/node/textMetrics";

// Advance widths measured in Chromium with DejaVu Sans at 1000 px.
test.each([
  ["Total length (cm)", 8463],
  ["Clear spacing 18 mm", 10654],
  ["0.25 m³/s", 4777],
  ["Überlänge", 5167],
])("the width of %s is that of DejaVu Sans within 2.5 percent", (text, expected) => {
  const width = textWidth(text, { size: 1000, bold: false });
  expect(width / expected).toBeGreaterThan(0.975);
  expect(width / expected).toBeLessThan(1.025);
});

test("text is as wide as its font is large, and wider in bold", () => {
  const plain = textWidth("rack", { size: 12, bold: false });
  expect(textWidth("rack", { size: 24, bold: false })).toBeCloseTo(2 * plain, 10);
  expect(textWidth("rack", { size: 12, bold: true })).toBeGreaterThan(plain);
});

test("an empty text and a zero-width space take no room", () => {
  expect(textWidth("", { size: 12, bold: false })).toBe(0);
  expect(textWidth("\u200B", { size: 12, bold: false })).toBe(0);
});

test("a character outside the table still takes room, and a square one the most", () => {
  expect(textWidth("魚", { size: 10, bold: false })).toBe(10);
  expect(textWidth("ש", { size: 10, bold: false })).toBeCloseTo(7, 10);
});

test("the docstring's example holds", () => {
  expect(textWidth("12 mm", { size: 10, bold: false })).toBeCloseTo(35.36, 2);
});

test("a line reaches further above its baseline than below", () => {
  expect([ascent(12), descent(12)]).toEqual([11, 3]);
});
