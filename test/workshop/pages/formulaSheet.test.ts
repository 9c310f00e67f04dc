import { catalogue } from "kernel-helpers";
import { JSDOM } from "jsdom";
import { describe, expect, test } from "vitest";
import { stated } from "../../../kernel-helpers/src/formula";
import { describeLimits } from "../../../kernel-helpers/src/formula/input";
import { constantCautions } from "../../../kernel-helpers/src/workshop/pages/constantCautions";
import { formulaSheet } from "../../../kernel-helpers/src/workshop/pages/formulaSheet";

const sheet = new JSDOM(formulaSheet(catalogue.list()).body).window.document;

/** What stands between a formula's heading and the next heading. */
function entry(id: string): Element[] {
  const found: Element[] = [];
  let next = sheet.getElementById(id)?.nextElementSibling ?? null;
  for (; next !== null && !/^H[23]$/.test(next.tagName); next = next.nextElementSibling) found.push(next);
  return found;
}
const words = (id: string): string =>
  entry(id)
    .map(({ textContent }) => textContent)
    .join("\n")
    .replaceAll("\u00a0", " ");

const legend = (formulas: Parameters<typeof formulaSheet>[0]): string =>
  new JSDOM(formulaSheet(formulas).body).window.document.querySelector(".marks")?.textContent ?? "";

describe("the formula sheet", () => {
  test("has every formula of the catalogue, under its topic", () => {
    expect([...sheet.querySelectorAll("h3")].map(({ id }) => id)).toEqual(
      catalogue.topics().flatMap((topic) => catalogue.list(topic).map(({ id }) => id)),
    );
  });

  test.each(catalogue.list().map((formula) => [formula.id, formula] as const))(
    "gives equation, inputs with unit and limits, source and mark of %s",
    (id, formula) => {
      const text = words(id);
      expect(
        entry(id).some((element) => element.matches(".equation") && element.querySelector("math") !== null),
      ).toBe(true);
      expect(entry(id).some((element) => element.querySelector(".katex-error") !== null)).toBe(false);
      for (const spec of Object.values(formula.inputs)) expect(text).toContain(describeLimits(spec));
      expect(text).toContain(formula.source.text);
      expect(
        entry(id).flatMap((element) => [...element.querySelectorAll(".source .mark, .mark")]),
      ).toHaveLength(1);
      expect(text).toContain(formula.validity ?? "");
    },
  );

  test("shows limits and tested ranges in the unit of the trade", () => {
    expect(words("rack.blockage")).toContain("above 0 mm");
    expect(words("rackLoss.angledBars")).toContain("30° to 90°");
    expect(words("rackLoss.angledBars")).toContain("0.35 to 0.6");
  });

  test("shows the usual range where none was tested, as common practice", () => {
    expect(words("rack.blockage")).toContain("usual, common practice: 2 mm to 100 mm");
  });

  test("explains the mark of a reader's own word only where a formula carries it", () => {
    expect(legend(catalogue.list())).toContain("from memory");
    expect(legend(catalogue.list())).not.toContain("stated by the reader");
    const known = catalogue.get("rack.length");
    // A call of its own, so that the catalogue's formula stays as it is.
    const own = Object.assign(() => known.evaluate({}), known, { source: stated("our permit") });
    expect(legend([own])).toContain("stated by the reader");
  });

  test("marks an equation from memory as such", () => {
    const marks = entry("rackLoss.blockageAngle").flatMap((element) => [
      ...element.querySelectorAll(".mark"),
    ]);
    expect(marks.map(({ textContent }) => textContent)).toEqual(["from memory"]);
  });
});

describe("constantCautions", () => {
  test("finds what a formula warns of whatever its inputs", () => {
    expect(constantCautions(catalogue.get("rackLoss.horizontalBars")).join(" ")).toContain("approximate");
  });

  test("finds nothing for a formula that warns of nothing", () => {
    expect(constantCautions(catalogue.get("rack.length"))).toEqual([]);
  });
});
