import { quote } from "./offence";

const isoDay = /^\d{4}-\d{2}-\d{2}$/;
const daysInMonth = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

function isLeap(year: number): boolean {
  return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
}

/** The day that an entry spells as 2026-03-01, or undefined if it is none of the calendar's. */
export function parseDay(entry: string): string | undefined {
  const text = entry.trim();
  if (!isoDay.test(text)) return undefined;
  const [year, month, day] = [Number(text.slice(0, 4)), Number(text.slice(5, 7)), Number(text.slice(8))];
  if (year === 0 || month < 1 || month > 12 || day < 1) return undefined;
  const last = month === 2 && isLeap(year) ? 29 : daysInMonth[month - 1];
  return day <= last ? text : undefined;
}

/** Why an entry is no day, and the remedy. */
export function dayFault(entry: string): string {
  const text = entry.trim();
  const value = quote(entry);
  if (isoDay.test(text)) return `${value} is no day of the calendar.`;
  const [day, time] = text.split(/[T ]/);
  if (time !== undefined && parseDay(day) !== undefined) return `${value} has a time of day; write ${day}.`;
  if (/^\d{1,4}[./-]\d{1,2}[./-]\d{1,4}$/.test(text)) {
    return `${value} is written another way round; write year-month-day, such as 2026-03-01, or give the file's own order as days.`;
  }
  if (/^\d{5}(?:\.\d+)?$/.test(text)) {
    return `${value} is a spreadsheet's count of days; give the cells the format of a date.`;
  }
  return `${value} is no day.`;
}
