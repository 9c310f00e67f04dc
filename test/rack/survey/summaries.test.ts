import { beforeAll, describe, expect, test } from "vitest";
import { readRecords, statistics, survey, u } from "kernel-helpers";

const read = async () => survey.clean((await readRecords("built-racks.csv", survey.answerRecord)).rows);
let racks: Awaited<ReturnType<typeof read>>;
beforeAll(async () => {
  racks = await read();
});

describe("the response rate", () => {
  test("is a share of the plants asked, with an interval", () => {
    const rate = survey.responseRate(racks);
    expect(rate).toMatchObject({ successes: 60, trials: 90, of: "plants asked", method: "wilson" });
    expect(rate.estimate).toBeCloseTo(2 / 3, 12);
  });

  test("leaves plants without a rack out of the denominator", () => {
    expect(survey.responseRate({ asked: 90, answered: 60, notEligible: 10 })).toMatchObject({
      trials: 80,
      of: "eligible plants asked",
    });
  });

  test.each([
    [{ asked: 90, answered: 91 }, "91 plants answered, and only 90 eligible ones were asked."],
    [{ asked: 0, answered: 0 }, "of 0 plants asked 0 are not eligible; at least one must be."],
    [{ asked: 9.5, answered: 3 }, "asked is 9.5; it must be a whole number of at least 0."],
  ])("refuses %j with a sentence", (counts, sentence) => {
    expect(() => survey.responseRate(counts)).toThrow(new RangeError(`survey.responseRate: ${sentence}`));
  });
});

describe("non-response by question", () => {
  test("adds up: answered, in words, missing and set aside make the plants that were due", () => {
    const rows = survey.nonResponse(racks);
    expect(rows).toHaveLength(Object.keys(racks.questions).length);
    for (const { due, answered, inWords, missing, setAside } of rows) {
      expect(answered + inWords + missing + setAside).toBe(due);
    }
  });

  test("has a share near the 10 % that were left empty by design", () => {
    const due = survey.nonResponse(racks).filter(({ question }) => question !== "bypassDischarge");
    const all = due.reduce((sum, row) => sum + row.due, 0);
    const missing = due.reduce((sum, row) => sum + row.missing, 0);
    const { lower, upper } = statistics.proportionInterval({ successes: missing, trials: all });
    expect(lower).toBeLessThan(0.1);
    expect(upper).toBeGreaterThan(0.1);
  });

  test("counts a bypass that does not exist as not due", () => {
    const rows = survey.nonResponse(racks);
    const of = (question: string) => rows.find((row) => row.question === question);
    expect(of("bypassDischarge")?.due).toBe(60 - racks.rows.filter(({ bypass }) => bypass === "no").length);
    expect(of("head")?.due).toBe(60);
  });

  test("counts an answer in words as an answer", () => {
    const trigger = survey.nonResponse(racks).find(({ question }) => question === "cleaningTrigger");
    expect(trigger?.inWords).toBeGreaterThan(0);
  });
});

describe("a distribution", () => {
  test("finds the truth behind the racks: median discharge and angle within their intervals", () => {
    const flow = survey.distribution(racks.column("designDischarge"));
    expect(flow.medianInterval?.lower).toBeLessThan(u.m3ps(14));
    expect(flow.medianInterval?.upper).toBeGreaterThan(u.m3ps(14));
    const angle = survey.distribution(racks.column("rackAngle"));
    expect(u.to.deg(angle.median)).toBeGreaterThan(35);
    expect(u.to.deg(angle.median)).toBeLessThan(45);
    expect(angle.few).toBe(false);
  });

  test("covers the median of a skewed law at least as often as its level says", () => {
    // Exponential values by inversion on a grid of seeds: the median of the law is ln 2.
    let inside = 0;
    for (let set = 0; set < 400; set += 1) {
      let state = 12_345 + 7919 * set;
      const values = Array.from({ length: 15 }, () => {
        state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
        return -Math.log((state + 0.5) / 2 ** 32);
      });
      const interval = survey.distribution(values).medianInterval;
      if (interval !== undefined && interval.lower <= Math.LN2 && Math.LN2 <= interval.upper) inside += 1;
    }
    expect(inside / 400).toBeGreaterThan(0.93);
  });

  test("has no interval for the median of five plants, and says that they are few", () => {
    const { medianInterval, few } = survey.distribution([1, 2, 3, 4, 5]);
    expect(medianInterval).toBeUndefined();
    expect(few).toBe(true);
    expect(survey.distribution([1, 2, 3, 4, 5], { level: 0.9 }).medianInterval).toMatchObject({
      lower: 1,
      upper: 5,
    });
  });

  test("refuses no values and a value that is none", () => {
    expect(() => survey.distribution([])).toThrow(
      "survey.distribution: there are no values; give at least one answer.",
    );
    expect(() => survey.quantiles([1, Number.NaN], [0.5])).toThrow(
      "survey.quantiles: values[1] is NaN; leave missing answers out, as column() does, and never put 0.",
    );
    expect(() => survey.quantiles([1, 2], [1.5])).toThrow(
      "survey.quantiles: a share is 1.5; it must lie from 0 to 1.",
    );
  });
});

describe("shares of categories", () => {
  test("are of the known answers and add up to 1", () => {
    const rows = survey.shares(racks.column("barShape"));
    expect(rows.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(rows[0].of).toBe(racks.column("barShape").length);
    expect(rows.map(({ count }) => count)).toEqual(rows.map(({ count }) => count).toSorted((a, b) => b - a));
  });

  test("list a category that nobody named, with an upper bound above 0", () => {
    const rows = survey.shares(["rectangular", "foil"], {
      categories: ["rectangular", "foil", "rounded"] as never,
    });
    expect(rows.at(-1)).toMatchObject({ category: "rounded", count: 0, share: 0 });
    expect(rows.at(-1)?.upper).toBeGreaterThan(0.3);
  });
});

describe("built combinations", () => {
  test("count every plant once and call an empty cell a gap only where chance would hardly leave it empty", () => {
    const values = [...Array.from({ length: 30 }, () => 1), ...Array.from({ length: 30 }, () => 2)];
    const built = survey.combinations(
      { values, edges: [0.5, 1.5, 2.5] },
      { values, edges: [0.5, 1.5, 2.5, 3.5] },
    );
    expect(built.cells.map(({ count }) => count)).toEqual([30, 0, 0, 0, 30, 0]);
    expect(built.cells.map(({ verdict }) => verdict)).toEqual([
      "built",
      "gap",
      "may be chance",
      "gap",
      "built",
      "may be chance",
    ]);
    expect(built.cells[1].chanceOfNone).toBeCloseTo(0.75 ** 60, 15);
    expect(built.cells[1].shareAtMost).toBeCloseTo(1 - 0.025 ** (1 / 60), 10);
  });

  test("leave out plants that lack one of the values, and count those outside the classes", () => {
    const built = survey.combinations(
      { values: [1, undefined, 1, 9], edges: [0, 2] },
      { values: [1, 1, undefined, 1], edges: [0, 2] },
    );
    expect(built).toMatchObject({ count: 1, outside: 1 });
  });

  test("find no gap between spacing and angle but what chance leaves: the truth has none", () => {
    const built = survey.combinations(
      {
        values: racks.rows.map(({ clearSpacing }) => clearSpacing),
        edges: [5, 12.5, 17.5, 35].map((mm) => u.mm(mm)),
      },
      {
        values: racks.rows.map(({ rackAngle }) => rackAngle),
        edges: [20, 35, 45, 60].map((deg) => u.deg(deg)),
      },
    );
    expect(built.cells.filter(({ verdict }) => verdict === "gap")).toEqual([]);
    expect(built.count).toBeGreaterThan(35);
  });

  test("refuse edges that don't rise and lists of unequal length", () => {
    expect(() => survey.combinations({ values: [1], edges: [2, 1] }, { values: [1], edges: [0, 2] })).toThrow(
      "survey.combinations: edge 1 is 1; it must be above the edge before it, 2.",
    );
    expect(() =>
      survey.combinations({ values: [1, 2], edges: [0, 2] }, { values: [1], edges: [0, 2] }),
    ).toThrow("survey.combinations: 2 first values and 1 second ones; give one of each a plant.");
  });
});
