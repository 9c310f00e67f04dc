import { rackLoss, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";
import { type Cautious, cautions, standingCaution } from "../../kernel-helpers/src/notebook/cautions";
import { collectOutputs } from "./emitted";

const outputs = collectOutputs();

const listedNow = (): string[] => outputs.last("text/plain").split("\n").slice(1);

describe("cautions", () => {
  test("takes texts, results that carry cautions and lists of both, and lists each caution once", () => {
    const result = { cautions: ["law: a first thing.", "law: a second thing."], survival: [0.9] };
    cautions("The record is short.", result, [result, { cautions: ["law: a third thing."] }, "By word."]);
    const wanted = ["The record is short.", ...result.cautions, "law: a third thing.", "By word."];
    expect(listedNow().filter((line) => wanted.some((text) => line === `- ${text}`))).toHaveLength(5);
    expect(listedNow().at(-1)).toBe(`- ${standingCaution}`);
  });

  test("takes the rows of a comparison as they come", () => {
    const rows = rackLoss.compareLosses({
      barThickness: u.mm(8),
      clearSpacing: u.mm(18),
      rackAngle: u.deg(38),
      approachVelocity: u.mps(0.56),
    });
    cautions(rows);
    for (const { cautions: texts } of rows)
      for (const text of texts) expect(listedNow()).toContain(`- ${text}`);
  });

  test.each([
    [{ survival: 1 }, 'cautions: {"survival":1} carries no list of cautions; give texts, results'],
    [{ cautions: () => [] }, "carries no list of cautions"],
    [undefined, "cautions: undefined carries no list of cautions"],
    [3, "cautions: 3 carries no list of cautions"],
  ])("refuses what carries no cautions, however an untyped cell passes it: %s", (given, sentence) => {
    expect(() => cautions(given as unknown as Cautious)).toThrow(sentence);
  });
});
