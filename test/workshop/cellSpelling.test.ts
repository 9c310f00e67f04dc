import ts from "typescript";
import { describe, expect, test } from "vitest";
import { spellOut, repairSpelling } from "../../kernel-helpers/src/workshop/cellSpelling";

describe("spellOut", () => {
  test("writes out every shorthand property, nested ones too", () => {
    expect(spellOut(ts, "f({ a, b: { c } }, { d, });")).toBe("f({ a: a, b: { c: c } }, { d: d, });");
  });

  test("leaves text, comments, full properties and destructuring declarations alone", () => {
    const source = 'const { a, b } = g("{ a }"); // { a }\nf({ a: 1 });';
    expect(spellOut(ts, source)).toBe(source);
  });

  test("quotes the property that a parameter or a declaration renames", () => {
    expect(spellOut(ts, "rows.map(({ species: name, length }) => name);")).toBe(
      'rows.map(({ "species": name, length }) => name);',
    );
  });

  test("keeps a destructuring assignment's meaning", () => {
    expect(spellOut(ts, "({ a, b = 2 } = g());")).toBe("({ a: a, b = 2 } = g());");
  });
});

describe("repairSpelling", () => {
  test("converts a cell with its shorthand written out, and as written where it has errors", () => {
    const seen: string[] = [];
    const converter = repairSpelling(ts, {
      convert: (_before: string, source: string) => {
        seen.push(source);
        return { diagnostics: source.includes("wrong") ? ["an error"] : [] };
      },
    });
    expect(converter.convert("", "f({ wrong });").diagnostics).toEqual(["an error"]);
    converter.convert("", "f({ a });");
    converter.convert("", "f(a);");
    expect(seen).toEqual(["f({ wrong: wrong });", "f({ wrong });", "f({ a: a });", "f(a);"]);
  });
});
