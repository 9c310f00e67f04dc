import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { river, u } from "kernel-helpers";

const day = (date: string, flow: number) => ({ date, discharge: u.m3ps(flow) });

/** A record of so many days from 2023-12-01 on, the flow of each its place in the record. */
const days = (count: number) =>
  Array.from({ length: count }, (_, at) =>
    day(new Date(Date.UTC(2023, 11, 1 + at)).toISOString().slice(0, 10), at + 1),
  );

const readers: Readonly<Record<string, (record: readonly river.DailyFlow[]) => unknown>> = {
  "river.flowDuration": (record) => river.flowDuration(record),
  "river.meanFlow": (record) => river.meanFlow(record),
  "river.daysAtOrAbove": (record) => river.daysAtOrAbove(record, u.m3ps(1)),
  "river.daysAtOrAboveByYear": (record) => river.daysAtOrAboveByYear(record, u.m3ps(1)),
  "river.capturedShare": (record) => river.capturedShare(record, u.m3ps(1)),
  "river.season": (record) => river.season(record, "01-01", "12-31"),
};

describe.each(Object.entries(readers))("%s refuses a record", (name, read) => {
  test.each<[string, unknown, string]>([
    ["without days", [], "the record has no days"],
    ["that is none", "2026-03-01", "the record has no days"],
    [
      "with a missing day",
      [day("2026-03-01", 1), day("2026-03-03", 1)],
      "a day is missing in the record, from 2026-03-02",
    ],
    [
      "with missing days over a month's end",
      [day("2024-02-27", 1), day("2024-03-02", 1)],
      "3 days are missing in the record, from 2024-02-28",
    ],
    ["with a doubled day", [day("2026-03-01", 1), day("2026-03-01", 2)], "2026-03-01 stands twice"],
    ["out of order", [day("2026-03-02", 1), day("2026-03-01", 1)], "2026-03-01 comes after 2026-03-02"],
    [
      "with a negative flow",
      [day("2026-03-01", -0.5)],
      "the discharge of 2026-03-01 is -0.5 m³/s; it must be at least 0",
    ],
    [
      "with a flow that is none",
      [{ date: "2026-03-01", discharge: Number.NaN }],
      "the discharge of 2026-03-01 is NaN",
    ],
    [
      "with a flow as text",
      [{ date: "2026-03-01", discharge: "3.2" }],
      'the discharge of 2026-03-01 is "3.2"',
    ],
    ["without flows", [{ date: "2026-03-01" }], "the discharge of 2026-03-01 is missing"],
    ["with a day that doesn't exist", [day("2026-02-29", 1)], 'the date of entry 1 is "2026-02-29"'],
    ["with a date written another way", [day("01.03.2026", 1)], "a date reads 2026-03-01"],
    ["with an entry that is none", [day("2026-03-01", 1), null], "the date of entry 2 is missing"],
  ])("%s", (_, record, sentence) => {
    const hostile = () => read(record as readonly river.DailyFlow[]);
    expect(hostile).toThrow(RangeError);
    expect(hostile).toThrow(`${name}: `);
    expect(hostile).toThrow(sentence);
  });
});

describe("river.flowDuration", () => {
  test("ranks flows from the largest and gives each its exceedance i/(n + 1)", () => {
    const { flows, exceedance } = river.flowDuration([
      day("2026-03-01", 2),
      day("2026-03-02", 9),
      day("2026-03-03", 4),
    ]);
    expect(flows).toEqual([9, 4, 2]);
    expect(exceedance).toEqual([0.25, 0.5, 0.75]);
  });

  test("gives every ranked flow at its own exceedance", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1e4, noNaN: true }), { minLength: 1, maxLength: 60 }),
        (values) => {
          const record = days(values.length).map(({ date }, at) => day(date, values[at]));
          const { flows, exceedance, quantile } = river.flowDuration(record);
          expect(
            exceedance.every((share, at) => Math.abs(quantile(share) - flows[at]) <= 1e-9 * (1 + flows[at])),
          ).toBe(true);
        },
      ),
    );
  });

  test("never rises with the exceedance and stays between the smallest and the largest flow", () => {
    const { quantile } = river.flowDuration(days(40));
    fc.assert(
      fc.property(
        fc.double({ min: 1 / 41, max: 40 / 41, noNaN: true }),
        fc.double({ min: 1 / 41, max: 40 / 41, noNaN: true }),
        (one, other) => {
          expect(quantile(Math.min(one, other))).toBeGreaterThanOrEqual(quantile(Math.max(one, other)));
          expect(quantile(one)).toBeGreaterThanOrEqual(1);
          expect(quantile(one)).toBeLessThanOrEqual(40);
        },
      ),
    );
  });

  test.each([0, 0.09, 0.92, 1, -1, Number.NaN])(
    "refuses the exceedance %d of ten days and says what they answer",
    (share) => {
      const { quantile } = river.flowDuration(days(10));
      expect(() => quantile(share)).toThrow(RangeError);
      expect(() => quantile(share)).toThrow("a record of 10 days answers from 0.0909 to 0.909");
    },
  );

  test("leaves the record as it is", () => {
    const record = days(5)
      .toReversed()
      .toSorted((a, b) => (a.date < b.date ? -1 : 1));
    const before = JSON.stringify(record);
    river.flowDuration(record);
    expect(JSON.stringify(record)).toBe(before);
  });
});

describe("river.season", () => {
  const record = days(800); // 2023-12-01 to 2026-02-07

  test("keeps both ends of the season, in every year", () => {
    const spring = river.season(record, "03-01", "06-15");
    expect(spring).toHaveLength(2 * 107);
    expect([spring[0].date, spring[106].date, spring[107].date, spring[213].date]).toEqual([
      "2024-03-01",
      "2024-06-15",
      "2025-03-01",
      "2025-06-15",
    ]);
  });

  test("runs over the new year where it starts later in the year than it ends", () => {
    const winter = river.season(record, "12-15", "01-10");
    expect(winter).toHaveLength(3 * 27);
    expect([winter[0].date, winter[26].date, winter[27].date]).toEqual([
      "2023-12-15",
      "2024-01-10",
      "2024-12-15",
    ]);
  });

  test("ends on 28 February in common years where it ends on 29 February", () => {
    const dates = river.season(record, "02-28", "02-29").map(({ date }) => date);
    expect(dates).toEqual(["2024-02-28", "2024-02-29", "2025-02-28"]);
  });

  test("gives a record that the other functions take", () => {
    const spring = river.season(record, "03-01", "06-15");
    expect(river.flowDuration(spring).flows).toHaveLength(214);
    expect(river.daysAtOrAbove(spring, u.m3ps(0))).toBe(214);
    expect(river.daysAtOrAboveByYear(spring, u.m3ps(0))).toEqual([
      { year: 2024, days: 107, of: 107 },
      { year: 2025, days: 107, of: 107 },
    ]);
  });

  test("still refuses a gap inside the season", () => {
    const gap = record.filter(({ date }) => date !== "2025-04-07");
    expect(() => river.season(gap, "03-01", "06-15")).toThrow(
      "a day is missing in the record, from 2025-04-07",
    );
    const { season } = river.season(record, "03-01", "06-15");
    const cut = Object.assign(
      river.season(record, "03-01", "06-15").filter(({ date }) => date !== "2025-04-07"),
      { season },
    );
    expect(() => river.meanFlow(cut)).toThrow("a day is missing in the record, from 2025-04-07");
  });

  test.each([
    ["2-30", "06-15", 'from is "2-30"'],
    ["02-30", "06-15", 'from is "02-30"'],
    ["03-01", "15.06.", 'to is "15.06."'],
    ["13-01", "06-15", 'from is "13-01"'],
  ])("refuses %s to %s", (from, to, sentence) => {
    expect(() => river.season(record, from, to)).toThrow(sentence);
  });

  test("refuses a season without a day in the record, and a season of a season", () => {
    expect(() => river.season(days(30), "03-01", "06-15")).toThrow(
      "the record has no day from 03-01 to 06-15",
    );
    expect(() => river.season(river.season(record, "03-01", "06-15"), "04-01", "04-30")).toThrow(
      "the record already holds a season, 03-01 to 06-15",
    );
  });
});

describe("days and shares", () => {
  test("daysAtOrAbove counts the day that just reaches the flow", () => {
    expect(river.daysAtOrAbove(days(10), u.m3ps(7))).toBe(4);
    expect(river.daysAtOrAbove(days(10), u.m3ps(7.001))).toBe(3);
  });

  test("daysAtOrAboveByYear says how many days of a year the record has", () => {
    expect(river.daysAtOrAboveByYear(days(40), u.m3ps(31))).toEqual([
      { year: 2023, days: 1, of: 31 },
      { year: 2024, days: 9, of: 9 },
    ]);
  });

  test("capturedShare rises from 0 to 1 with the design discharge", () => {
    expect(river.capturedShare(days(10), u.m3ps(0))).toBe(0);
    expect(river.capturedShare(days(10), u.m3ps(10))).toBe(1);
    expect(river.capturedShare(days(10), u.m3ps(99))).toBe(1);
    expect(river.capturedShare(days(10), u.m3ps(3))).toBeLessThan(river.capturedShare(days(10), u.m3ps(4)));
  });

  test("capturedShare refuses a river without water", () => {
    expect(() => river.capturedShare([day("2026-03-01", 0)], u.m3ps(1))).toThrow("there is no share to take");
  });

  test("a flow below 0 or none is refused by its name", () => {
    const negative = u.m3ps(-1);
    expect(() => river.daysAtOrAbove(days(3), negative)).toThrow(
      "flow is -1 m³/s; it must be at least 0 m³/s",
    );
    expect(() => river.capturedShare(days(3), negative)).toThrow("designDischarge is -1 m³/s");
  });
});
