import { checkLevel, checkNumber, refuse } from "./checks";
import { normalQuantile } from "./distributions";

/** The share to which one kind of event has happened, right after one time at which it happened. */
export interface IncidenceStep {
  readonly time: number;
  /** Subjects without any event and still watched just before this time. */
  readonly atRisk: number;
  /** Events of this kind at this time. */
  readonly events: number;
  readonly share: number;
  readonly standardError: number;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
}

/** One kind of event among those that end the waiting. */
export interface IncidenceOfEvent {
  readonly event: string;
  readonly events: number;
  /** One step for each time with such an event; before the first one the share is 0. */
  readonly steps: readonly IncidenceStep[];
}

/** Cumulative incidences of events that exclude each other. */
export interface CumulativeIncidence {
  readonly method: string;
  readonly level: number;
  readonly subjects: number;
  readonly censored: number;
  /** In the order in which the events first happened. */
  readonly events: readonly IncidenceOfEvent[];
  /** The last time at which anybody was watched: the estimates end there unless nobody was left. */
  readonly lastTime: number;
  /** Whether somebody without an event was watched to the last time. */
  readonly open: boolean;
}

const method = "Aalen–Johansen, delta-method error, log-log interval";

/**
 * Cumulative incidence of events that exclude each other (Aalen & Johansen 1978), when some subjects were not watched to
 * the end: which share was guided by some time, where other fish pass through the rack instead?
 *
 * Returns for each kind of event one step for each time at which it happened, with the delta method's standard error
 * (Marubini & Valsecchi 1995) and a log-log interval. `events` names each subject's event, undefined for one that was lost
 * from sight without any: right censored, as a fish at the end of its run. The shares of all events and of those without
 * one add up to 1; 1 − Kaplan–Meier, which takes the other events for censored, overstates each. Times may have any unit.
 * Valid for independent subjects, and where being lost from sight has nothing to do with the event to come. Throws a
 * RangeError where the lists don't go together, nobody has an event, or a time is negative or not finite.
 *
 * @example
 * statistics.cumulativeIncidence({
 *   times: [3, 5, 5, 8, 10],
 *   events: ["bypass", "rack", undefined, "bypass", undefined],
 * }).events[0].steps[1].share // => 0.5
 */
export function cumulativeIncidence({
  times,
  events,
  level = 0.95,
}: {
  readonly times: readonly number[];
  readonly events: readonly (string | undefined)[];
  readonly level?: number;
}): CumulativeIncidence {
  const where = "statistics.cumulativeIncidence";
  checkLevel(where, level);
  if (times.length === 0) refuse(where, "times is empty; give at least one time");
  if (times.length !== events.length) {
    refuse(
      where,
      `times has ${times.length} values and events ${events.length}; each subject needs one of both`,
    );
  }
  const bad = times.findIndex((time) => !(time >= 0 && time < Infinity));
  if (bad >= 0) checkNumber(where, `times[${bad}]`, times[bad], { atLeast: 0 });
  events.forEach((event, at) => {
    if (event !== undefined && (typeof event !== "string" || event === "")) {
      refuse(
        where,
        `events[${at}] is ${JSON.stringify(event)}; it must name the event, or be undefined (censored)`,
      );
    }
  });
  const moments = momentsOf(times, events);
  if (moments.length === 0) refuse(where, "no subject has an event; there is no share to follow");
  const names = [...new Set(moments.flatMap(({ byEvent }) => [...byEvent.keys()]))];
  const lastTime = times.reduce((last, time) => Math.max(last, time), 0);
  const reach = normalQuantile((1 + level) / 2);
  const { length: censored } = events.filter((event) => event === undefined);
  return {
    method,
    level,
    subjects: times.length,
    censored,
    events: names.map((event) => incidenceOf(event, moments, reach)),
    lastTime,
    open: times.some((time, at) => time === lastTime && events[at] === undefined),
  };
}

/** A time with events of any kind. */
interface Moment {
  readonly time: number;
  readonly atRisk: number;
  readonly all: number;
  readonly byEvent: ReadonlyMap<string, number>;
  /** Share without any event just before. */
  readonly remaining: number;
}

function momentsOf(times: readonly number[], events: readonly (string | undefined)[]): readonly Moment[] {
  const order = times.map((time, at) => ({ time, event: events[at] })).toSorted((a, b) => a.time - b.time);
  const moments: Moment[] = [];
  let remaining = 1;
  for (let at = 0; at < order.length;) {
    const { time } = order[at];
    const atRisk = order.length - at;
    const byEvent = new Map<string, number>();
    let all = 0;
    for (; at < order.length && order[at].time === time; at++) {
      const { event } = order[at];
      if (event === undefined) continue;
      byEvent.set(event, (byEvent.get(event) ?? 0) + 1);
      all++;
    }
    if (all === 0) continue;
    moments.push({ time, atRisk, all, byEvent, remaining });
    remaining *= (atRisk - all) / atRisk;
  }
  return moments;
}

/**
 * The steps of one event. The variance of a share F at a time sums over the earlier moments i, with F_i their shares:
 * (F − F_i)² d/(n(n − d)) + S² e(n − e)/n³ − 2 (F − F_i) S e/n²; here as sums that grow with the moments, since F changes.
 */
function incidenceOf(event: string, moments: readonly Moment[], reach: number): IncidenceOfEvent {
  const steps: IncidenceStep[] = [];
  let share = 0;
  let [own, cross, crossShare, hazard, hazardShare, hazardSquare] = [0, 0, 0, 0, 0, 0];
  let count = 0;
  for (const { time, atRisk, all, byEvent, remaining } of moments) {
    const events = byEvent.get(event) ?? 0;
    share += (remaining * events) / atRisk;
    own += (remaining ** 2 * events * (atRisk - events)) / atRisk ** 3;
    const shared = (remaining * events) / atRisk ** 2;
    cross += shared;
    crossShare += shared * share;
    // When the last ones leave together, no later share differs from this one, and the term is 0.
    const spread = atRisk === all ? 0 : all / (atRisk * (atRisk - all));
    hazard += spread;
    hazardShare += spread * share;
    hazardSquare += spread * share ** 2;
    if (events === 0) continue;
    count += events;
    const between = share ** 2 * hazard - 2 * share * hazardShare + hazardSquare;
    const variance = between + own - 2 * (share * cross - crossShare);
    const standardError = Math.sqrt(Math.max(0, variance));
    steps.push({ time, atRisk, events, share, standardError, ...limitsOf(share, standardError, reach) });
  }
  return { event, events: count, steps };
}

/** Limits that are symmetric for ln(−ln share) and so stay between 0 and 1. */
function limitsOf(
  share: number,
  standardError: number,
  reach: number,
): Pick<IncidenceStep, "lower" | "upper"> {
  if (share >= 1 - 1e-12) return { lower: undefined, upper: undefined };
  const stretch = Math.exp((reach * standardError) / (share * Math.abs(Math.log(share))));
  return { lower: share ** stretch, upper: share ** (1 / stretch) };
}

/** A cumulative incidence at one time. */
export interface IncidenceAt extends Omit<IncidenceStep, "events" | "standardError" | "atRisk"> {
  readonly event: string;
  readonly method: string;
  readonly level: number;
  readonly standardError: number | undefined;
}

/**
 * The share to which an event has happened by a time, the other events excluding it.
 *
 * Returns the share with its error and interval; before the first such event it is 0, with no error known. An event that
 * nobody had has a share of 0. Throws a RangeError for a negative time and for one after the last time at which anybody
 * without an event was watched, since nothing is known there.
 *
 * @example
 * statistics.incidenceAt(statistics.cumulativeIncidence({ times: [3, 5, 5, 8, 10],
 *   events: ["bypass", "rack", undefined, "bypass", undefined] }), "bypass", 4).share // => 0.2
 */
export function incidenceAt(curve: CumulativeIncidence, event: string, time: number): IncidenceAt {
  checkNumber("statistics.incidenceAt", "time", time, {
    atLeast: 0,
    ...(curve.open ? { atMost: curve.lastTime } : {}),
  });
  const steps = curve.events.find((one) => one.event === event)?.steps ?? [];
  const step = steps.findLast((one) => one.time <= time);
  return {
    event,
    method: curve.method,
    level: curve.level,
    time,
    share: step?.share ?? 0,
    standardError: step?.standardError,
    lower: step?.lower,
    upper: step?.upper,
  };
}
