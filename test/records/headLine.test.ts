import { describe, expect, test } from "vitest";
import writeWorkbook from "write-excel-file/node";
import { checkRecords, type ReadOptions, readTable, type Records } from "../../kernel-helpers/src/records";
import { defineSchema } from "../../kernel-helpers/src/schema";
import { refusal } from "./fixtures";

const pairs = defineSchema({
  title: "pairs",
  columns: { a: { kind: "text" }, b: { kind: "number", optional: true } },
});

const read = async (
  content: string | Uint8Array,
  options: ReadOptions<typeof pairs> = {},
  name = "tank.csv",
): Promise<Records<typeof pairs>> => {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return checkRecords(await readTable(bytes, name, options), pairs, options);
};

const lead = (line: number): string =>
  `the names of the columns stand in line ${line}; take out what stands above, or read the file with headLine: ${line}.`;

describe("a title above the names of the columns", () => {
  test.each([
    ["one of the table's width", "Trial in May,\n,\na,b\nx,1\n", 3],
    ["a short one", "Trial in May\na,b,\nx,1,\n", 2],
    ["an empty line", "\na,b\nx,1\n", 2],
    ["one in quotation marks", '"Trial, May"\na,b\nx,1\n', 2],
    ["one above columns that are apart by semicolons", "Trial in May\na;b\nx;1\n", 2],
  ])("leads to the line that holds them: %s", async (_, text, line) => {
    const { offences } = await refusal(read(text));
    expect(offences.map(({ fault }) => fault)).toEqual([lead(line)]);
  });

  test.each([
    ["line feeds", "\n"],
    ["carriage returns and line feeds", "\r\n"],
    ["carriage returns", "\r"],
  ])(
    "is passed over with headLine, lines counted from the file's first; they end with %s",
    async (_, end) => {
      for (const text of ["Trial,May|;|a,b|x,1|y,many", 'Trial "A", May|;|a,b|"x",1|y,many']) {
        const whole = text.replaceAll("|", end);
        const { rows, setAside } = await read(whole, { headLine: 3, setAside: true });
        expect(rows).toEqual([{ a: "x", b: 1 }]);
        expect(setAside.map(({ line, value }) => [line, value])).toEqual([[5, "many"]]);
      }
    },
  );

  test("faults of the heads and of a line's length stand in their lines", async () => {
    const { offences } = await refusal(read("Trial\na,c\nx,1,2\n", { headLine: 2 }));
    expect(offences.map(({ line, fault }) => [line, fault])).toEqual([
      [2, expect.stringContaining("the column is not in the schema")],
      [3, expect.stringContaining("the line has 3 entries")],
    ]);
    expect(offences[1].allowed).toBe("2 entries, as many as line 2 has");
  });

  test("in a workbook, merged cells and all", async () => {
    const bytes = await writeWorkbook([
      [{ value: "Trial in May", columnSpan: 2 }, null],
      [null, null],
      ["a", "b"],
      ["x", 1],
      ["y", "many"],
    ]).toBuffer();
    expect((await refusal(read(bytes, {}, "tank.xlsx"))).offences.map(({ fault }) => fault)).toEqual([
      lead(3),
    ]);
    const { rows, setAside } = await read(bytes, { headLine: 3, setAside: true }, "tank.xlsx");
    expect(rows).toEqual([{ a: "x", b: 1 }]);
    expect(setAside.map(({ line, column }) => [line, column])).toEqual([[5, "b"]]);
    expect((await refusal(read(bytes, { headLine: 6 }, "tank.xlsx"))).message).toContain(
      "there is no line 6, which headLine names",
    );
  });

  test("a headLine beyond the file, or that is no line, is refused", async () => {
    expect((await refusal(read("a,b\nx,1\n", { headLine: 3 }))).message).toContain("there is no line 3");
    await expect(read("a,b\nx,1\n", { headLine: 0 })).rejects.toThrow(
      "headLine is 0; it must be a whole number of at least 1",
    );
  });
});

describe("commas that a spreadsheet leaves", () => {
  test("a column without a name and without an entry is none", async () => {
    expect((await read("a,b,,\nx,1,,\n")).rows).toEqual([{ a: "x", b: 1 }]);
    expect((await refusal(read("a,b,\nx,1,late\n"))).message).toContain("column 3 has no name");
  });

  test.each(["x,1\n,\ny,2\n", '"x",1\n,\ny,2\n'])("a line of them is an empty line", async (text) => {
    const { offences } = await refusal(read(`a,b\n${text}`));
    expect(offences.map(({ line, fault }) => [line, fault])).toEqual([
      [3, "the line is empty; take it out."],
    ]);
  });

  test("at the end of records only are named as what they are", async () => {
    const { offences } = await refusal(read("a,b\nx,1,,\n"));
    expect(offences[0].fault).toBe("the line has 4 entries; take out the comma at its end.");
  });
});
