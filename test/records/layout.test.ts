import { describe, expect, test } from "vitest";
import { checkRecords, type ReadOptions, readTable, type Records } from "../../kernel-helpers/src/records";
import { defineSchema } from "../../kernel-helpers/src/schema";
import { refusal } from "./fixtures";

const trial = defineSchema({
  title: "fish of a trial",
  columns: {
    fishId: { kind: "text", unique: true },
    date: { kind: "day" },
    totalLength: { kind: "quantity", unit: "mm", above: 0 },
    outcome: { kind: "choice", oneOf: ["bypassed", "rackPassed"] },
    outcomeTime: { kind: "quantity", unit: "min", optional: true },
  },
});

const read = async (text: string, options: ReadOptions<typeof trial>): Promise<Records<typeof trial>> =>
  checkRecords(await readTable(new TextEncoder().encode(text), "tank.csv", options), trial, options);

const layout: ReadOptions<typeof trial> = {
  separator: ";",
  decimalComma: true,
  missing: ["-", "n/a"],
  ignore: ["Remarks"],
  columns: {
    fishId: "Fish no.",
    date: { head: "Day", days: "dd.mm.yyyy" },
    totalLength: { head: "TL", unit: "cm" },
    outcome: { head: "went", words: { "into bypass": "bypassed", "through bars": "rackPassed" } },
    outcomeTime: { head: "after [s]" },
  },
};
const heads = "Fish no.;Day;TL;went;after [s];Remarks";

describe("a file laid out in its own way", () => {
  test("is read as the schema wants it", async () => {
    const { rows } = await read(
      `${heads}\n1;03.4.2026;14,5;into bypass;90;lively\n2;04.04.2026;9;through bars;-;\n`,
      layout,
    );
    expect(rows).toEqual([
      { fishId: "1", date: "2026-04-03", totalLength: 0.145, outcome: "bypassed", outcomeTime: 90 },
      { fishId: "2", date: "2026-04-04", totalLength: 0.09, outcome: "rackPassed", outcomeTime: undefined },
    ]);
  });

  test("with quotation marks as well", async () => {
    const { rows } = await read(`${heads}\n1;03.04.2026;"14,5";into bypass;90;"slow; then fast"\n`, layout);
    expect(rows[0].totalLength).toBe(0.145);
  });

  test("tells faults by its own heads and entries", async () => {
    const { offences } = await refusal(
      read(`${heads}\n1;31.02.2026;-3,5;over the weir;90;\n1;03.04.26;1.234,5;into bypass;90;\n`, layout),
    );
    expect(offences.map(({ sentence }) => sentence)).toEqual([
      'tank.csv:2, column Day: "2026-02-31" is no day of the calendar. Allowed: a day written year-month-day, such as 2026-03-01.',
      'tank.csv:2, column TL: "-3.5" cm is outside the limits. Allowed: a number above 0 mm.',
      'tank.csv:2, column went: "over the weir" is not in the list. Allowed: one of bypassed, rackPassed.',
      'tank.csv:3, column Fish no.: "1" stands already in line 2. Allowed: a text, in no two rows the same.',
      `tank.csv:3, column Day: "03.04.26" is written another way round; write year-month-day, such as 2026-03-01, or give the file's own order as days. Allowed: a day written year-month-day, such as 2026-03-01.`,
      'tank.csv:3, column TL: "1.234,5" has marks between thousands; write the digits without them and decimals with a point. Allowed: a number above 0 mm.',
    ]);
    expect(offences[1].value).toBe("-3,5");
  });

  test("whose heads the layout gets wrong leads to the heads that there are", async () => {
    const { message } = await refusal(
      read(`${heads}\n1;03.04.2026;14,5;into bypass;90;\n`, {
        ...layout,
        ignore: ["Remarks", "Weather"],
        columns: { ...layout.columns, totalLength: { head: "Length", unit: "cm" } },
      }),
    );
    expect(message).toContain('there is no head "Length", which columns gives for totalLength names.');
    expect(message).toContain('there is no head "Weather", which ignore names.');
    expect(message).toContain("one of the file's heads: Fish no., Day, TL, went, after [s], Remarks");
  });

  test("may lack an optional column, but no other", async () => {
    const own = { columns: { fishId: "Fish no." } } as const;
    const { rows } = await read("Fish no.,date,totalLength [mm],outcome\n1,2026-04-03,145,bypassed\n", own);
    expect(rows[0].outcomeTime).toBeUndefined();
    const lacking = read("Fish no.,date,outcome\n1,2026-04-03,bypassed\n", own);
    expect((await refusal(lacking)).message).toContain("the column totalLength [mm] is missing.");
  });
});

const ofDay = (day: string): string => `fishId,date,totalLength [mm],outcome\n1,${day},145,bypassed\n`;

describe("years of two digits", () => {
  test("are those of this century", async () => {
    const { rows } = await read(ofDay("3/4/26"), { columns: { date: { days: "d/m/yy" } } });
    expect(rows[0].date).toBe("2026-04-03");
  });

  test.each(["31/04/26", "3/4/2026", "3/4"])("%s is refused all the same", async (day) => {
    const refused = await refusal(read(ofDay(day), { columns: { date: { days: "d/m/yy" } } }));
    expect(refused.offences.map(({ column, value }) => [column, value])).toEqual([["date", day]]);
  });
});

describe("a number that may mean two things is refused with both", () => {
  test("a point and three digits where decimals have commas", async () => {
    const text = `${heads}\n1;03.04.2026;1.234;into bypass;90;\n`;
    expect((await refusal(read(text, layout))).offences.map(({ sentence }) => sentence)).toEqual([
      'tank.csv:2, column TL: "1.234" has a point, and the file\'s decimals have commas; write 1234 if it parts thousands and 1,234 if it parts decimals. Allowed: a number above 0 mm.',
    ]);
  });

  test("a comma and three digits where decimals have points", async () => {
    const text = 'fishId,date,totalLength [mm],outcome\n1,2026-04-03,"1,234",bypassed\n';
    expect((await refusal(read(text, {}))).offences[0].sentence).toContain(
      '"1,234" has a comma; write 1234 if it parts thousands and 1.234 if it parts decimals.',
    );
  });

  test("but not a point and another number of digits", async () => {
    const { rows } = await read(`${heads}\n1;03.04.2026;14.5;into bypass;0.125;\n`, layout);
    expect([rows[0].totalLength, rows[0].outcomeTime]).toEqual([0.145, 0.125]);
  });
});

describe("a unit in a head's round brackets", () => {
  test("counts as one in square brackets", async () => {
    const { rows } = await read("fishId,date,totalLength (cm),outcome\n1,2026-04-03,14.5,bypassed\n", {});
    expect(rows[0].totalLength).toBe(0.145);
  });

  test("is no unit where none is spelled like it", async () => {
    const named = { columns: { totalLength: { head: "TL (fork)", unit: "mm" } } } as const;
    const { rows } = await read("fishId,date,TL (fork),outcome\n1,2026-04-03,145,bypassed\n", named);
    expect(rows[0].totalLength).toBe(0.145);
  });
});

describe("a layout that no file can have is refused", () => {
  const text = "fishId,date,totalLength [mm],outcome\n1,2026-04-03,145,bypassed\n";
  test.each<[string, ReadOptions<typeof trial>]>([
    ['columns names "length", which is not in the schema', { columns: { length: "L" } as object }],
    [
      "the layout of column fishId has days, but holds a text",
      { columns: { fishId: { days: "dd.mm.yyyy" } } },
    ],
    ['the layout of column date has days "dd.mm.yy."', { columns: { date: { days: "dd.mm.yy." } } }],
    ["the layout of column totalLength has words", { columns: { totalLength: { words: { long: "300" } } } }],
    ['the layout of column outcome has unit "mm"', { columns: { outcome: { unit: "mm" } } }],
  ])("%s", async (sentence, options) => {
    await expect(read(text, options)).rejects.toThrow(sentence);
  });
});
