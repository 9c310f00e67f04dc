import { describe, expect, test } from "vitest";
import { table } from "../../kernel-helpers/src/notebook/table";
import { collectOutputs } from "./emitted";

const outputs = collectOutputs();

describe("table", () => {
  test("joins a cell's list of words by commas, shows an empty one as a dash, and escapes the words", () => {
    table(
      [
        { name: "one", marks: ["meant for <bars>", "no range known"] },
        { name: "two", marks: [] },
      ],
      { caption: "Marks", columns: { name: "Name", marks: "Marks" } },
    );
    const html = outputs.last("text/html");
    expect(html).toContain('<div align="left">meant for &lt;bars&gt;, no range known</div>');
    expect(html).toContain('<div align="left">–</div>');
  });

  test("says so where there are no rows", () => {
    table<{ line: number; value: string }>([], {
      caption: "Faults",
      columns: { line: "Line", value: "Value" },
    });
    expect(outputs.last("text/html")).toContain('<tr><td colspan="2">no rows</td></tr>');
  });
});
