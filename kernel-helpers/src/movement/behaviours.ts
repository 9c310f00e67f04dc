import type { Length, Time, Velocity } from "../quantity/dimension";
import { u } from "../quantity/u";
import { approachesOf, closestDistance } from "./approaches";
import { refuse } from "./checks";
import { endingOf, type SeenOutcome } from "./ending";
import type { Flow } from "./flow";
import { checkedLimits, type Limits } from "./limits";
import { checkedRheotaxis, type RheotaxisOptions, type RheotaxisShares, rheotaxisShares } from "./rheotaxis";
import { checkSite, type Site } from "./site";
import { checkStepOptions, type Step, type StepOptions, stepsOf } from "./steps";
import type { Track } from "./track";

/** What one track says about a fish. Times count from the release. */
export interface Behaviour {
  readonly fishId: string;
  readonly outcome: SeenOutcome;
  /** When it passed, or came to the rack for the last time; undefined for refused and inactive fish. */
  readonly outcomeTime: Time | undefined;
  readonly firstSeen: Time;
  readonly lastSeen: Time;
  /** Time covered by the pieces of the track, and the time between them, in which nothing is known. */
  readonly watchedTime: Time;
  readonly unseenTime: Time;
  readonly bridgedGaps: number;
  /** Gaps over the limit. */
  readonly splits: number;
  /** Length of the way over ground in the watched time. */
  readonly pathLength: Length;
  /** Means over the watched time; through the water over the part of it with known flow. */
  readonly groundSpeed: Velocity | undefined;
  readonly swimmingSpeed: Velocity | undefined;
  /** Share of the time in which the flow was known where the fish was: what swimming speed and rheotaxis rest on. */
  readonly knownFlowShare: number | undefined;
  /** Shares of the time with known flow. */
  readonly rheotaxis: RheotaxisShares | undefined;
  readonly closestDistance: Length;
  readonly closestTo: "rack" | "bypass";
  readonly approaches: number;
  /** Seen time of all approaches. */
  readonly timeAtRack: Time;
  /** First position within the approach distance of rack or bypass. */
  readonly firstContact: Time | undefined;
  /** From first contact to the passage of the entrance; undefined where the track does not end in the bypass. */
  readonly contactToEntry: Time | undefined;
}

/** What `behaviours` takes beside the tracks. */
export interface BehaviourOptions extends Limits, RheotaxisOptions, StepOptions {
  readonly site: Site;
  /** The flow of each fish's run, where runs differ; in place of `flow`. */
  readonly flowOf?: (fishId: string) => Flow | undefined;
}

/**
 * What each track says about its fish: path, speeds, orientation to the flow, approaches, outcome.
 *
 * Returns one record a fish. Distances, the neutral band, the least swimming speed and the interval of the steps are
 * inputs (`movement.usualLimits`, `movement.usualRheotaxis` where not given). Path length and speeds depend on the interval:
 * errors of positions and small wanderings inflate them, see `movement.apparentSpeed`. Throws a RangeError for inputs
 * that are not allowed.
 *
 * @example
 * movement.behaviours(movement.tracks([{ fishId: "A", time: u.s(0), x: u.m(-2), y: u.m(0.7) },
 *   { fishId: "A", time: u.s(2), x: u.m(-1.5), y: u.m(0.7) }], { gapLimit: u.s(6) }),
 *   { site: movement.site({ rackAngle: u.deg(38), channelWidth: u.m(1.5), bypassWidth: u.m(0.2) }) })[0].groundSpeed
 *   // => 0.25 m/s
 */
export function behaviours(tracks: readonly Track[], options: BehaviourOptions): readonly Behaviour[] {
  const caller = "movement.behaviours";
  if (tracks.length === 0) refuse(caller, "there are no tracks; make them with movement.tracks");
  if (options.flow !== undefined && options.flowOf !== undefined) {
    refuse(caller, "flow and flowOf are both given; give the flow of all fish or that of each one");
  }
  checkSite(caller, options.site);
  checkStepOptions(caller, options);
  const limits = checkedLimits(caller, options);
  const rheotaxis = checkedRheotaxis(caller, options);
  return tracks.map((track) => {
    const flow = options.flowOf?.(track.fishId) ?? options.flow;
    const steps = stepsOf(track, { interval: options.interval, smoothing: options.smoothing, flow });
    return behaviourOf(track, steps, { site: options.site, limits, rheotaxis });
  });
}

interface Checked {
  readonly site: Site;
  readonly limits: Required<Limits>;
  readonly rheotaxis: Required<RheotaxisOptions>;
}

function behaviourOf(track: Track, steps: readonly Step[], { site, limits, rheotaxis }: Checked): Behaviour {
  const { outcome, outcomeTime, lastSeen } = endingOf(track, site, limits);
  const approaches = approachesOf(track, site, limits);
  const firstContact = approaches.at(0)?.from;
  const { closestDistance: closest, closestTo } = closestDistance(track, site);
  const isEntry = outcome === "bypassed" && outcomeTime !== undefined && firstContact !== undefined;
  return {
    fishId: track.fishId,
    outcome,
    outcomeTime,
    firstSeen: track.positions[0].time,
    lastSeen,
    watchedTime: u.s(sum(track.pieces, (piece) => piece[piece.length - 1].time - piece[0].time)),
    unseenTime: track.unseenTime,
    bridgedGaps: track.gaps.filter(({ bridged }) => bridged).length,
    splits: track.pieces.length - 1,
    pathLength: u.m(sum(steps, ({ distance }) => distance)),
    groundSpeed: meanSpeed(steps, ({ ground }) => ground.speed),
    swimmingSpeed: meanSpeed(steps, ({ swimming }) => swimming?.speed),
    knownFlowShare: shareOfTime(steps, ({ swimming }) => swimming !== undefined),
    rheotaxis: rheotaxisShares(steps, rheotaxis),
    closestDistance: closest,
    closestTo,
    approaches: approaches.length,
    timeAtRack: u.s(sum(approaches, ({ seenTime }) => seenTime)),
    firstContact,
    contactToEntry: isEntry ? u.s(outcomeTime - firstContact) : undefined,
  };
}

const sum = <T>(list: readonly T[], of: (one: T) => number): number =>
  list.reduce((total, one) => total + of(one), 0);

/** Mean over time of the steps with a speed; undefined without any. */
function meanSpeed(steps: readonly Step[], of: (step: Step) => number | undefined): Velocity | undefined {
  let [way, duration] = [0, 0];
  for (const step of steps) {
    const speed = of(step);
    if (speed === undefined) continue;
    way += speed * (step.to - step.from);
    duration += step.to - step.from;
  }
  return duration === 0 ? undefined : u.mps(way / duration);
}

const durationOf = ({ from, to }: Step): number => to - from;

function shareOfTime(steps: readonly Step[], counts: (step: Step) => boolean): number | undefined {
  return steps.length === 0 ? undefined : sum(steps.filter(counts), durationOf) / sum(steps, durationOf);
}
