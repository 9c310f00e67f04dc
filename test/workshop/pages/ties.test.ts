import { expect, test } from "vitest";
import { cleanHtml } from "../../../kernel-helpers/src/workshop/pages/cleanHtml";
import { tied } from "../../../kernel-helpers/src/workshop/pages/ties";
import { pageOf } from "./tree";

const spoken = (text: string): string => text.replaceAll("\u00a0", "_");

test.each([
  ["5 % of 0.342 m/s", "5_% of 0.342_m/s"],
  ["12 mm, 3 m", "12_mm, 3_m"],
  ["at most 45° and at least 10 mm", "at_most_45° and at_least_10_mm"],
  ["34 m³/s in 2 days", "34_m³/s in 2 days"],
  ["187.5 rpm", "187.5_rpm"],
])("a number keeps its unit on its line: %s", (text, together) => {
  expect(spoken(tied(text))).toBe(together);
});

test.each(["3 more", "3 species", "notebook 12 shows", "1 mill", "at most two"])(
  "words stay free: %s",
  (text) => {
    expect(tied(text)).toBe(text);
  },
);

test("the pages tie in text and in tables, and leave code alone", () => {
  const page = pageOf({
    cell_type: "markdown",
    id: "a",
    metadata: {},
    source: "# T\n\nQ?\n\nA gap of **18 mm**, `18 mm`.",
  });
  expect(spoken(page.querySelector("main")?.textContent ?? "")).toContain("A gap of 18_mm, 18 mm.");
  expect(cleanHtml("<table><tr><td>at most 45°</td></tr></table>")).toContain(">at&nbsp;most&nbsp;45°<");
});
