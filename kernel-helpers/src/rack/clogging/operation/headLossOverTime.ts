import { noteUse } from "../../../formula/usage";
import type { Discharge, Length, Mass } from "../../../quantity/dimension";
import { formatNumber } from "../../../quantity/format";
import { u } from "../../../quantity/u";
import { headLoss } from "../cloggedLoss";
import { countTwice, lossFactor } from "../lossFactor";
import { zonesInParallel } from "../zones";
import { assumed } from "./assumed";
import { checkCloggingInputs } from "./checkInputs";
import type { CloggingInputs, DebrisDay, Period, Sediment } from "./inputs";
import { RackState } from "./rackState";

const caller = "clogging.headLossOverTime";
const secondsADay = 86_400;
/** Times add up in steps: a schedule of 24 h must not miss its step by the last binary digit. */
const slack = 1e-6;

/** What clogging did to one day. */
export interface CloggedDay {
  readonly date: string;
  /** What passed the turbines: the day's flow less what was held back. */
  readonly turbineFlow: Discharge;
  readonly heldBack: Discharge;
  /** Of the clean rack at the day's flow. */
  readonly cleanHeadLoss: Length;
  /** Mean over the water that passed, as an energy sum needs it. */
  readonly meanHeadLoss: Length;
  readonly peakHeadLoss: Length;
  /** Starts of the machine. */
  readonly cleanings: number;
  readonly cleanedByHand: boolean;
  /** On the rack at the end of the day, as leaves. */
  readonly debrisOnRack: Mass;
  /** Greatest load at any time of the day where the machine reaches, kg/m². */
  readonly greatestLoad: number;
  readonly coveredShare: number;
  readonly machineInOrder: boolean;
  readonly rackIn: boolean;
}

/** Clogging and cleaning over a record of days. */
export interface HeadLossOverTime {
  readonly days: readonly CloggedDay[];
  readonly cleanings: number;
  readonly cleaningsByHand: number;
  readonly daysOutOfOrder: number;
  readonly daysHeldBack: number;
  readonly daysWithoutRack: number;
  /** That came to stay on the rack, as leaves. */
  readonly debrisCaught: Mass;
  /** Of all days, over the water that passed. */
  readonly meanHeadLoss: Length;
  readonly greatestHeadLoss: Length;
  /** Days with a load above those that the law was fitted to where the machine reaches; undefined where these were not given. */
  readonly daysBeyondTrials: number | undefined;
  /** Every assumption, in words. */
  readonly assumptions: readonly string[];
  readonly cautions: readonly string[];
}

/**
 * Head loss of a rack over days of debris and flow, with its cleaning by threshold, by schedule or both.
 *
 * Debris comes to the rack in proportion to the water that it takes of the river, evenly over the day; the stated share of it
 * stays, where the water goes. The machine looks at the head loss at the end of each step (24 a day unless told). Above the
 * greatest loss the turbines are held back to it, and the whole rack is cleaned by hand at the end of that day. Returns each
 * day's mean and peak head loss, cleanings and the debris left, and the sums. Valid for slow changes: a slug of debris within an hour
 * does worse. Throws a RangeError for days with gaps or doubles, flows and masses below 0, a type of debris without leaf
 * equivalent, and settings that can't be.
 *
 * @example
 * clogging.headLossOverTime({
 *   days: [{ date: "2026-10-28", riverFlow: u.m3ps(40), turbineFlow: u.m3ps(34), debris: { leaves: u.kg(600) } }],
 *   rack: { rackArea: u.m2(99.4), channelArea: u.m2(61.2), clearSpacing: u.mm(18), cleanLossCoefficient: 0.52,
 *     coefficients: { scale: 6, loadExponent: 1.3, spacingExponent: 0.5 } },
 *   cleaning: { threshold: u.m(0.1), shortestInterval: u.h(1), reach: 1, greatestLoss: u.m(0.5) },
 *   assumptions: { stickingShare: 0.5, leafEquivalents: { leaves: 1 } },
 * }).cleanings // => 1
 */
export function headLossOverTime(inputs: CloggingInputs): HeadLossOverTime {
  checkCloggingInputs(caller, inputs);
  for (const { id } of [lossFactor, zonesInParallel, headLoss]) noteUse(id);
  const { days, rack, cleaning, assumptions, stepsPerDay = 24 } = inputs;
  const state = new RackState(rack, cleaning.reach);
  const step = secondsADay / stepsPerDay;
  let sinceCleaning = 0;
  let sediment = 0;
  let sinceCleared = 0;

  const runDay = (day: DebrisDay): CloggedDay => {
    const { date, turbineFlow: wanted } = day;
    const rackIn = !isOut(date, assumptions.rackOut);
    const machineInOrder = !(cleaning.outOfOrder ?? []).some(({ from, to }) => date >= from && date <= to);
    if (assumptions.sediment !== undefined) {
      sinceCleared += secondsADay;
      if (sinceCleared > assumptions.sediment.clearedEvery + slack)
        [sediment, sinceCleared] = [0, secondsADay];
      if (day.riverFlow >= assumptions.sediment.aboveFlow) sediment += assumptions.sediment.risePerDay;
      state.coveredShare = coveredBy(sediment, assumptions.sediment);
    }
    if (!rackIn) state.cleanByHand();
    const arriving = rackIn ? (arrivingOn(day, assumptions) / secondsADay) * step : 0;
    const clean = rackIn ? new RackState(rack, cleaning.reach).lossAt(wanted) : 0;
    let [passed, lost, peak, cleanings, load] = [0, 0, 0, 0, 0];
    let held = false;
    for (let at = 0; at < stepsPerDay; at++) {
      // Half before and half after: the loss of a step is that at its middle.
      state.settle(arriving / 2);
      const loss = rackIn ? state.lossAt(wanted) : 0;
      const flow = loss > cleaning.greatestLoss ? wanted * Math.sqrt(cleaning.greatestLoss / loss) : wanted;
      held ||= flow < wanted;
      passed += flow;
      lost += flow * Math.min(loss, cleaning.greatestLoss);
      state.settle(arriving / 2);
      const end = rackIn ? Math.min(state.lossAt(wanted), cleaning.greatestLoss) : 0;
      peak = Math.max(peak, end);
      load = Math.max(load, state.load);
      sinceCleaning += step;
      if (rackIn && machineInOrder && isDue(end, sinceCleaning, cleaning)) {
        state.cleanByMachine();
        cleanings++;
        sinceCleaning = 0;
      }
    }
    if (held) state.cleanByHand();
    return {
      date,
      turbineFlow: u.m3ps(passed / stepsPerDay),
      heldBack: u.m3ps(held ? wanted - passed / stepsPerDay : 0),
      cleanHeadLoss: u.m(clean),
      meanHeadLoss: u.m(passed > 0 ? lost / passed : 0),
      peakHeadLoss: u.m(peak),
      cleanings,
      cleanedByHand: held,
      debrisOnRack: u.kg(state.mass),
      greatestLoad: load,
      coveredShare: state.coveredShare,
      machineInOrder,
      rackIn,
    };
  };
  return summed(days.map(runDay), inputs);
}

/** Whether the machine starts: its time has come, and the loss or the schedule asks for it. */
function isDue(
  loss: number,
  since: number,
  { threshold, every, shortestInterval }: CloggingInputs["cleaning"],
): boolean {
  if (since < shortestInterval - slack) return false;
  return (threshold !== undefined && loss >= threshold) || (every !== undefined && since >= every - slack);
}

/** Kilograms of leaves that a day leaves on the rack. */
function arrivingOn(
  { riverFlow, turbineFlow, debris }: DebrisDay,
  { stickingShare, leafEquivalents }: CloggingInputs["assumptions"],
): number {
  if (riverFlow === 0) return 0;
  const leaves = Object.entries(debris).reduce((sum, [type, mass]) => sum + mass * leafEquivalents[type], 0);
  return leaves * stickingShare * (turbineFlow / riverFlow);
}

/** Texts such as 12-15 sort like the days they name; a stretch may run over the new year. */
function isOut(date: string, period: Period | undefined): boolean {
  if (period === undefined) return false;
  const day = date.slice(5);
  const { from, to } = period;
  return from <= to ? day >= from && day <= to : day >= from || day <= to;
}

/** Never the whole rack: the water washes a way through. */
const mostCovered = 0.95;

function coveredBy(height: number, { overlayHeight, rackHeight }: Sediment): number {
  return Math.min(Math.max(height - overlayHeight, 0) / rackHeight, mostCovered);
}

function summed(days: readonly CloggedDay[], inputs: CloggingInputs): HeadLossOverTime {
  const sum = (read: (day: CloggedDay) => number) => days.reduce((total, day) => total + read(day), 0);
  const count = (is: (day: CloggedDay) => boolean) => days.filter(is).length;
  const water = sum(({ turbineFlow }) => turbineFlow);
  const tested = inputs.rack.testedLoad;
  const beyond = tested && count(({ greatestLoad }) => greatestLoad > tested[1]);
  const caught = inputs.days.reduce(
    (total, day) =>
      isOut(day.date, inputs.assumptions.rackOut) ? total : total + arrivingOn(day, inputs.assumptions),
    0,
  );
  return {
    days,
    cleanings: sum(({ cleanings }) => cleanings),
    cleaningsByHand: count(({ cleanedByHand }) => cleanedByHand),
    daysOutOfOrder: count(({ machineInOrder }) => !machineInOrder),
    daysHeldBack: count(({ heldBack }) => heldBack > 0),
    daysWithoutRack: count(({ rackIn }) => !rackIn),
    debrisCaught: u.kg(caught),
    meanHeadLoss: u.m(
      water > 0 ? sum(({ turbineFlow, meanHeadLoss }) => turbineFlow * meanHeadLoss) / water : 0,
    ),
    greatestHeadLoss: u.m(Math.max(...days.map(({ peakHeadLoss }) => peakHeadLoss))),
    daysBeyondTrials: beyond,
    assumptions: assumed(inputs),
    cautions: [
      `${caller}: ${countTwice}`,
      ...(tested !== undefined && beyond !== undefined && beyond > 0
        ? [
            `${caller}: on ${beyond} of ${days.length} days the rack carries more than the ` +
              `${formatNumber(tested[1])} kg/m² that the law was fitted to; there it is only continued.`,
          ]
        : []),
    ],
  };
}
