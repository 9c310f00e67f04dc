import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import writeWorkbook, { type SheetData } from "write-excel-file/node";
import { checkRecords, type Offence, readTable } from "../../kernel-helpers/src/records";
import { defineSchema } from "../../kernel-helpers/src/schema";
import { fish, read, refusal } from "./fixtures";
import { textCell, workbookFiles, zip } from "./workbook";

const day = (text: string): { value: Date; format: string } => ({
  value: new Date(`${text}Z`),
  format: "yyyy-mm-dd",
});
const head = ["fishId", "date", "species", "totalLength [cm]", "weight [g]", "age"];
const ab = defineSchema({
  title: "pairs",
  columns: { a: { kind: "text" }, b: { kind: "number", optional: true } },
});

async function workbook(data: SheetData): Promise<Uint8Array> {
  return writeWorkbook(data).toBuffer();
}

async function sentences(bytes: Uint8Array, schema = ab): Promise<string[]> {
  const { offences } = await refusal(read(bytes, schema, "survey.xlsx"));
  return offences.map((offence: Offence) => offence.sentence);
}

const abRow = `<row r="1">${textCell("A1", "a")}${textCell("B1", "b")}</row>`;

describe("a workbook", () => {
  test("gives the records of its worksheet: dates as days, quantities in SI, text as written", async () => {
    const bytes = await workbook([
      head,
      ["=1+2", day("2022-04-02"), "roach", 35, 399.5, 4],
      ["<b>F2</b>", "2024-02-29", "silver eel", "61.2", null, null],
      [" F3 ", day("1999-12-31"), "grayling", 19, 0.1, 0],
    ]);
    const { rows } = await read(bytes, fish, "survey.xlsx");
    expect(rows).toEqual([
      { fishId: "=1+2", date: "2022-04-02", species: "roach", totalLength: 0.35, weight: 0.3995, age: 4 },
      {
        fishId: "<b>F2</b>",
        date: "2024-02-29",
        species: "silver eel",
        totalLength: 0.612,
        weight: undefined,
        age: undefined,
      },
      { fishId: " F3 ", date: "1999-12-31", species: "grayling", totalLength: 0.19, weight: 0.0001, age: 0 },
    ]);
  });

  test("has its offences in the rows of the worksheet", async () => {
    const bytes = await workbook([
      head,
      ["F1", day("2022-04-02T10:30"), "roach", "34,3", true, 1.5],
      [null, null, null, null, null, null],
      ["F3", 44197, "roach", 12, null, null],
    ]);
    expect(await sentences(bytes, fish as unknown as typeof ab)).toEqual([
      expect.stringContaining(
        'survey.xlsx:2, column date: "2022-04-02T10:30:00.000Z" has a time of day; write 2022-04-02.',
      ),
      expect.stringContaining(
        'survey.xlsx:2, column totalLength [cm]: "34,3" has a decimal comma; write 34.3, or read the file with decimalComma: true.',
      ),
      expect.stringContaining('survey.xlsx:2, column weight [g]: "TRUE" is no number.'),
      expect.stringContaining('survey.xlsx:2, column age: "1.5" is not whole.'),
      expect.stringContaining("survey.xlsx:3: the line is empty; take it out."),
      expect.stringContaining('survey.xlsx:4, column date: "44197" is a spreadsheet\'s count of days'),
    ]);
  });

  test("gives the same rows that were written", async () => {
    const schema = defineSchema({
      title: "anything",
      columns: { note: { kind: "text" }, date: { kind: "day" }, value: { kind: "number" } },
    });
    const rows = fc.array(
      fc.record({
        note: fc
          .string({ unit: fc.constantFrom("a", "<", "&", '"', " ", ",", "é", "=", "1"), minLength: 1 })
          .filter((text) => text.trim() !== ""),
        date: fc
          .date({ min: new Date("1901-01-01"), max: new Date("2999-12-31"), noInvalidDate: true })
          .map((date) => date.toISOString().slice(0, 10)),
        value: fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 }),
      }),
      { minLength: 1, maxLength: 10 },
    );
    await fc.assert(
      fc.asyncProperty(rows, async (written) => {
        const bytes = await workbook([
          ["note", "date", "value"],
          ...written.map(({ note, date, value }) => [note, day(date), value]),
        ]);
        const zeroed = written.map((row) => ({ ...row, value: row.value === 0 ? 0 : row.value }));
        expect((await read(bytes, schema, "survey.xlsx")).rows).toEqual(zeroed);
      }),
      { numRuns: 40 },
    );
  });

  test("with several filled worksheets wants one to be named", async () => {
    const bytes = await writeWorkbook([
      {
        data: [
          ["a", "b"],
          ["x", 1],
        ],
        sheet: "Spring",
      },
      {
        data: [
          ["a", "b"],
          ["y", 2],
        ],
        sheet: "Autumn",
      },
    ]).toBuffer();
    expect((await sentences(bytes))[0]).toContain(
      'the workbook has 2 worksheets: "Spring", "Autumn"; name the one to read: readRecords(name, schema, { sheet: "Spring" }).',
    );
    const autumn = await readTable(bytes, "survey.xlsx", { sheet: "Autumn" });
    expect(checkRecords(autumn, ab).rows).toEqual([{ a: "y", b: 2 }]);
    const wrong = await readTable(bytes, "survey.xlsx", { sheet: "autumn" });
    expect(wrong.offences[0].sentence).toContain('there is no worksheet "autumn"; did you mean "Autumn"?');
  });

  test("without entries is refused", async () => {
    expect((await sentences(await workbook([])))[0]).toContain("survey.xlsx: the workbook is empty.");
    expect((await sentences(await workbook([["a", "b"]])))[0]).toContain("the file has no records");
  });
});

describe("formulas of a workbook", () => {
  test("count with their stored values", async () => {
    const rows = `${abRow}<row r="2">${textCell("A2", "x")}<c r="B2"><f>1+1.5</f><v>2.5</v></c></row>`;
    expect((await read(zip(workbookFiles(rows)), ab, "survey.xlsx")).rows).toEqual([{ a: "x", b: 2.5 }]);
  });

  test("that give an error or were never calculated are offences, also where an entry may be missing", async () => {
    const rows =
      abRow +
      `<row r="2">${textCell("A2", "x")}<c r="B2" t="e"><f>1/0</f><v>#DIV/0!</v></c></row>` +
      `<row r="3"><c r="A3" t="str"><f>A2</f></c><c r="B3"><v>1</v></c></row>`;
    expect(await sentences(zip(workbookFiles(rows)))).toEqual([
      'survey.xlsx:2, column b: the formula gives "#DIV/0!"; mend it, or leave the cell empty. Allowed: a value.',
      "survey.xlsx:3, column a: the formula was never calculated; open the workbook, let it calculate and save it. Allowed: a value.",
    ]);
  });
});

describe("a file that is no sound workbook is refused", () => {
  test("when it is text, cut off or holds other files", async () => {
    const whole = await workbook([
      ["a", "b"],
      ["x", 1],
    ]);
    expect((await sentences(new TextEncoder().encode("a,b\nx,1\n")))[0]).toContain("the file is no workbook");
    expect((await sentences(whole.slice(0, whole.length - 200)))[0]).toContain("the file is no workbook");
    expect((await sentences(zip({ "note.txt": "x" })))[0]).toContain("(xl/workbook.xml is missing)");
  });

  test("when its content is damaged", async () => {
    const bytes = Uint8Array.from(zip(workbookFiles(abRow)));
    bytes.fill(0xff, 60, 120);
    expect((await sentences(bytes))[0]).toMatch(
      /the workbook is damaged or no XLSX workbook \(.+\); save it again/,
    );
  });

  test("when it unpacks to more than 250 MB, by its directory or in truth", async () => {
    expect((await sentences(zip(workbookFiles(abRow), 100_000_000)))[0]).toContain(
      "the workbook unpacks to 400 MB; at most 250 MB are read.",
    );
    const files = { ...workbookFiles(abRow), "xl/sharedStrings.xml": " ".repeat(50_000_000) };
    const before = process.memoryUsage().rss;
    expect((await sentences(zip(files, 1000)))[0]).toContain("the workbook is damaged");
    expect(process.memoryUsage().rss - before).toBeLessThan(60_000_000);
  });

  test("when one cell stands at the far corner", async () => {
    const rows = `${abRow}<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`;
    expect((await sentences(zip(workbookFiles(rows))))[0]).toContain(
      "reaches over more than 10 million cells",
    );
  });
});
