import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readTable, type Table } from "../../kernel-helpers/src/records";
import { defineSchema, type RowOf } from "../../kernel-helpers/src/schema";
import { fish, fishHead, fishRow, read, refusal, sentences } from "./fixtures";

const table = (text: string): ReturnType<typeof readTable> =>
  readTable(new TextEncoder().encode(text), "survey.csv");

// The two are kept in different ways; what stands in them is the same.
const cellsOf = ({ columns, ...rest }: Table): unknown => ({
  ...rest,
  cells: columns.map((column) => Array.from({ length: column.length }, (_, index) => column.at(index))),
});

describe("a CSV file", () => {
  test.each([
    ["line feeds", "\n"],
    ["carriage returns and line feeds", "\r\n"],
    ["carriage returns", "\r"],
  ])("may end its lines with %s", async (_, end) => {
    const plain = [fishHead, fishRow, fishRow.replace("F1", "F2")].join(end);
    const quoted = [fishHead, fishRow.replace("F1", '"F1"'), fishRow.replace("F1", "F2")].join(end);
    for (const text of [plain, plain + end, quoted, quoted + end]) {
      const records = await read(text, fish);
      expect(records.column("fishId")).toEqual(["F1", "F2"]);
      expect(records.column("age")).toEqual([4, 4]);
    }
  });

  test("may begin with a byte order mark", async () => {
    expect((await read(`\uFEFF${fishHead}\n${fishRow}\n`, fish)).count).toBe(1);
    expect((await read(`\uFEFF"fishId"${fishHead.slice(6)}\n${fishRow}\n`, fish)).count).toBe(1);
  });

  test("may end with empty lines; an empty line between records is refused", async () => {
    expect((await read(`${fishHead}\n${fishRow}\n\n\n`, fish)).count).toBe(1);
    expect((await read(`${fishHead}\n"F1"${fishRow.slice(2)}\n\n\n`, fish)).count).toBe(1);
    expect(await sentences(`${fishHead}\n\n${fishRow}\n`)).toEqual([
      "survey.csv:2: the line is empty; take it out. Allowed: 6 entries, as many as the first line has.",
    ]);
  });

  test("of one column keeps its empty lines: an entry is missing there", async () => {
    const schema = defineSchema({ title: "one", columns: { x: { kind: "number", optional: true } } });
    expect((await read("x\n1\n\n3\n", schema)).column("x")).toEqual([1, undefined, 3]);
    expect((await read('"x"\n1\n\n3\n', schema)).column("x")).toEqual([1, undefined, 3]);
  });

  test("keeps commas, line breaks and doubled marks inside quotation marks, and counts their lines", async () => {
    const { columns, lines } = await table('a,b\n"x, y","line 1\nline 2"\n"say ""so""",2\n3,4\n');
    expect(columns).toEqual([
      ["x, y", 'say "so"', "3"],
      ["line 1\nline 2", "2", "4"],
    ]);
    expect(lines).toEqual([2, 4, 5]);
  });

  test("with lines of another length names them with the remedy", async () => {
    const found = await sentences(`${fishHead}\n${fishRow},7\nF2,2022-01-01\n${fishRow}\n`);
    expect(found).toEqual([
      "survey.csv:2: the line has 7 entries; write decimals with a point, and put a text that holds a comma in quotation marks. " +
        "Allowed: 6 entries, as many as the first line has.",
      "survey.csv:3: the line has 2 entries; write a comma for every entry that is missing. " +
        "Allowed: 6 entries, as many as the first line has.",
    ]);
  });

  test.each([
    ['a,b\n1,2\n3,"open\n4,5\n', 3, "a quotation mark opens here and never closes"],
    ['a,b\n"1\n1",2\n3,4"5\n', 4, "a quotation mark stands inside an entry"],
    ['a,b\n"1"2,3\n', 2, "something stands between a closing quotation mark and the comma"],
    ['a;b\n1;"2; 3"\n', 2, 'If the columns are apart by ";", read the file with separator: ";".'],
  ])("with a stray quotation mark is refused at its line: %j", async (text, line, sentence) => {
    const schema = defineSchema({ title: "ab", columns: { a: { kind: "text" }, b: { kind: "text" } } });
    const { offences } = await refusal(read(text, schema));
    expect(offences).toHaveLength(1);
    expect(offences[0].line).toBe(line);
    expect(offences[0].sentence).toContain(sentence);
  });
});

describe("a file that is no CSV file", () => {
  test("is refused when it is empty, and when it holds a byte order mark alone", async () => {
    expect(await sentences("")).toEqual([expect.stringContaining("survey.csv: the file is empty.")]);
    expect(await sentences("\uFEFF")).toEqual([expect.stringContaining("survey.csv: the file is empty.")]);
  });

  test("is refused line by line where it is not UTF-8", async () => {
    const latin = Uint8Array.from([..."a,b\nM\u00fcndung,1\nx,2\nHöhe,3\n"].map((c) => c.charCodeAt(0)));
    const { offences } = await refusal(read(latin, fish));
    expect(offences.map(({ line }) => line)).toEqual([2, 4]);
    expect(offences[0].sentence).toContain("is not UTF-8; save the file as CSV in UTF-8");
  });

  test("is refused as UTF-16, as a workbook of the old kind, as a packed file, as binary", async () => {
    expect((await sentences(Uint8Array.from([0xff, 0xfe, 97, 0])))[0]).toContain("the text is UTF-16");
    expect((await sentences(Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0])))[0]).toContain(
      "a workbook of the old kind",
    );
    expect((await sentences(Uint8Array.from([0x50, 0x4b, 3, 4])))[0]).toContain("name it .xlsx");
    expect((await sentences(Uint8Array.from([97, 0, 98])))[0]).toContain("zero bytes");
  });

  test("is refused by its name's ending", async () => {
    const { message } = await refusal(read("a\n1\n", fish, "survey.txt"));
    expect(message).toContain(
      'the name ends in ".txt". Allowed: a CSV file (.csv) or an XLSX workbook (.xlsx).',
    );
  });

  test("is refused quickly and without copies when one line has 100 MB", async () => {
    const huge = new Uint8Array(100_000_000).fill(97);
    huge.set(new TextEncoder().encode("a,b\n1,2\n"));
    const before = process.memoryUsage().rss;
    const start = performance.now();
    const [sentence] = await sentences(huge);
    expect(sentence).toContain("survey.csv:3: the line is longer than 1 MB");
    expect(performance.now() - start).toBeLessThan(2000);
    expect(process.memoryUsage().rss - before).toBeLessThan(50_000_000);
  });

  test("is refused when a quotation mark that never closes swallows more than 1 MB", async () => {
    const [sentence] = await sentences(`a,b\n1,2\n3,"x\n${"4,5\n".repeat(400_000)}`);
    expect(sentence).toContain("survey.csv:3: the record is longer than 1 MB; look for a quotation mark");
  });
});

const quoted = (entry: string): string =>
  /[",\n\r]/.test(entry) ? `"${entry.replaceAll('"', '""')}"` : entry;

const word = fc
  .string({ unit: "grapheme", minLength: 1, maxLength: 12 })
  .filter((text) => text.trim() !== "");
const day = fc
  .date({ min: new Date("1000-01-01"), max: new Date("2999-12-31"), noInvalidDate: true })
  .map((date) => date.toISOString().slice(0, 10));

describe("reading what was written", () => {
  const schema = defineSchema({
    title: "anything",
    columns: {
      note: { kind: "text" },
      date: { kind: "day" },
      value: { kind: "number", optional: true },
      word: { kind: "choice", oneOf: ["left, right", 'the "middle"', "plain"] },
    },
  });
  const rows = fc.array(
    fc.record({
      note: word,
      date: day,
      value: fc.option(fc.double({ noNaN: true, noDefaultInfinity: true }), { nil: undefined }),
      word: fc.constantFrom(...schema.columns.word.oneOf),
    }),
    { minLength: 1, maxLength: 20 },
  );
  const names = ["note", "date", "value", "word"] as const;

  test("gives the same rows", async () => {
    await fc.assert(
      fc.asyncProperty(rows, fc.constantFrom("\n", "\r\n"), async (written, end) => {
        const lines = written.map((row) =>
          names.map((name) => quoted(row[name] === undefined ? "" : String(row[name]))).join(","),
        );
        const { rows: found } = await read([names.join(","), ...lines].join(end) + end, schema);
        const zeroed = written.map((row): RowOf<typeof schema> => ({
          ...row,
          // JavaScript writes -0 as 0.
          value: row.value === 0 ? 0 : row.value,
        }));
        expect(found).toEqual(zeroed);
      }),
    );
  });

  test("does not depend on quotation marks that are not needed", async () => {
    const cell = fc.string({ unit: fc.constantFrom("a", "1", ".", " ", ";", "é"), maxLength: 4 });
    const cells = fc
      .integer({ min: 2, max: 4 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 8 }),
      );
    await fc.assert(
      fc.asyncProperty(cells, async (matrix) => {
        const plain = matrix.map((row) => row.join(",")).join("\n");
        const marked = matrix.map((row) => row.map((entry) => `"${entry}"`).join(",")).join("\n");
        expect(cellsOf(await table(plain))).toEqual(cellsOf(await table(marked)));
      }),
    );
  });
});
