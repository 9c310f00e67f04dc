import type { Discharge } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { checkRecord, type DailyFlow, type FlowRecord } from "../../river/record";

/** One calendar year of a flow record. */
export interface YearOfFlow {
  readonly kind: "dry" | "mean" | "wet";
  readonly year: number;
  readonly meanFlow: Discharge;
  readonly record: readonly DailyFlow[];
}

const where = "energy.characteristicYears";

/** Returns the year of an ISO day. */
const yearOf = (date: string): number => Number(date.slice(0, 4));

const isWhole = (year: number, days: number): boolean =>
  days === (year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 366 : 365);

/**
 * A dry, a mean and a wet year of a flow record, by annual mean flow.
 *
 * Returns the whole calendar years of lowest and highest mean flow, and the one between them whose mean lies nearest to
 * the mean of all of them, each with its days. Throws a RangeError for a record with gaps, doubled days or negative flows
 * and for one with fewer than three whole calendar years.
 *
 * @example
 * energy.characteristicYears(Array.from({ length: 1096 }, (_, day) => ({
 *   date: new Date(Date.UTC(2021, 0, 1 + day)).toISOString().slice(0, 10), discharge: u.m3ps(20 + day / 100) })))[1].year
 * // => 2022
 */
export function characteristicYears(record: FlowRecord): readonly [YearOfFlow, YearOfFlow, YearOfFlow] {
  checkRecord(where, record);
  const byYear = new Map<number, DailyFlow[]>();
  for (const day of record) {
    const year = yearOf(day.date);
    const days = byYear.get(year);
    if (days === undefined) byYear.set(year, [day]);
    else days.push(day);
  }
  const years = [...byYear]
    .filter(([year, days]) => isWhole(year, days.length))
    .map(([year, days]) => ({
      year,
      record: days,
      meanFlow: days.reduce((sum, { discharge }) => sum + discharge, 0) / days.length,
    }))
    .toSorted((one, other) => one.meanFlow - other.meanFlow);
  if (years.length < 3)
    throw new RangeError(
      `${where}: the record has ${years.length} whole calendar years; it takes three to tell dry, mean and wet apart.`,
    );
  const mean = years.reduce((sum, { meanFlow }) => sum + meanFlow, 0) / years.length;
  const off = (year: { readonly meanFlow: number }): number => Math.abs(year.meanFlow - mean);
  const middle = years.slice(1, -1).reduce((best, year) => (off(year) < off(best) ? year : best));
  const named = (kind: YearOfFlow["kind"], year: (typeof years)[number]): YearOfFlow => ({
    kind,
    ...year,
    meanFlow: u.m3ps(year.meanFlow),
  });
  return [named("dry", years[0]), named("mean", middle), named("wet", years[years.length - 1])];
}

/**
 * The rows of one calendar year, of any record with a date.
 *
 * Returns them in their order. Throws a RangeError where there is none.
 *
 * @example
 * energy.inYear([{ date: "2025-10-01" }, { date: "2026-10-01" }], 2026).length // => 1
 */
export function inYear<Row extends { readonly date: string }>(rows: readonly Row[], year: number): Row[] {
  const own = rows.filter(({ date }) => yearOf(date) === year);
  if (own.length === 0) throw new RangeError(`energy.inYear: the record has no row of the year ${year}.`);
  return own;
}
