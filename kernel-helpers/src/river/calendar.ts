/** Days are counted from 1970-01-01, so that the next day is one more whatever the month. */
const dayMilliseconds = 86_400_000;

/** Returns the number of a day written 2026-03-01, or undefined where there is no such day. */
export function dayNumber(date: string): number | undefined {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date)) return undefined;
  const milliseconds = Date.parse(`${date}T00:00:00Z`);
  // Date.parse takes 2026-02-30 for 2 March in some engines: the day must read the same on its way back.
  return Number.isNaN(milliseconds) || isoDay(milliseconds / dayMilliseconds) !== date
    ? undefined
    : milliseconds / dayMilliseconds;
}

/** Writes the number of a day as 2026-03-01. */
export const isoDay = (day: number): string => new Date(day * dayMilliseconds).toISOString().slice(0, 10);

/** Returns whether a text is a day of the year written 03-01; 02-29 is one. */
export const isMonthDay = (text: string): boolean => dayNumber(`2024-${text}`) !== undefined;

/** The day of the year of an ISO day: 2026-03-01 gives 03-01. */
export const monthDay = (date: string): string => date.slice(5);
