import { checkNumber } from "../formula/check";
import { discharge } from "../formula/input";
import type { Discharge } from "../quantity/dimension";
import { checkRecord, type FlowRecord } from "./record";

/**
 * Number of days on which a flow is reached or exceeded.
 *
 * Returns a plain count over the whole record. Throws a RangeError for a record with missing or doubled days or negative
 * flows.
 *
 * @example
 * river.daysAtOrAbove([{ date: "2026-03-01", discharge: u.m3ps(40) },
 *   { date: "2026-03-02", discharge: u.m3ps(30) }], u.m3ps(34)) // => 1
 */
export function daysAtOrAbove(record: FlowRecord, flow: Discharge): number {
  checkRecord("river.daysAtOrAbove", record);
  checkFlow("river.daysAtOrAbove", "flow", flow);
  return record.filter((day) => day.discharge >= flow).length;
}

/** The days of one year on which a flow is reached or exceeded. */
export interface YearOfDays {
  readonly year: number;
  readonly days: number;
  /** The days of this year in the record: fewer than 365 where the record starts, ends or holds a season. */
  readonly of: number;
}

/**
 * Number of days in each calendar year on which a flow is reached or exceeded.
 *
 * Returns one entry a year with the days counted and the days there are. Throws a RangeError for a record with missing
 * or doubled days or negative flows.
 *
 * @example
 * river.daysAtOrAboveByYear([{ date: "2026-03-01", discharge: u.m3ps(40) },
 *   { date: "2026-03-02", discharge: u.m3ps(30) }], u.m3ps(34))[0].of // => 2
 */
export function daysAtOrAboveByYear(record: FlowRecord, flow: Discharge): readonly YearOfDays[] {
  checkRecord("river.daysAtOrAboveByYear", record);
  checkFlow("river.daysAtOrAboveByYear", "flow", flow);
  const years = new Map<number, { days: number; of: number }>();
  for (const { date, discharge: dayFlow } of record) {
    const year = Number(date.slice(0, 4));
    const counted = years.get(year) ?? { days: 0, of: 0 };
    years.set(year, { days: counted.days + (dayFlow >= flow ? 1 : 0), of: counted.of + 1 });
  }
  return [...years].map(([year, counted]) => ({ year, ...counted }));
}

/**
 * Share of the river's water that a plant with this design discharge can take.
 *
 * Returns a ratio 0..1: the sum of each day's flow, cut at the design discharge, over the sum of all flows. No residual
 * flow, bypass or technical minimum is taken off. Throws a RangeError for a record with missing or doubled days or
 * negative flows, or without any water.
 *
 * @example
 * river.capturedShare([{ date: "2026-03-01", discharge: u.m3ps(40) },
 *   { date: "2026-03-02", discharge: u.m3ps(30) }], u.m3ps(34)) // => 0.91429
 */
export function capturedShare(record: FlowRecord, designDischarge: Discharge): number {
  checkRecord("river.capturedShare", record);
  checkFlow("river.capturedShare", "designDischarge", designDischarge);
  const all = record.reduce((sum, day) => sum + day.discharge, 0);
  if (all === 0) {
    throw new RangeError(
      "river.capturedShare: every flow of the record is 0 m³/s; there is no share to take.",
    );
  }
  return record.reduce((sum, day) => sum + Math.min(day.discharge, designDischarge), 0) / all;
}

const flowInput = discharge("Q", { atLeast: 0 });

function checkFlow(caller: string, name: string, flow: Discharge): void {
  checkNumber(caller, name, flow, flowInput);
}
