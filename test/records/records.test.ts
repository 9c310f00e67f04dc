import { inspect } from "node:util";
import { describe, expect, expectTypeOf, test } from "vitest";
import type { Length, Mass } from "../../kernel-helpers/src/quantity";
import { defineSchema } from "../../kernel-helpers/src/schema";
import { fish, fishHead, fishRow, read, refusal, sentences } from "./fixtures";

const flow = defineSchema({
  title: "daily mean flow",
  columns: {
    date: { kind: "day", unique: true },
    discharge: { kind: "quantity", unit: "m3ps", atLeast: 0 },
  },
});

describe("checkRecords gives", () => {
  test("rows with quantities in SI, words and days", async () => {
    const { rows, count, columnNames } = await read(`${fishHead}\n${fishRow}\n`, fish);
    expect(rows).toEqual([
      { fishId: "F1", date: "2022-04-02", species: "roach", totalLength: 0.343, weight: 0.3995, age: 4 },
    ]);
    expect(count).toBe(1);
    expect(columnNames).toEqual(["fishId", "date", "species", "totalLength", "weight", "age"]);
  });

  test("columns typed by the schema, and refuses one that is not there", async () => {
    const records = await read(`${fishHead}\n${fishRow}\nF2,2022-04-03,silver eel,612,,\n`, fish);
    expect(records.column("totalLength")).toEqual([0.343, 0.612]);
    expect(records.column("weight")).toEqual([0.3995, undefined]);
    expectTypeOf(records.column("totalLength")).toEqualTypeOf<readonly Length[]>();
    expectTypeOf(records.column("weight")).toEqualTypeOf<readonly (Mass | undefined)[]>();
    expectTypeOf(records.rows[0].species).toEqualTypeOf<"roach" | "grayling" | "silver eel">();
    expect(() => records.column("lenght" as "age")).toThrow(
      '"fish lengths" (survey.csv) has no column "lenght"; its columns are fishId, date, species, totalLength, weight, age.',
    );
  });

  test("the columns of a file in any order", async () => {
    const { rows } = await read("discharge [m3/s],date\n34,2020-02-29\n", flow);
    expect(rows).toEqual([{ date: "2020-02-29", discharge: 34 }]);
  });
});

describe("units of a head", () => {
  test.each([
    ["m3/s", "34", 34],
    ["m³/s", "34", 34],
    ["m^3/s", "34", 34],
    ["L/s", "340", 0.34],
    ["l/s", "340", 0.34],
  ])("[%s] is a discharge", async (unit, text, value) => {
    const records = await read(`date,discharge [${unit}]\n2020-01-01,${text}\n`, flow);
    expect(records.column("discharge")).toEqual([value]);
  });

  test.each([
    ["deg", "38", (38 * Math.PI) / 180],
    ["°", "38", (38 * Math.PI) / 180],
    ["rad", "0.5", 0.5],
  ])("[%s] is an angle", async (unit, text, value) => {
    const schema = defineSchema({ title: "angles", columns: { angle: { kind: "quantity", unit: "deg" } } });
    expect((await read(`angle [${unit}]\n${text}\n`, schema)).column("angle")[0]).toBeCloseTo(value, 14);
  });

  test("1/s is a rotational speed or a velocity gradient, as the schema says", async () => {
    const schema = defineSchema({
      title: "both",
      columns: { speed: { kind: "quantity", unit: "rpm" }, gradient: { kind: "quantity", unit: "perS" } },
    });
    const { rows } = await read("speed [1/s],gradient [1/s]\n2,3\n", schema);
    expect(rows).toEqual([{ speed: 2, gradient: 3 }]);
  });

  test("limits hold in SI, whatever unit the file has", async () => {
    const records = await read(
      fishHead.replace("[mm]", "[cm]") + "\n" + fishRow.replace("343", "34.3"),
      fish,
    );
    expect(records.column("totalLength")[0]).toBeCloseTo(0.343, 15);
    expect(await sentences(fishHead.replace("[mm]", "[cm]") + "\n" + fishRow)).toEqual([
      'survey.csv:2, column totalLength [cm]: "343" cm is outside the limits. Allowed: a number above 0 mm and at most 2000 mm.',
    ]);
  });

  test("a head without unit, of another dimension or with an unknown unit says what to write", async () => {
    expect(await sentences("date,discharge\n2020-01-01,1\n", flow)).toEqual([
      "survey.csv:1, column discharge: the head names no unit; write discharge [m3/s]; the units may be m3/s or L/s. Allowed: discharge [m3/s].",
    ]);
    expect((await sentences("date,discharge [mm]\n2020-01-01,1\n", flow))[0]).toContain(
      '"[mm]" is a unit of length, but discharge is of discharge; write discharge [m3/s]',
    );
    expect((await sentences("date,discharge [M3/S]\n2020-01-01,1\n", flow))[0]).toContain(
      '"[M3/S]" is no unit that is known here',
    );
  });

  test("a column without unit takes [-] and refuses [%]", async () => {
    const schema = defineSchema({
      title: "shares",
      columns: { share: { kind: "number", atLeast: 0, atMost: 1 } },
    });
    expect((await read("share [-]\n0.5\n", schema)).column("share")).toEqual([0.5]);
    expect((await sentences("share [%]\n50\n", schema))[0]).toContain("write shares as numbers from 0 to 1");
  });
});

describe("numbers", () => {
  const schema = defineSchema({ title: "numbers", columns: { x: { kind: "number" } } });

  test.each([
    ["12", 12],
    [" -0.5 ", -0.5],
    ["+3.", 3],
    [".25", 0.25],
    ["1e3", 1000],
    ["2.5E-3", 0.0025],
  ])("%j is read", async (text, value) => {
    expect((await read(`x\n${text}\n`, schema)).column("x")).toEqual([value]);
  });

  test.each([
    ['"1,5"', '"1,5" has a decimal comma; write 1.5, or read the file with decimalComma: true.'],
    ["12 mm", '"12 mm" has "mm" behind the number; write 12:'],
    ["", "the entry is missing."],
    ["NaN", '"NaN" is no number; leave the cell empty where the entry is missing'],
    ["NA", '"NA" is no number; leave the cell empty'],
    ["-", '"-" is no number; leave the cell empty'],
    ['"1,234.5"', "has marks between thousands"],
    ["1 234", "has marks between thousands"],
    ["Infinity", '"Infinity" is no number; leave'],
    ["1e999", "is too large for a number"],
    ["0x10", '"0x10" is no decimal number.'],
    ["−5", "has a long minus sign; write -5."],
    ["#DIV/0!", "is a formula's error"],
    ["=1+2", "is a formula; write its value"],
    ["many", '"many" is no number.'],
  ])("%j is refused with its remedy", async (text, sentence) => {
    const found = await sentences(`x\n${text}\n`, schema);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(sentence);
    expect(found[0]).toMatch(/^survey\.csv:2, column x: .* Allowed: a number\.$/);
  });

  test("a whole number is whole", async () => {
    const whole = defineSchema({
      title: "counts",
      columns: { x: { kind: "number", whole: true, atLeast: 0 } },
    });
    expect(await sentences("x\n2.5\n-1\n", whole)).toEqual([
      'survey.csv:2, column x: "2.5" is not whole. Allowed: a whole number at least 0.',
      'survey.csv:3, column x: "-1" is outside the limits. Allowed: a whole number at least 0.',
    ]);
  });
});

describe("days", () => {
  test.each(["2020-02-29", "2000-02-29", "1999-12-31"])("%s is a day", async (day) => {
    expect((await read(`date,discharge [m3/s]\n${day},1\n`, flow)).column("date")).toEqual([day]);
  });

  test.each([
    ["2021-02-29", "is no day of the calendar"],
    ["1900-02-29", "is no day of the calendar"],
    ["2021-13-01", "is no day of the calendar"],
    ["2021-04-31", "is no day of the calendar"],
    ["01.03.2026", "is written another way round; write year-month-day, such as 2026-03-01"],
    ["3/1/2026", "is written another way round"],
    ["2026-3-1", "is written another way round"],
    ["2026-03-01T12:00", "has a time of day; write 2026-03-01."],
    ["44197", "is a spreadsheet's count of days"],
    ["spring", "is no day."],
  ])("%s is refused: it %s", async (day, sentence) => {
    expect((await sentences(`date,discharge [m3/s]\n${day},1\n`, flow))[0]).toContain(sentence);
  });
});

describe("words, unique entries and missing ones", () => {
  test("a word outside the list names the near one and the list", async () => {
    expect(await sentences(`${fishHead}\n${fishRow.replace("roach", "Roach")}\n`)).toEqual([
      'survey.csv:2, column species: "Roach" is not in the list; did you mean "roach"? Allowed: one of roach, grayling, silver eel.',
    ]);
    expect((await sentences(`${fishHead}\n${fishRow.replace("roach", "stork")}\n`))[0]).toContain(
      '"stork" is not in the list. Allowed',
    );
  });

  test("a repeated entry of a unique column names the line of the first", async () => {
    expect(await sentences(`${fishHead}\n${fishRow}\n${fishRow.replace("343", "200")}\n`)).toEqual([
      'survey.csv:3, column fishId: "F1" stands already in line 2. Allowed: a text, in no two rows the same.',
    ]);
  });

  test("a required entry may not be missing", async () => {
    expect(await sentences(`${fishHead}\n,2022-04-02,,343,,\n`)).toEqual([
      "survey.csv:2, column fishId: the entry is missing. Allowed: a text, in no two rows the same.",
      "survey.csv:2, column species: the entry is missing. Allowed: one of roach, grayling, silver eel.",
    ]);
  });

  test("text stays as it is written, formulas and HTML included", async () => {
    const schema = defineSchema({ title: "notes", columns: { note: { kind: "text" } } });
    const notes = ['=HYPERLINK("x")', "<script>alert(1)</script>", "  two  spaces ", "a, b\nc", "@SUM(1)"];
    const csv = `note\n${notes.map((note) => `"${note.replaceAll('"', '""')}"`).join("\n")}\n`;
    expect((await read(csv, schema)).column("note")).toEqual(notes);
  });
});

describe("the columns of a file", () => {
  test("that are missing, doubled, unknown or unnamed are named", async () => {
    expect(await sentences(`fishId,date,date,speces,totalLength [mm],weight [g],age,\n`)).toEqual([
      expect.stringContaining('column date: "date" stands more than once; take one of them out.'),
      expect.stringContaining("survey.csv:1: column 8 has no name; name it or take it out."),
      expect.stringContaining("column speces: the column is not in the schema; did you mean species?"),
      expect.stringContaining("survey.csv:1: the column species is missing."),
    ]);
  });

  test("without records are refused", async () => {
    expect(await sentences("date,discharge [m3/s]\n", flow)).toEqual([
      "survey.csv: the file has no records. Allowed: at least one record below the names of the columns.",
    ]);
  });

  test("that are not in the schema are refused, unless it allows others", async () => {
    const text = "date,discharge [m3/s],gauge\n2020-01-01,1,A\n";
    expect((await sentences(text, flow))[0]).toContain(
      "column gauge: the column is not in the schema; take it out, name it in ignore, or say in columns which one it is.",
    );
    const open = defineSchema({ ...flow, others: true });
    expect((await read(text, open)).rows).toEqual([{ date: "2020-01-01", discharge: 1 }]);
  });

  test("apart by semicolons or tabs lead to one sentence", async () => {
    for (const [separator, word] of [
      [";", "semicolons"],
      ["\t", "tabs"],
      ["|", "upright strokes"],
    ]) {
      const text = `date${separator}discharge [m3/s]\n2020-01-01${separator}1,5\n2020-01-02${separator}2,5\n`;
      expect(await sentences(text, flow)).toEqual([
        `survey.csv:1: the columns are apart by ${word}; save the file with commas between the columns and points in the numbers, ` +
          `or read it with separator: ${JSON.stringify(separator)}. ` +
          "Allowed: the columns date, discharge [m3/s], apart by commas.",
      ]);
    }
    expect((await sentences("sep=,\ndate,discharge [m3/s]\n", flow))[0]).toContain(
      'the first line is "sep="',
    );
  });
});

describe("the error", () => {
  test("shows the first twenty offences and the count, and holds them all", async () => {
    const lines = Array.from({ length: 500 }, (_, i) => `2020-01-01x,${i},5`);
    const { message, offences } = await refusal(read(`date,discharge [m3/s]\n${lines.join("\n")}`, flow));
    expect(offences).toHaveLength(500);
    expect(message.split("\n")).toHaveLength(22);
    expect(message).toMatch(
      /^survey\.csv can't be read as "daily mean flow": 500 faults\. None of its records is used\./,
    );
    expect(message).toMatch(/… and 480 more\.$/);
  });

  test("collects offences of different columns in the order of the lines", async () => {
    const csv = `${fishHead}\nF1,x,roach,343,,\nF2,2022-01-01,roach,y,,\nF3,2022-01-01,z,343,,\n`;
    const { offences } = await refusal(read(csv, fish));
    expect(offences.map(({ line, column, value }) => [line, column, value])).toEqual([
      [2, "date", "x"],
      [3, "totalLength [mm]", "y"],
      [4, "species", "z"],
    ]);
  });

  test("quotes a long entry in part, with control characters spelled out", async () => {
    const [sentence] = await sentences(
      `date,discharge [m3/s]\n"\u001b[31m\u202e${"9".repeat(500)}x",1\n`,
      flow,
    );
    expect(sentence).toContain('"\\u{1b}[31m\\u{202e}999');
    expect(sentence).toContain("… (507 characters)");
    expect(sentence.length).toBeLessThan(250);
  });
});

test("an error, printed whole, says its sentences once: its list of offences is there to read, not to print", async () => {
  const error = await refusal(read("date,discharge [m3/s]\n2020-02-30,34\n", flow));
  expect(error.offences).toHaveLength(1);
  expect(inspect(error)).toContain("2020-02-30");
  expect(inspect(error)).not.toContain("offences");
});
