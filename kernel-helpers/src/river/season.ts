import { isMonthDay } from "./calendar";
import { checkRecord, type DailyFlow, type FlowRecord, isInSeason, type Season } from "./record";

/** The days of a season in every year of a record. */
export type SeasonRecord = readonly DailyFlow[] & { readonly season: Season };

/**
 * The days of a season in every year of a record, both ends included; a season may run over the new year.
 *
 * Returns a record that the other functions take: they know that the days outside the season are absent by intent.
 * Throws a RangeError for a day of the year that is none and for a record that has no day in the season.
 *
 * @example
 * river.season([{ date: "2026-02-28", discharge: u.m3ps(40) }, { date: "2026-03-01", discharge: u.m3ps(30) }],
 *   "03-01", "06-15").length // => 1
 */
export function season(record: FlowRecord, from: string, to: string): SeasonRecord {
  for (const [name, day] of Object.entries({ from, to })) {
    if (!isMonthDay(day)) {
      throw new RangeError(
        `river.season: ${name} is ${JSON.stringify(day)}; a day of the year reads 03-01, the month first.`,
      );
    }
  }
  checkRecord("river.season", record);
  if (record.season !== undefined) {
    throw new RangeError(
      `river.season: the record already holds a season, ${record.season.from} to ${record.season.to}; ` +
        "cut the whole record instead.",
    );
  }
  const days = record.filter(({ date }) => isInSeason(date, { from, to }));
  if (days.length === 0) {
    throw new RangeError(`river.season: the record has no day from ${from} to ${to}.`);
  }
  return Object.assign(days, { season: { from, to } });
}
