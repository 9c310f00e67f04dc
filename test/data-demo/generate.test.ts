import { createHash } from "node:crypto";
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { csvText } from "../../data-demo/generators/csv";
import { recordSets } from "../../data-demo/generators/record-sets";
import { demoText } from "./files";

function digest(content: string): string {
  return createHash("sha256").update(content, "utf8").digest("hex");
}

describe("the demo records", () => {
  it.each(recordSets)("$file is, byte for byte, what its generator writes", ({ file, text }) => {
    // A difference here means: run "npm run data", and look at what changed in the file.
    expect(digest(demoText(file))).toBe(digest(text()));
  });

  it.each(recordSets)("$file comes out the same on a second run in the same process", ({ text }) => {
    expect(text()).toBe(text());
  });

  it.each(recordSets)("$file has no byte-order mark, LF line ends and a line end at the end", ({ file }) => {
    const text = demoText(file);
    expect(text.charCodeAt(0)).toBeLessThan(128);
    expect(text).not.toContain("\r");
    expect(text).toMatch(/[^\n]\n$/);
  });

  it("are all the CSV files of the folder", () => {
    const folder = fileURLToPath(new URL("../../data-demo/", import.meta.url));
    const files = readdirSync(folder).filter((name) => name.endsWith(".csv"));
    expect(files.toSorted()).toEqual(recordSets.map(({ file }) => file).toSorted());
  });

  it("are drawn with a seed and never from the clock or the engine's own random numbers", () => {
    const folder = new URL("../../data-demo/generators/", import.meta.url);
    for (const name of readdirSync(fileURLToPath(folder))) {
      const source = demoText(`generators/${name}`);
      expect(`${name}: ${source}`).not.toMatch(/Math\.random|Date\.now|new Date\(\)|performance\./);
    }
  });
});

describe("csvText", () => {
  it("quotes a cell that holds a comma, a quote or a line end, and doubles its quotes", () => {
    expect(
      csvText(
        ["a", "b"],
        [
          ["1,2", 'say "x"'],
          ["two\nlines", "plain"],
        ],
      ),
    ).toBe('a,b\n"1,2","say ""x"""\n"two\nlines",plain\n');
  });

  it("refuses a row whose cells do not match the header, naming both counts", () => {
    expect(() => csvText(["a", "b"], [["1"]])).toThrow("row 1 has 1 cells; the header has 2 columns");
  });
});
