import { checkLevel, checkNumber, refuse } from "./checks";
import { normalQuantile } from "./distributions";

/** The estimate right after one time at which events happened. */
export interface EventStep {
  readonly time: number;
  /** Subjects without event and still watched just before this time. */
  readonly atRisk: number;
  readonly events: number;
  /** Share still without event after this time. */
  readonly remaining: number;
  /** Greenwood's standard error; undefined once nobody remains, where the formula has no value. */
  readonly standardError: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
}

/** A Kaplan–Meier estimate. */
export interface EventCurve {
  readonly method: string;
  readonly level: number;
  readonly subjects: number;
  readonly events: number;
  readonly censored: number;
  /** One step for each time with an event; before the first one everybody remains. */
  readonly steps: readonly EventStep[];
  /** The last time at which anybody was watched: the estimate ends there. */
  readonly lastTime: number;
  /** First time after which at most half remain, and the times at which the limits reach a half; undefined if never. */
  readonly median: {
    readonly estimate: number | undefined;
    readonly lower: number | undefined;
    readonly upper: number | undefined;
  };
}

const method = "Kaplan–Meier, Greenwood's error, log-log interval";

/**
 * Kaplan–Meier estimate of the share that is still without an event, when some were not watched to the end.
 *
 * Returns one step for each time with an event, with Greenwood's standard error and the log-log interval, and the median
 * with its interval. `observed` says for each time whether the event was seen (true) or the subject was lost from sight
 * without one (false: right censored, as a fish at the end of its run). Subjects censored at the time of an event count
 * as at risk then. Times may have any unit. Valid where being lost from sight has nothing to do with the event to come.
 * Throws a RangeError where the lists don't go together or a time is negative or not finite.
 *
 * @example
 * statistics.kaplanMeier({
 *   times: [3, 5, 5, 8, 10],
 *   observed: [true, true, false, true, false],
 * }).steps[1].remaining // => 0.6
 */
export function kaplanMeier({
  times,
  observed,
  level = 0.95,
}: {
  readonly times: readonly number[];
  readonly observed: readonly boolean[];
  readonly level?: number;
}): EventCurve {
  const where = "statistics.kaplanMeier";
  checkLevel(where, level);
  if (times.length === 0) refuse(where, "times is empty; give at least one time");
  if (times.length !== observed.length) {
    refuse(
      where,
      `times has ${times.length} values and observed ${observed.length}; each subject needs one of both`,
    );
  }
  times.forEach((time, at) => checkNumber(where, `times[${at}]`, time, { atLeast: 0 }));
  observed.forEach((seen, at) => {
    if (typeof seen !== "boolean") {
      refuse(
        where,
        `observed[${at}] is ${JSON.stringify(seen)}; it must be true (event seen) or false (censored)`,
      );
    }
  });
  const steps = stepsOf(times, observed, normalQuantile((1 + level) / 2));
  const events = observed.filter((seen) => seen).length;
  return {
    method,
    level,
    subjects: times.length,
    events,
    censored: times.length - events,
    steps,
    lastTime: times.reduce((last, time) => Math.max(last, time), 0),
    median: {
      estimate: firstAtHalf(steps, ({ remaining }) => remaining),
      lower: firstAtHalf(steps, ({ lower }) => lower),
      upper: firstAtHalf(steps, ({ upper }) => upper),
    },
  };
}

function stepsOf(
  times: readonly number[],
  observed: readonly boolean[],
  reach: number,
): readonly EventStep[] {
  const order = times.map((time, at) => ({ time, seen: observed[at] })).toSorted((a, b) => a.time - b.time);
  const steps: EventStep[] = [];
  let remaining = 1;
  let greenwood = 0;
  for (let at = 0; at < order.length;) {
    const { time } = order[at];
    const atRisk = order.length - at;
    let [events, leaving] = [0, 0];
    for (; at + leaving < order.length && order[at + leaving].time === time; leaving++) {
      if (order[at + leaving].seen) events++;
    }
    at += leaving;
    if (events === 0) continue;
    remaining *= (atRisk - events) / atRisk;
    greenwood += events / (atRisk * (atRisk - events));
    steps.push({ time, atRisk, events, remaining, ...spreadOf(remaining, greenwood, reach) });
  }
  return steps;
}

/** Greenwood's error, and limits that are symmetric for ln(−ln share) and so stay between 0 and 1. */
function spreadOf(
  remaining: number,
  greenwood: number,
  reach: number,
): Pick<EventStep, "standardError" | "lower" | "upper"> {
  if (remaining === 0) return { standardError: undefined, lower: undefined, upper: undefined };
  const stretch = Math.exp((reach * Math.sqrt(greenwood)) / Math.abs(Math.log(remaining)));
  return {
    standardError: remaining * Math.sqrt(greenwood),
    lower: remaining ** stretch,
    upper: remaining ** (1 / stretch),
  };
}

/** A product such as 4/5 · 5/8 must count as a half, though its last digit may not. */
function firstAtHalf(
  steps: readonly EventStep[],
  shareOf: (step: EventStep) => number | undefined,
): number | undefined {
  return steps.find((step) => {
    const share = shareOf(step);
    return share !== undefined && share <= 0.5 + 1e-12;
  })?.time;
}

/** The share to which an event has happened by some time. */
export interface EventShare {
  readonly method: string;
  readonly level: number;
  readonly time: number;
  readonly estimate: number;
  readonly standardError: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
}

/**
 * The share to which the event has happened by a time, such as the share of fish guided within ten minutes.
 *
 * Returns 1 − the remaining share of a Kaplan–Meier estimate, with Greenwood's error and the log-log interval. Before the
 * first event it is 0, with no error and no interval known. Throws a RangeError for a negative time and for one after the
 * last time at which anybody without the event was watched, since nothing is known there.
 *
 * @example
 * statistics.eventShare(
 *   statistics.kaplanMeier({ times: [3, 5, 5, 8, 10], observed: [true, true, false, true, false] }),
 *   6,
 * ).estimate // => 0.4
 */
export function eventShare(curve: EventCurve, time: number): EventShare {
  const over = curve.steps.at(-1)?.remaining === 0;
  checkNumber("statistics.eventShare", "time", time, {
    atLeast: 0,
    ...(over ? {} : { atMost: curve.lastTime }),
  });
  const step = curve.steps.findLast((one) => one.time <= time);
  return {
    method: curve.method,
    level: curve.level,
    time,
    estimate: 1 - (step?.remaining ?? 1),
    standardError: step?.standardError,
    lower: turned(step?.upper),
    upper: turned(step?.lower),
  };
}

const turned = (share: number | undefined): number | undefined =>
  share === undefined ? undefined : 1 - share;
