import { checkNumber } from "../../formula/check";
import { noteUse } from "../../formula/usage";
import type { Discharge, Energy, Length, Power, Velocity } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { approachVelocity } from "../../river/approachVelocity";
import { checkRecord, type FlowRecord } from "../../river/record";
import { dispatchOf } from "../dispatch";
import { power } from "../power";
import { turbineFlow } from "../turbineFlow";
import { type EnergyAccount, Ledger } from "./account";
import { anyRise, checkPlant, factorAtLeastOne, lossAtLeastNothing, type RunOfRiverPlant } from "./plant";

/** One day of a plant. Flows, velocity, head and power are those while the turbines run. */
export interface OperatingDay {
  readonly date: string;
  readonly riverFlow: Discharge;
  readonly residualFlow: Discharge;
  readonly bypassFlow: Discharge;
  readonly turbineFlow: Discharge;
  /** Flow of each unit; 0 where it stands still. */
  readonly unitFlows: readonly Discharge[];
  /** Over the weir: what residual flow, bypass and turbines leave. */
  readonly weirFlow: Discharge;
  /** Of turbine and bypass flow in the approach channel. */
  readonly approachVelocity: Velocity;
  /** Of the rack, with its debris. */
  readonly headLoss: Length;
  readonly netHead: Length;
  readonly efficiency: number;
  readonly power: Power;
  /** Whether a shutdown stops the turbines by day and by night. */
  readonly stopped: { readonly day: boolean; readonly night: boolean };
  readonly energy: Energy;
}

/** A plant over a record of days. */
export interface Operation {
  readonly days: readonly OperatingDay[];
  /** Energy of a mean year, and what each cause takes from it. */
  readonly annual: EnergyAccount;
  /** The same over the whole record. */
  readonly total: EnergyAccount;
}

const where = "energy.operation";
const secondsADay = 86_400;
const daysAYear = 365.25;

/**
 * Runs a plant over a record of daily flows.
 *
 * Returns every day with its unit dispatch, approach velocity, head loss, net head and energy, and the energy of a mean
 * year with what each cause takes from it. Residual flow comes first, then the bypass, then the turbines; the rest goes
 * over the weir. Where the tail water leaves no head the units stand still. Valid for a run-of-river plant without storage
 * and for daily means. Throws a RangeError for a record with gaps, doubled days or negative flows, for a season's record,
 * whose year would not be one, and for numbers that no plant has.
 *
 * @example
 * energy.operation({ record: [{ date: "2026-03-01", discharge: u.m3ps(30) }], units: [energy.efficiencyCurve([
 *   { discharge: u.m3ps(4), efficiency: 0.9 }, { discharge: u.m3ps(17), efficiency: 0.9 }])], residualFlow: u.m3ps(2.5),
 *   bypassFlow: u.m3ps(1.36), grossHead: u.m(5.4), channelWidth: u.m(17), channelDepth: u.m(3.6),
 *   rackLoss: () => u.m(0.1) }).days[0].power // => 795.49 kW
 */
export function operation({
  record,
  ...plant
}: RunOfRiverPlant & { readonly record: FlowRecord }): Operation {
  checkRecord(where, record);
  if (record.season !== undefined)
    throw new RangeError(
      `${where}: the record holds only the season ${record.season.from} to ${record.season.to}; give whole years.`,
    );
  checkPlant(where, plant);
  for (const { id } of [turbineFlow, approachVelocity, power]) noteUse(id);
  const ledger = new Ledger();
  const runDay = dayOf(plant, ledger);
  const days = record.map(({ date, discharge }) => runDay(date, discharge));
  return { days, annual: ledger.account(daysAYear / record.length), total: ledger.account(1) };
}

/** Energy of a day of this flow; none where the losses leave no head. */
const energyOf = (flow: number, head: number, efficiency: number): number =>
  power.evaluate({ discharge: flow, head: Math.max(0, head), efficiency }) * secondsADay;

/** The function that runs one day and books it. */
function dayOf(plant: RunOfRiverPlant, ledger: Ledger): (date: string, riverFlow: Discharge) => OperatingDay {
  const { units, residualFlow, bypassFlow, grossHead, nightShare = 0.5 } = plant;
  const { channelWidth: width, channelDepth: depth, intakeLoss = u.m(0), shutdown } = plant;
  const full = units.reduce((sum, unit) => sum + unit.largest, 0);
  const bestEfficiency = Math.max(...units.map((unit) => unit.best.efficiency));
  const dispatched = dispatchOf(units);
  const still = dispatched(0);

  return (date, riverFlow) => {
    const rise = plant.tailwaterRise?.(riverFlow) ?? u.m(0);
    checkNumber(where, `the tailwaterRise of ${date}`, rise, anyRise);
    const head = grossHead - rise;
    const residual = Math.min(riverFlow, residualFlow);
    const bypass = Math.min(riverFlow - residual, bypassFlow);
    const left = riverFlow - residual - bypass;
    const tried = head > 0 ? dispatched(left) : still;
    const intake = (flow: number): number => intakeLoss * (flow / full) ** 2;
    const lossAt = (flow: number): { velocity: number; clean: Length; clogged: Length } => {
      const velocity = approachVelocity.evaluate({ discharge: flow + bypass, width, depth });
      const clean = flow === 0 ? u.m(0) : plant.rackLoss(u.mps(velocity));
      checkNumber(where, `the rackLoss of ${date}`, clean, lossAtLeastNothing);
      const factor = cloggingFactorOn(plant, date);
      return { velocity, clean, clogged: u.m(clean * factor) };
    };
    // Where intake and rack would take all the head, the units stand still too.
    const triedLoss = lossAt(tried.turbineFlow);
    const runs = head - intake(tried.turbineFlow) - triedLoss.clogged > 0;
    const now = runs ? tried : still;
    const loss = runs ? triedLoss : lossAt(0);
    const flow = now.turbineFlow;
    const netHead = flow === 0 ? 0 : head - intake(flow) - loss.clogged;
    const running = energyOf(flow, netHead, now.efficiency);
    const stopped = {
      day: shutdown?.(date, "day", riverFlow) ?? false,
      night: shutdown?.(date, "night", riverFlow) ?? false,
    };
    const share = (stopped.day ? 0 : 1 - nightShare) + (stopped.night ? 0 : nightShare);
    ledger.book([
      energyOf(Math.min(full, riverFlow), head, bestEfficiency),
      energyOf(Math.min(full, riverFlow - residual), head, bestEfficiency),
      energyOf(Math.min(full, left), head, bestEfficiency),
      energyOf(flow, head, bestEfficiency),
      energyOf(flow, head, now.efficiency),
      energyOf(flow, head - intake(flow), now.efficiency),
      energyOf(flow, head - intake(flow) - loss.clean, now.efficiency),
      running,
      running * share,
    ]);
    return {
      date,
      riverFlow,
      residualFlow: u.m3ps(residual),
      bypassFlow: u.m3ps(bypass),
      turbineFlow: flow,
      unitFlows: now.unitFlows,
      weirFlow: u.m3ps(Math.max(0, left - flow)),
      approachVelocity: u.mps(loss.velocity),
      headLoss: loss.clogged,
      netHead: u.m(netHead),
      efficiency: now.efficiency,
      power: u.W(running / secondsADay),
      stopped,
      energy: u.J(running * share),
    };
  };
}

function cloggingFactorOn({ cloggingFactor = 1 }: RunOfRiverPlant, date: string): number {
  if (typeof cloggingFactor === "number") return cloggingFactor;
  return checkNumber(where, `the cloggingFactor of ${date}`, cloggingFactor(date), factorAtLeastOne);
}
