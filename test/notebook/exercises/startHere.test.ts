import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { remedies } from "../../../kernel-helpers/src/quantity/dimension";
import { rackLength } from "../../../kernel-helpers/src/rack/geometry";
import { collectOutputs } from "../emitted";
import { burstSpeed } from "../../../kernel-helpers/src/fish";

describe("exercises of notebook 00", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");
  const inputs = { clearSpacing: u.mm(18) };

  test("00.1 accepts half the spacing in any unit and spots a number of metres taken for millimetres", () => {
    exercise("00.1", inputs, u.cm(0.9));
    expect(verdict()).toContain("right, 9 mm");
    exercise("00.1", inputs, u.mm(inputs.clearSpacing / 2));
    expect(verdict()).toContain("1/1000 times");
    exercise("00.1", inputs, u.mm(36));
    expect(verdict()).toContain("Hint");
    exercise("00.1", { clearSpacing: u.mm(72) }, u.mm(36));
    expect(verdict()).toContain("✓");
  });

  test("00.2 accepts the blocked share and refuses the open one", () => {
    const bars = { barThickness: u.mm(8), clearSpacing: u.mm(12) };
    exercise("00.2", bars, 0.4);
    expect(verdict()).toContain("✓");
    exercise("00.2", bars, 0.6);
    expect(verdict()).toContain("Hint");
    exercise("00.2", bars, 40);
    expect(verdict()).toContain("100 times");
  });

  test("00.3 lists the marks to choose from and takes the formula's own", () => {
    exercise("00.3", { formula: burstSpeed.id }, undefined);
    expect(verdict()).toContain('one of "published", "memory", "derived", "practice"');
    exercise("00.3", { formula: burstSpeed.id }, "memory");
    expect(verdict()).toContain("✓");
    exercise("00.3", { formula: "rack.length" }, "memory");
    expect(verdict()).toContain("Hint");
  });
});

test("notebook 00 quotes the messages that the module and the compiler's remedies really hold", () => {
  const path = new URL("../../../notebooks/00-start-here.ipynb", import.meta.url);
  const { cells } = JSON.parse(readFileSync(path, "utf8")) as { cells: { source: string[] }[] }; // nbformat's own fields
  const text = cells.flatMap(({ source }) => source).join("");
  const refused = { channelWidth: u.m(-17), rackAngle: u.deg(38) };
  const [, sentence] = /`RangeError: (rack\.length: [^`]+)`/.exec(text) ?? [];
  expect(() => rackLength(refused)).toThrow(new RangeError(sentence));
  expect(text).toContain(`Type '"${remedies.angle}"' is not assignable to type '"${remedies.length}"'.`);
  expect(text).toContain(
    `Type 'number' is not assignable to type '{ readonly [dimension]: "${remedies.length}"; }'.`,
  );
});
