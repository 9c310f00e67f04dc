import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import { describe, expect, test } from "vitest";

const folder = fileURLToPath(new URL("../../notebooks", import.meta.url));

interface Cell {
  readonly cell_type: "markdown" | "code";
  readonly source: string | readonly string[];
  readonly outputs?: readonly { readonly data?: Readonly<Record<string, unknown>> }[];
}

const cellsOf = (path: string): readonly Cell[] =>
  (JSON.parse(readFileSync(path, "utf8")) as { readonly cells: readonly Cell[] }).cells; // read and checked by nbformat's own fields
const textOf = (cell: Cell): string => (typeof cell.source === "string" ? cell.source : cell.source.join(""));
const named = (where: string): string[] =>
  existsSync(where) ? readdirSync(where).filter((name) => name.endsWith(".ipynb")) : [];

const course = named(folder);
/** Notebooks that the course measures leave free of word and figure counts. */
const free = ["00", "17", "18"];

test("the course has notebooks", () => {
  expect(course.length).toBeGreaterThan(0);
});

describe.each(course)("notebook %s", (name) => {
  const cells = cellsOf(join(folder, name));
  const code = cells.filter((cell) => cell.cell_type === "code").map(textOf);
  const markdown = cells.filter((cell) => cell.cell_type === "markdown").map(textOf);
  const all = code.join("\n");
  const counted = !free.includes(name.slice(0, 2));

  test("is named like its title's number", () => {
    expect(markdown[0]).toMatch(new RegExp(`^# ${name.slice(0, 2)} `));
  });

  test("imports from kernel-helpers alone and reaches files only through readRecords", () => {
    const imports = code.flatMap((source) =>
      ts.preProcessFile(source, true, true).importedFiles.map(({ fileName }) => fileName),
    );
    expect(new Set(imports)).toEqual(new Set(["kernel-helpers"]));
    expect(all).not.toMatch(/\brequire\s*\(|\bimport\s*\(|\bprocess\.|\bfetch\s*\(|\beval\s*\(/);
  });

  test("has short cells: median at most 5 lines, 90 % at most 16, none above 25", () => {
    const lines = code.map((source) => source.split("\n").length).toSorted((a, b) => a - b);
    expect(lines[Math.floor((lines.length - 1) / 2)]).toBeLessThanOrEqual(5);
    expect(lines[Math.ceil(0.9 * lines.length) - 1]).toBeLessThanOrEqual(16);
    expect(lines.at(-1)).toBeLessThanOrEqual(25);
  });

  test("has code lines of at most 100 characters, so that a page shows them whole", () => {
    const solutions = cellsOf(join(folder, "solutions", name))
      .filter((cell) => cell.cell_type === "code")
      .map(textOf);
    const long = [...code, ...solutions]
      .flatMap((source) => source.split("\n"))
      .filter((line) => line.length > 100);
    expect(long).toEqual([]);
  });

  test("defers to local codes, permits and licensed practice, and lists cautions and sources", () => {
    expect(markdown.join("\n")).toMatch(/local codes?/i);
    expect(all).toMatch(/\bcautions\(/);
    expect(all).toMatch(/\bsources\(/);
  });

  test("asserts its key numbers against independent routes", () => {
    expect((all.match(/\bcrossCheck\(/g) ?? []).length).toBeGreaterThanOrEqual(counted ? 5 : 1);
  });

  test("every figure has alternative text and axis titles", () => {
    const figures = cells
      .flatMap((cell) => cell.outputs ?? [])
      .filter((output) => output.data?.["application/vnd.plotly.v1+json"] !== undefined);
    expect(figures.length).toBeGreaterThanOrEqual(counted ? 3 : 0);
    for (const { data = {} } of figures) {
      const html = [data["text/html"]].flat().join("");
      expect(html).toMatch(/<img alt="[^"]{30,}"/);
      const spec = JSON.stringify(data["application/vnd.plotly.v1+json"]);
      expect(spec).toMatch(/"xaxis":\{.*"title"/);
      expect(spec).toMatch(/"yaxis":\{.*"title"/);
    }
  });

  test.runIf(counted)("has 1,200 to 2,000 words and 1.2 to 2 markdown cells a code cell", () => {
    const words =
      markdown
        .join("\n")
        .replace(/\$\$?[^$]*\$\$?/g, " equation ")
        .match(/[\p{L}\p{N}][\p{L}\p{N}'’.-]*/gu) ?? [];
    expect(words.length).toBeGreaterThanOrEqual(1200);
    expect(words.length).toBeLessThanOrEqual(2000);
    expect(markdown.length / code.length).toBeGreaterThanOrEqual(1.2);
    expect(markdown.length / code.length).toBeLessThanOrEqual(2);
  });

  test("has exercises, each solved in solutions/", () => {
    const asked = [...all.matchAll(/\bexercise\(\s*"([\d.]+)"/g)].map(([, id]) => id);
    expect(new Set(asked).size).toBeGreaterThanOrEqual(3);
    expect(new Set(asked).size).toBeLessThanOrEqual(5);
    const solved = cellsOf(join(folder, "solutions", name))
      .flatMap((cell) => cell.outputs ?? [])
      .flatMap(
        (output) =>
          [output.data?.["text/markdown"]]
            .flat()
            .join("")
            .match(/✓ Exercise ([\d.]+): right/)?.[1] ?? [],
      );
    expect(new Set(solved)).toEqual(new Set(asked));
  });
});
