import ts from "typescript";
import { describe, expect, test } from "vitest";
import { expandShorthand, repairShorthand } from "../../kernel-helpers/src/workshop/shorthand";

describe("expandShorthand", () => {
  test("writes out every shorthand property, nested ones too", () => {
    expect(expandShorthand(ts, "f({ a, b: { c } }, { d, });")).toBe("f({ a: a, b: { c: c } }, { d: d, });");
  });

  test("leaves text, comments, full properties and destructuring declarations alone", () => {
    const source = 'const { a, b } = g("{ a }"); // { a }\nf({ a: 1 });';
    expect(expandShorthand(ts, source)).toBe(source);
  });

  test("keeps a destructuring assignment's meaning", () => {
    expect(expandShorthand(ts, "({ a, b = 2 } = g());")).toBe("({ a: a, b = 2 } = g());");
  });
});

describe("repairShorthand", () => {
  test("checks the cell as written and converts it again only where it has no errors", () => {
    const seen: string[] = [];
    const converter = repairShorthand(ts, {
      convert: (_before: string, source: string) => {
        seen.push(source);
        return { diagnostics: source.includes("wrong") ? ["an error"] : [] };
      },
    });
    expect(converter.convert("", "f({ wrong });").diagnostics).toEqual(["an error"]);
    converter.convert("", "f({ a });");
    converter.convert("", "f(a);");
    expect(seen).toEqual(["f({ wrong });", "f({ a });", "f({ a: a });", "f(a);"]);
  });
});
