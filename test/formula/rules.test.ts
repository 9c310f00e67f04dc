import { describe, expect, test } from "vitest";
import { checkRule, editRules, rulesInWords } from "../../kernel-helpers/src/formula/rules";
import { practice } from "../../kernel-helpers/src/formula/source";
import { u } from "../../kernel-helpers/src/quantity";

const common = { why: "why", source: practice("rule of practice"), whatToDo: "change it" };
const tenth: number = 0.1;
const rules = {
  depth: { ...common, what: "depth", limit: u.m(0.9), side: "atLeast", unit: "m" },
  share: { ...common, what: "share", limit: tenth, unit: "share" },
} as const;

describe("checkRule", () => {
  test("a least limit is met from the limit on, a highest one up to it", () => {
    expect(checkRule("depth", rules.depth, 0.9)).toMatchObject({ met: true, limit: "at least 0.9 m" });
    expect(checkRule("depth", rules.depth, 0.89)).toMatchObject({ met: false, whatToDo: "change it" });
    expect(checkRule("share", rules.share, 0.1)).toMatchObject({
      met: true,
      value: "10 %",
      limit: "at most 10 %",
    });
    expect(checkRule("share", rules.share, 0.11)).toMatchObject({ met: false, value: "11 %" });
  });

  test("a value that is no number never meets a limit", () => {
    for (const rule of Object.values(rules)) expect(checkRule("x", rule, Number.NaN, "dry").met).toBe(false);
  });
});

test("editRules keeps side and unit of a rule whose limit it changes, and names its caller", () => {
  const edited = editRules("here", rules, { depth: u.m(1.2) }, "permit");
  expect(checkRule("depth", edited.depth, 1)).toMatchObject({ met: false, limit: "at least 1.2 m" });
  expect(edited.share).toBe(rules.share);
  expect(() => editRules("here", rules, { share: -1 }, "permit")).toThrow(
    "here: share is -1; it must be a quantity above 0.",
  );
});

test("rulesInWords tells each rule's limit, its side, why it stands and its grade", () => {
  const from = "rule of practice (common practice, no source)";
  expect(rulesInWords(rules)).toEqual([
    { rule: "depth", limit: "at least 0.9 m", why: "why", from },
    { rule: "share", limit: "at most 10 %", why: "why", from },
  ]);
});
