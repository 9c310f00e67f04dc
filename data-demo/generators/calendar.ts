const MILLISECONDS_A_DAY = 86_400_000;

/** Days since 1970-01-01, so that dates are counted without time zones. */
export type DayNumber = number;

/**
 * The number of a calendar day; `month` is 1 to 12, and day 0 is the last day of the month before.
 *
 * @example
 * dayNumber(1970, 1, 2) // => 1
 */
export function dayNumber(year: number, month: number, day: number): DayNumber {
  return Date.UTC(year, month - 1, day) / MILLISECONDS_A_DAY;
}

/**
 * The date of a day number, as yyyy-mm-dd.
 *
 * @example
 * isoDate(dayNumber(2012, 2, 29)) // => "2012-02-29"
 */
export function isoDate(day: DayNumber): string {
  return new Date(day * MILLISECONDS_A_DAY).toISOString().slice(0, 10);
}

/**
 * The calendar year in which a day number lies.
 *
 * @example
 * yearOf(dayNumber(2012, 12, 31)) // => 2012
 */
export function yearOf(day: DayNumber): number {
  return new Date(day * MILLISECONDS_A_DAY).getUTCFullYear();
}
