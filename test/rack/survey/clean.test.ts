import { beforeAll, describe, expect, test } from "vitest";
import { readRecords, survey, u } from "kernel-helpers";
import { type BuiltRack, builtRacks, plantedSlips } from "../../../data-demo/generators/built-racks";

const { builtRackQuestions: asked } = survey;

/** A number up to its last digits. */
const close = (value: number): unknown => expect.closeTo(value, 12);

/** What one answer becomes. */
function one(
  question: keyof typeof asked,
  written: string,
): { value: unknown; why: string; setAside: string } {
  const cleaned = survey.clean([{ plantId: "P1", it: written }], { questions: { it: asked[question] } });
  return {
    value: cleaned.rows[0]?.it,
    why: cleaned.changes[0]?.why ?? "",
    setAside: cleaned.setAside[0]?.why ?? "",
  };
}

describe("an answer", () => {
  test.each([
    ["clearSpacing", "15 mm", u.mm(15), ""],
    ["clearSpacing", "1.5 cm", u.mm(15), "cm turned into mm"],
    ["clearSpacing", "1,5 cm", u.mm(15), "decimal comma read as a point; cm turned into mm"],
    ["clearSpacing", "15", u.mm(15), "no unit: mm assumed, as asked for"],
    ["clearSpacing", "ca. 15 mm", u.mm(15), '"ca." dropped'],
    ["designDischarge", "about 30600 l/s", u.m3ps(30.6), '"about" dropped; L/s turned into m³/s'],
    ["designDischarge", "3.5 cbm/s", u.m3ps(3.5), ""],
    ["head", "470 cm", u.m(4.7), "cm turned into m"],
    ["rackAngle", "49 deg to the normal", u.deg(41), "given to the normal: 90° less it"],
    ["rackAngle", "38 degrees", u.deg(38), ""],
    ["bottomOverlay", "none", 0, '"none" taken as 0'],
    ["barShape", "Flat bar with  round nose", "rounded", 'words taken as "rounded"'],
    ["bypass", "x", "yes", 'words taken as "yes"'],
    ["experience", "Frazil ice, twice", "ice", 'words taken as "ice"'],
    ["yearBuilt", "about 2010", 2010, '"about" dropped'],
  ] as const)("%s: %j is read, and what was changed is said", (question, written, value, why) => {
    const read = one(question, written);
    expect(read.value).toEqual(typeof value === "number" ? close(value) : value);
    expect(read.why).toBe(why);
    expect(read.setAside).toBe("");
  });

  test.each([
    [
      "clearSpacing",
      "18 m",
      "18 000 mm lies outside the plausible range, 5 mm to 150 mm. (m turned into mm)",
    ],
    ["designDischarge", "-10.5 m3/s", "-10.5 m³/s lies outside the plausible range, 0.05 m³/s to 1500 m³/s."],
    ["clearSpacing", "10 to 15 mm", "two numbers; state which one to take."],
    ["clearSpacing", "10-15", "two numbers; state which one to take."],
    [
      "designDischarge",
      "30,600 l/s",
      "the mark in the number may stand between thousands or before decimals; state the number.",
    ],
    ["clearSpacing", "15 m3/s", '"m3/s" behind the number is no unit of length: m, cm, mm or km.'],
    ["clearSpacing", "narrow", "no number."],
    ["barShape", "wedge", "the words fit none of rectangular, rounded, foil; state one."],
    ["experience", "leaves, and ice in winter", "the words fit leaves and ice; state one."],
    ["yearBuilt", "20006", "20006 lies outside the plausible range, 1900 to 2030."],
  ] as const)("%s: %j is set aside with its reason, not corrected", (question, written, why) => {
    const read = one(question, written);
    expect(read.value).toBeUndefined();
    expect(read.setAside.replaceAll("\u2009", " ")).toBe(why);
  });

  test("that is empty or says that there is none stays missing and is never 0", () => {
    for (const written of ["?", "n/a", "unknown"]) expect(one("clearSpacing", written).value).toBeUndefined();
    const cleaned = survey.clean(
      [
        { plantId: "P1", it: "", other: "4 m" },
        { plantId: "P2", it: undefined, other: "5 m" },
      ],
      { questions: { it: asked.clearSpacing, other: asked.head } },
    );
    expect(cleaned.column("it")).toEqual([]);
    expect(cleaned.states.it).toEqual(["missing", "missing"]);
    expect(cleaned.changes).toEqual([]);
  });
});

const read = () => readRecords("built-racks.csv", survey.answerRecord);

describe("the built racks", () => {
  let rows: Awaited<ReturnType<typeof read>>["rows"];
  beforeAll(async () => {
    ({ rows } = await read());
  });

  test("are 60 answers of 90 plants asked", () => {
    const { asked: plants, answered } = survey.clean(rows);
    expect([plants, answered]).toEqual([90, 60]);
  });

  test("hold impossible answers, each set aside and none corrected", () => {
    const cleaned = survey.clean(rows);
    const found = cleaned.setAside.map(({ plantId, question }) => `${plantId} ${question}`);
    const planted = plantedSlips().map(({ plantId, question }) => `${plantId} ${question}`);
    expect(planted).toHaveLength(5);
    expect(found).toEqual(expect.arrayContaining(planted));
    expect(found).toHaveLength(planted.length + 1);
    expect(cleaned.rows.find(({ plantId }) => plantId === "P06")?.clearSpacing).toBeUndefined();
    // 5.7 % of a discharge that was not answered.
    expect(found).toContain("P65 bypassDischarge");
  });

  test("are read as what was built, whatever the unit or word", () => {
    const built = new Map(builtRacks().map((rack) => [rack.plantId, rack]));
    const { rows: clean } = survey.clean(rows);
    const inUnit = {
      yearBuilt: (value: number) => value,
      designDischarge: u.to.m3ps,
      head: u.to.m,
      channelWidth: u.to.m,
      channelDepth: u.to.m,
      rackAngle: u.to.deg,
      clearSpacing: u.to.mm,
      barThickness: u.to.mm,
      barDepth: u.to.mm,
      bottomOverlay: u.to.mm,
      topOverlay: u.to.mm,
      cleaningTrigger: u.to.cm,
    } as Readonly<Record<keyof BuiltRack, (value: number) => number>>; // each reader takes its own column's numbers
    const wrong = clean.flatMap((row) =>
      (Object.keys(inUnit) as (keyof BuiltRack & keyof typeof row)[])
        .filter((question) => {
          const value = row[question];
          const truth = built.get(row.plantId)?.[question];
          return value !== undefined && Math.abs(inUnit[question](Number(value)) - Number(truth)) > 1e-9;
        })
        .map((question) => `${row.plantId} ${question}`),
    );
    expect(wrong).toEqual([]);
    const words = clean.filter(
      ({ plantId, barShape, cleaning }) =>
        (barShape ?? built.get(plantId)?.barShape) !== built.get(plantId)?.barShape ||
        (cleaning ?? built.get(plantId)?.cleaning) !== built.get(plantId)?.cleaning,
    );
    expect(words).toEqual([]);
  });

  test("have every change on record: each text either reads as it stands or is listed", () => {
    const cleaned = survey.clean(rows);
    const listed = new Set(
      [...cleaned.changes, ...cleaned.setAside].map(({ plantId, question }) => `${plantId} ${question}`),
    );
    for (const row of rows) {
      for (const question of ["clearSpacing", "barThickness", "barDepth"] as const) {
        const written = row[question];
        if (written === undefined || listed.has(`${row.plantId} ${question}`)) continue;
        const clean = cleaned.rows.find(({ plantId }) => plantId === row.plantId);
        expect(`${u.to.mm(clean?.[question] ?? u.mm(0))} mm`).toBe(written);
      }
    }
    expect(cleaned.changes.length).toBeGreaterThan(200);
  });

  test("take a correction with its reason, and put it on record", () => {
    const corrections = [
      {
        plantId: "P06",
        question: "clearSpacing",
        value: "18 mm",
        reason: "asked back: metres for millimetres",
      },
      { plantId: "P65", question: "bypassDischarge", value: "", reason: "nobody knows the discharge" },
    ];
    const cleaned = survey.clean(rows, { corrections });
    expect(cleaned.rows.find(({ plantId }) => plantId === "P06")?.clearSpacing).toBe(u.mm(18));
    expect(cleaned.changes).toContainEqual({
      plantId: "P06",
      question: "clearSpacing",
      written: "18 m",
      taken: "18 mm",
      why: 'corrected to "18 mm": asked back: metres for millimetres',
    });
    expect(
      cleaned.changes.find(({ plantId, question }) => plantId === "P65" && question === "bypassDischarge"),
    ).toMatchObject({ taken: "missing", why: "left out: nobody knows the discharge" });
    expect(cleaned.setAside).toHaveLength(survey.clean(rows).setAside.length - 2);
  });

  test("know that no bypass has no discharge: not due, so not missing", () => {
    const cleaned = survey.clean(rows);
    const without = cleaned.rows.flatMap(({ bypass }, i) => (bypass === "no" ? [i] : []));
    expect(without.length).toBeGreaterThan(3);
    expect(without.map((i) => cleaned.states.bypassDischarge[i])).toEqual(
      without.map(() => "not applicable"),
    );
  });

  test("are judged against ranges that the reader may edit", () => {
    const cleaned = survey.clean(rows, { plausible: { clearSpacing: [u.mm(12), u.mm(25)] } });
    const spacings = cleaned.setAside.filter(({ question }) => question === "clearSpacing");
    expect(spacings.length).toBeGreaterThan(10);
    expect(Math.max(...cleaned.column("clearSpacing"))).toBeLessThanOrEqual(u.mm(25));
    const wide = survey.clean(rows, { plausible: { clearSpacing: [u.mm(1), u.m(20)] } });
    expect(wide.setAside.filter(({ question }) => question === "clearSpacing")).toEqual([]);
  });
});

describe("answers that are each plausible but do not fit each other", () => {
  test("are listed, and used: nobody can see which is wrong", async () => {
    const { rows } = await read();
    expect(survey.clean(rows).doubts).toEqual([]);
    // P03: 17.9 m³/s in 19.1 m by 1.7 m; the point slips to the right.
    const slipped = rows.map((row) => (row.plantId === "P03" ? { ...row, channelWidth: "191 m" } : row));
    const { doubts, setAside } = survey.clean(slipped);
    expect(doubts).toEqual([
      {
        plantId: "P03",
        questions: ["designDischarge", "channelWidth", "channelDepth"],
        answers: ["17.9 m³/s", "191 m", "1.7 m"],
        why: "they make an approach velocity of 0.0551 m/s, outside 0.1 m/s to 2.5 m/s; ask which is wrong.",
      },
    ]);
    expect(setAside).toEqual(survey.clean(rows).setAside);
  });

  test("are those that the reader's own rule finds, where a plant answered all its questions", () => {
    const { doubts } = survey.clean(
      [
        { plantId: "A", clearSpacing: "20 mm", barThickness: "40 mm" },
        { plantId: "B", clearSpacing: "20 mm", barThickness: "" },
        { plantId: "C", clearSpacing: "20 mm", barThickness: "8 mm" },
      ],
      {
        questions: { clearSpacing: asked.clearSpacing, barThickness: asked.barThickness },
        mustFit: [
          {
            questions: ["clearSpacing", "barThickness"],
            fault: ({ clearSpacing, barThickness }) =>
              (barThickness ?? 0) > (clearSpacing ?? 0) ? "bars thicker than their gaps." : undefined,
          },
        ],
      },
    );
    expect(doubts.map(({ plantId, why }) => [plantId, why])).toEqual([
      ["A", "bars thicker than their gaps."],
    ]);
  });
});

describe("answers of a plant are held against each other", () => {
  const questions = {
    designDischarge: asked.designDischarge,
    bypass: asked.bypass,
    bypassDischarge: asked.bypassDischarge,
  };

  test("a bypass that does not exist has no discharge", () => {
    const { setAside } = survey.clean(
      [{ plantId: "P1", designDischarge: "10 m3/s", bypass: "no", bypassDischarge: "0.3 m3/s" }],
      { questions },
    );
    expect(setAside[0]).toMatchObject({
      question: "bypassDischarge",
      why: "answered, although bypass is no.",
    });
  });

  test("a bypass does not take more than the plant", () => {
    const { setAside } = survey.clean(
      [{ plantId: "P1", designDischarge: "10 m3/s", bypass: "yes", bypassDischarge: "30 m3/s" }],
      { questions },
    );
    expect(setAside[0].why).toBe("30 m³/s is more than the plant's designDischarge, 10 m³/s.");
  });

  test("a share follows the plant's discharge, wherever the columns stand", () => {
    const { rows } = survey.clean(
      [{ plantId: "P1", bypassDischarge: "4 % of Q", designDischarge: "10000 l/s", bypass: "yes" }],
      {
        questions: {
          bypassDischarge: asked.bypassDischarge,
          bypass: asked.bypass,
          designDischarge: asked.designDischarge,
        },
      },
    );
    expect(rows[0].bypassDischarge).toBeCloseTo(0.4, 12);
  });
});

describe("a survey of one's own", () => {
  const questions = {
    barMaterial: { kind: "choice", title: "material", choices: { steel: ["iron"], plastic: [] } },
    headLoss: { kind: "quantity", title: "head loss", unit: "cm", plausible: [u.cm(0), u.m(2)] },
    remark: { kind: "text", title: "remark" },
  } as const;

  test("brings its own questions, id column and units", () => {
    const { rows, column } = survey.clean(
      [
        { site: "A", barMaterial: "Iron", headLoss: "120 mm", remark: "old", contact: "left alone" },
        { site: "B", barMaterial: "plastic", headLoss: 3, remark: "", contact: "" },
      ],
      { questions, id: "site", besides: ["contact"] },
    );
    expect(rows[0]).toEqual({ plantId: "A", barMaterial: "steel", headLoss: u.cm(12), remark: "old" });
    expect(column("headLoss")).toEqual([u.cm(12), u.cm(3)]);
  });

  const good = { plantId: "A", barMaterial: "steel", headLoss: "3 cm", remark: "" };
  test.each([
    ["no rows", [], {}, "there are no rows; give one row for each plant that was asked."],
    [
      "no id",
      [{ site: "A" }],
      {},
      'no row has a column "plantId" that names the plant; the columns are site.',
    ],
    [
      "a question without column",
      [{ plantId: "A", headLoss: "1", remark: "" }],
      {},
      "barMaterial: a question without a column in the rows; the columns are plantId, headLoss, remark.",
    ],
    [
      "a column without question",
      [{ ...good, colour: "red" }],
      {},
      "colour: a column without a question; add it to questions, or name it in besides to leave it alone.",
    ],
    ["a plant twice", [good, good], {}, "plant A stands twice; keep one row, or name the racks apart."],
    [
      "a correction of nobody",
      [good],
      { corrections: [{ plantId: "Z", question: "headLoss", value: "3 cm", reason: "asked" }] },
      "the correction of Z, headLoss: no row has this plant.",
    ],
    [
      "a correction of nothing",
      [good],
      { corrections: [{ plantId: "A", question: "colour", value: "3 cm", reason: "asked" }] },
      'the correction of A, colour: there is no question "colour"; the questions are barMaterial, headLoss, remark.',
    ],
    [
      "a correction without reason",
      [good],
      { corrections: [{ plantId: "A", question: "headLoss", value: "3 cm", reason: " " }] },
      "the correction of A, headLoss has no reason; say how you know.",
    ],
    [
      "a correction that can't be read",
      [good],
      { corrections: [{ plantId: "A", question: "headLoss", value: "3 kg", reason: "asked" }] },
      'the correction of A, headLoss is "3 kg": "kg" behind the number is no unit of length: m, cm, mm or km.',
    ],
    [
      "a correction below 0",
      [good],
      { corrections: [{ plantId: "A", question: "headLoss", value: "-3 cm", reason: "asked" }] },
      'the correction of A, headLoss is "-3 cm"; no answer of the survey can be below 0.',
    ],
  ] as const)("that does not fit gets a sentence: %s", (_, rows, options, sentence) => {
    expect(() => survey.clean(rows, { questions, ...options })).toThrow(
      new RangeError(`survey.clean: ${sentence}`),
    );
  });

  test("is read from a file by a record made of its questions", () => {
    const record = survey.recordFor(questions, { id: "site", besides: ["contact"] });
    expect(Object.keys(record.columns)).toEqual(["site", "barMaterial", "headLoss", "remark", "contact"]);
    expect(record.columns.site).toMatchObject({ unique: true });
    expect(record.columns.headLoss).toMatchObject({ kind: "text", optional: true });
  });

  test("gets a sentence for a range or a column that is none", () => {
    expect(() => survey.clean([good], { questions, plausible: { headLoss: [u.m(2), u.m(1)] } })).toThrow(
      "survey.clean: plausible.headLoss is 2 to 1; give the least, then the most.",
    );
    const cleaned = survey.clean([good], { questions });
    // A name that the compiler would refuse, as a cell of plain JavaScript may give it.
    expect(() => cleaned.column("colour" as "remark")).toThrow('survey: there is no question "colour"');
  });
});
