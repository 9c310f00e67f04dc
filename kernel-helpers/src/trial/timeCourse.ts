import type { Time } from "../quantity/dimension";
import { format } from "../quantity/format";
import { u } from "../quantity/u";
import {
  bootstrapBand,
  type BootstrapOptions,
  type CumulativeIncidence,
  cumulativeIncidence,
  eventShare,
  incidenceAt,
  kaplanMeier,
} from "../statistics";
import { checkLevel, checkNumber, refuse } from "../statistics/checks";
import { byRun, checkFish, type TrialFish } from "./fish";
import type { Outcome } from "./outcome";

/** A fish with the length of its run and the time of what it did; none for refused and inactive fish. */
export interface TimedFish extends TrialFish {
  readonly runDuration: Time;
  readonly outcomeTime?: Time | undefined;
}

/** An outcome that happens at a moment. */
export type TimedOutcome = "bypassed" | "rackPassed" | "impinged";

const timedOutcomes: readonly Outcome[] = ["bypassed", "rackPassed", "impinged"];

/** The share by one time. Undefined limits: nothing had happened yet. */
export interface ShareByTime {
  readonly time: Time;
  /** Fish still in their run without any outcome just before. */
  readonly atRisk: number;
  /** The cumulative incidence: the other ways out exclude this one. */
  readonly share: number;
  /** From drawing whole runs. */
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  /** As if all fish were independent. */
  readonly naiveLower: number | undefined;
  readonly naiveUpper: number | undefined;
  /** 1 − Kaplan–Meier with the other ways out as censored: the share if no fish could take them. */
  readonly otherWaysCensored: number;
}

/** How the share of fish with an outcome grows with time. */
export interface TimeCourse {
  readonly outcome: TimedOutcome;
  /** Of which fish the share is taken, in words. */
  readonly denominator: string;
  readonly fish: number;
  readonly runs: number;
  readonly level: number;
  readonly method: string;
  readonly shares: readonly ShareByTime[];
  readonly incidence: CumulativeIncidence;
}

/** How the share is followed. */
export interface TimeCourseOptions {
  /** "bypassed" unless given. */
  readonly outcome?: TimedOutcome;
  /** The times to give the share at: 41 even steps to the end of the longest run unless given. */
  readonly times?: readonly Time[];
  /** "active" fish as in the efficiencies unless given; "all" counts inactive fish too, as fish to which nothing happened. */
  readonly of?: "active" | "all";
  /** Seed of the band, which draws whole runs. */
  readonly seed: number;
  /** 500 unless given. */
  readonly resamples?: number;
  readonly level?: number;
}

/**
 * The share of fish with an outcome against the time since the release, with runs of any length.
 *
 * Returns at each time the cumulative incidence (Aalen–Johansen): passage through the rack and impingement exclude the
 * bypass, and the end of a run censors its refused fish. The band comes from drawing whole runs; beside it the limits for
 * independent fish and 1 − Kaplan–Meier, which takes the other ways out as censored and overstates the share. Inactive
 * fish are left out, so that the share ends at the guidance where all runs are as long; `of: "all"` counts them to the
 * end of their run, for the share of all fish released. Valid where the length of a run was not chosen by what its fish
 * did. Throws a RangeError where an outcome has no time, one after the end of its run, and where no fish has the outcome.
 *
 * @example
 * trial.timeCourse([{ runId: "R1", outcome: "bypassed", outcomeTime: u.min(5), runDuration: u.min(20) },
 *   { runId: "R2", outcome: "refused", runDuration: u.min(20) }],
 *   { times: [u.min(10)], seed: 1 }).shares[0].share // => 0.5
 */
export function timeCourse(fish: readonly TimedFish[], options: TimeCourseOptions): TimeCourse {
  const where = "trial.timeCourse";
  const { outcome = "bypassed", of = "active", seed, resamples = 500, level = 0.95 } = options;
  checkFish(where, fish);
  checkTimes(where, fish);
  checkLevel(where, level);
  if (!timedOutcomes.includes(outcome))
    refuse(where, `outcome is "${String(outcome)}"; it must be one of ${timedOutcomes.join(", ")}`);
  const counted = of === "all" ? fish : fish.filter((one) => one.outcome !== "inactive");
  if (!counted.some((one) => one.outcome === outcome))
    refuse(where, `no fish is ${outcome}; there is no share to follow`);
  const runs = [...byRun(counted).values()];
  const incidence = incidenceOf(counted, level);
  const longest = incidence.lastTime;
  const times = options.times ?? Array.from({ length: 41 }, (_, step) => u.s((step * longest) / 40));
  times.forEach((time, at) => {
    if (time >= 0 && time <= longest) return;
    refuse(
      where,
      `times[${at}] is ${minutes(time)}; it must be from 0 to ${minutes(longest)}, when the last fish was watched`,
    );
  });
  const ends = counted.map(endOf);
  const censoredElsewhere = kaplanMeier({
    times: ends,
    observed: counted.map((one) => one.outcome === outcome),
    level,
  });
  const band = bandOf(runs, outcome, times, { seed, resamples, level });
  return {
    outcome,
    denominator: of === "all" ? "all fish released" : "active fish (bypassed, rackPassed, refused, impinged)",
    fish: counted.length,
    runs: runs.length,
    level,
    method: `cumulative incidence (Aalen–Johansen); band from ${resamples} draws of whole runs, seed ${seed}`,
    shares: times.map((time, at) => {
      const { share, lower: naiveLower, upper: naiveUpper } = incidenceAt(incidence, outcome, time);
      return {
        time,
        atRisk: ends.filter((end) => end >= time).length,
        share,
        ...band[at],
        naiveLower,
        naiveUpper,
        otherWaysCensored: eventShare(censoredElsewhere, time).estimate,
      };
    }),
    incidence,
  };
}

const hasTime = ({ outcome }: TrialFish): boolean => timedOutcomes.includes(outcome);

const minutes = (time: number): string => format(u.s(time), "min", 4);

/** When a fish left the watch: at its outcome, or at the end of its run. */
const endOf = ({ outcomeTime, runDuration }: TimedFish): number => outcomeTime ?? runDuration;

function incidenceOf(fish: readonly TimedFish[], level: number): CumulativeIncidence {
  return cumulativeIncidence({
    times: fish.map(endOf),
    events: fish.map((one) => (hasTime(one) ? one.outcome : undefined)),
    level,
  });
}

/** One run, or a time before anything had happened, has no limits. */
function bandOf(
  runs: readonly (readonly TimedFish[])[],
  outcome: TimedOutcome,
  times: readonly Time[],
  options: BootstrapOptions & { readonly level: number },
): readonly Pick<ShareByTime, "lower" | "upper">[] {
  if (runs.length < 2) return times.map(() => ({ lower: undefined, upper: undefined }));
  const curve = (sample: readonly (readonly TimedFish[])[]): readonly number[] => {
    const fish = sample.flat();
    if (!fish.some(hasTime)) return times.map(() => 0);
    const incidence = incidenceOf(fish, options.level);
    // A draw of short runs alone says nothing of later times.
    return times.map((time) =>
      incidence.open && time > incidence.lastTime ? Number.NaN : incidenceAt(incidence, outcome, time).share,
    );
  };
  return bootstrapBand({ clusters: runs, curve, ...options }).map(({ lower, upper, estimate }) =>
    estimate > 0 ? { lower, upper } : { lower: undefined, upper: undefined },
  );
}

function checkTimes(where: string, fish: readonly TimedFish[]): void {
  fish.forEach(({ runId, outcome, outcomeTime, runDuration }, at) => {
    checkNumber(where, `runDuration of fish[${at}] (run ${runId}), in s,`, runDuration, { above: 0 });
    const timed = timedOutcomes.includes(outcome);
    if (timed !== (outcomeTime !== undefined)) {
      refuse(
        where,
        `fish[${at}] of run ${runId} is ${outcome} and has ${timed ? "no outcomeTime; give the time" : "an outcomeTime; leave it out"}`,
      );
    }
    if (outcomeTime === undefined || (outcomeTime >= 0 && outcomeTime <= runDuration * (1 + 1e-12))) return;
    refuse(
      where,
      `outcomeTime of fish[${at}] (run ${runId}) is ${minutes(outcomeTime)}; it must be from 0 to the end of the run at ${minutes(runDuration)}`,
    );
  });
}
