import type { Discharge } from "../quantity/dimension";
import { printValue } from "../formula/input";
import { dayNumber, isoDay, monthDay } from "./calendar";

/** The mean flow of one day; the date reads 2026-03-01. */
export interface DailyFlow {
  readonly date: string;
  readonly discharge: Discharge;
}

/** A part of the year, both days included; it may run over the new year. */
export interface Season {
  /** The first day, written 03-01. */
  readonly from: string;
  /** The last day, written 06-15. */
  readonly to: string;
}

/** Daily flows in order of date without a gap; what `river.season` returns has only its season's days. */
export type FlowRecord = readonly DailyFlow[] & { readonly season?: Season };

/** Returns whether a day lies in a season; texts such as 03-01 sort like the days they name. */
export function isInSeason(date: string, { from, to }: Season): boolean {
  const day = monthDay(date);
  return from <= to ? day >= from && day <= to : day >= from || day <= to;
}

/**
 * Checks a record of daily flows.
 *
 * Throws a RangeError that names the caller, the day and what is wrong: no days, a date that is none, a flow that is
 * negative or not a number, a day that stands twice, days out of order, days missing.
 */
export function checkRecord(caller: string, record: FlowRecord): void {
  // A record may come from anywhere, whatever its type says: nothing of it is taken for granted here.
  const days: unknown = record;
  if (!Array.isArray(days) || days.length === 0) {
    throw new RangeError(`${caller}: the record has no days; give a list of { date, discharge }.`);
  }
  let previous: number | undefined;
  for (const [at, entry] of days.entries()) {
    const { date, discharge } = Object(entry) as { readonly date?: unknown; readonly discharge?: unknown };
    const day = typeof date === "string" ? dayNumber(date) : undefined;
    if (day === undefined) {
      throw new RangeError(
        `${caller}: the date of entry ${at + 1} is ${JSON.stringify(date) ?? "missing"}; a date reads 2026-03-01.`,
      );
    }
    if (typeof discharge !== "number" || !Number.isFinite(discharge) || discharge < 0) {
      throw new RangeError(
        `${caller}: the discharge of ${isoDay(day)} is ${printDischarge(discharge)}; it must be at least 0 m³/s.`,
      );
    }
    if (previous !== undefined) checkStep(caller, previous, day, record.season);
    previous = day;
  }
}

/** Prints what stands for a discharge, whatever it is. */
const printDischarge = (value: unknown): string =>
  typeof value === "number" ? printValue(value, "discharge") : (JSON.stringify(value) ?? "missing");

function checkStep(caller: string, previous: number, day: number, season: Season | undefined): void {
  if (day === previous) {
    throw new RangeError(`${caller}: ${isoDay(day)} stands twice in the record; keep one of the two.`);
  }
  if (day < previous) {
    throw new RangeError(
      `${caller}: ${isoDay(day)} comes after ${isoDay(previous)} in the record; sort the record by date.`,
    );
  }
  const missing: string[] = [];
  for (let between = previous + 1; between < day; between += 1) {
    if (season === undefined || isInSeason(isoDay(between), season)) missing.push(isoDay(between));
  }
  if (missing.length > 0) {
    throw new RangeError(
      `${caller}: ${missing.length === 1 ? "a day is" : `${missing.length} days are`} missing in the record, ` +
        `from ${missing[0]}; fill the gap, or cut the record there.`,
    );
  }
}
