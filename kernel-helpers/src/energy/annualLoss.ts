import { checkNumber } from "../formula/check";
import { length, ratio } from "../formula/input";
import { noteUse } from "../formula/usage";
import type { Discharge, Energy, Length } from "../quantity/dimension";
import { u } from "../quantity/u";
import { power } from "./power";

/** Flow through the turbines, day by day. */
export interface TurbineDay {
  readonly date: string;
  readonly turbineFlow: Discharge;
}

/** Energy that a head loss takes. */
export interface AnnualLoss {
  /** Over the whole record. */
  readonly total: Energy;
  /** A mean year: the total over the days of the record, times 365.25. */
  readonly annual: Energy;
  readonly days: number;
  /** Days on which the turbines ran. */
  readonly daysRunning: number;
}

const secondsADay = 86_400;
const daysAYear = 365.25;

/**
 * Energy that a head loss takes from a plant over a record of days.
 *
 * Returns Σ ρ g Q Δh(Q) η Δt over the turbine flows of the record, and the same for a mean year. `lossAt` gives the head
 * loss at a turbine flow, `efficiency` a number or the efficiency at a turbine flow. Valid for daily mean flows: where the
 * flow changes within the day, a loss that grows with its square is a little larger. Throws a RangeError for an empty
 * record, a negative flow, a head loss below 0 and an efficiency outside 0..1, naming the day.
 *
 * @example
 * energy.annualLoss({ days: [{ date: "2026-03-01", turbineFlow: u.m3ps(30) }], lossAt: () => u.m(0.05),
 *   efficiency: 0.9 }).annual // => 4.1793e11 J
 */
export function annualLoss({
  days,
  lossAt,
  efficiency,
}: {
  readonly days: readonly TurbineDay[];
  readonly lossAt: (turbineFlow: Discharge) => Length;
  readonly efficiency: number | ((turbineFlow: Discharge) => number);
}): AnnualLoss {
  const where = "energy.annualLoss";
  if (days.length === 0)
    throw new RangeError(`${where}: the record has no days; give a list of { date, turbineFlow }.`);
  const efficiencyAt = typeof efficiency === "number" ? (): number => efficiency : efficiency;
  noteUse(power.id);
  let total = 0;
  let daysRunning = 0;
  for (const { date, turbineFlow } of days) {
    checkNumber(where, `turbineFlow of ${date}`, turbineFlow, power.inputs.discharge);
    if (turbineFlow === 0) continue;
    const head = lossAt(turbineFlow);
    const share = efficiencyAt(turbineFlow);
    checkNumber(where, `the head loss of ${date}`, head, lossInput);
    checkNumber(where, `the efficiency of ${date}`, share, efficiencyInput);
    total += power.evaluate({ discharge: turbineFlow, head, efficiency: share }) * secondsADay;
    daysRunning++;
  }
  return {
    total: u.J(total),
    annual: u.J((total / days.length) * daysAYear),
    days: days.length,
    daysRunning,
  };
}

const lossInput = length("\\Delta h", { atLeast: 0, unit: "m" });
const efficiencyInput = ratio("\\eta", {});
