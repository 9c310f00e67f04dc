import { time } from "../formula/input";
import { format } from "../quantity/format";
import type { Time } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkOptions, refuse, refuseAll } from "./checks";
import { endingOf, type Ending, type SeenOutcome } from "./ending";
import { checkedLimits, type Limits } from "./limits";
import { checkSite, type Site } from "./site";
import type { Track } from "./track";

/** What the record of a trial says about a fish; a row of `trial.runRecord` is one. */
export interface RecordedFish {
  readonly fishId: string;
  readonly outcome: SeenOutcome;
  /** Undefined for refused and inactive fish. */
  readonly outcomeTime?: Time | undefined;
  readonly runDuration: Time;
}

/** What does not agree: the outcome, its time, a track past the end of the run or one that stops before it, no record. */
export type DisagreementKind = "outcome" | "outcomeTime" | "afterRunEnd" | "stopsEarly" | "noRecord";

/** One contradiction between record and track. */
export interface Disagreement {
  readonly fishId: string;
  readonly kind: DisagreementKind;
  /** What the record says, and what the track shows, in words with times. */
  readonly record: string;
  readonly track: string;
  readonly recordedTime: Time | undefined;
  /** Time of the outcome seen, or of the last picture. */
  readonly seenTime: Time;
}

/** Record and tracks, fish by fish. */
export interface RecordComparison {
  /** Fish with both a track and a record, and those of them without any disagreement. */
  readonly compared: number;
  readonly agreeing: number;
  readonly disagreements: readonly Disagreement[];
  /** Fish of the record that no camera followed: nothing is said about them. */
  readonly withoutTrack: readonly string[];
  readonly timeTolerance: Time;
  readonly limits: Required<Limits>;
}

/** What `compareWithRecords` takes beside tracks and record. */
export interface ComparisonOptions extends Limits {
  readonly site: Site;
  /** Longest time between the record and the track that still agrees. 30 s where not given. */
  readonly timeTolerance?: Time;
}

/**
 * Compares tracks with the record of a trial, fish by fish.
 *
 * Returns every disagreement: another outcome; the same outcome at another time; a track that goes on after the end of
 * the run; the track of a refused or inactive fish that stops before it, so that its end was not seen; a track without
 * record. A fish can stand in the list more than once. Neither side is taken for right, and a gap may
 * hide what happened. Throws a RangeError for a fish that stands twice among the records or the tracks.
 *
 * @example
 * movement.compareWithRecords(
 *   movement.tracks([{ fishId: "A", time: u.s(0), x: u.m(-1), y: u.m(0.7) },
 *     { fishId: "A", time: u.s(2), x: u.m(1.5), y: u.m(1.4) },
 *     { fishId: "A", time: u.s(4), x: u.m(1.8), y: u.m(1.4) }], { gapLimit: u.s(6) }),
 *   [{ fishId: "A", outcome: "refused", runDuration: u.min(20) }],
 *   { site: movement.site({ rackAngle: u.deg(38), channelWidth: u.m(1.5), bypassWidth: u.m(0.2) }) },
 * ).disagreements[0].track // => "bypassed at 0.0667 min"
 */
export function compareWithRecords(
  tracks: readonly Track[],
  fish: readonly RecordedFish[],
  options: ComparisonOptions,
): RecordComparison {
  const caller = "movement.compareWithRecords";
  checkSite(caller, options.site);
  const { timeTolerance = u.s(30) } = options;
  checkOptions(caller, { timeTolerance }, { timeTolerance: time("\\Delta t", { atLeast: 0, unit: "s" }) });
  const limits = checkedLimits(caller, options);
  refuseTwice(caller, "records", fish);
  refuseTwice(caller, "tracks", tracks);
  refuseAll(
    caller,
    fish.flatMap((one) => recordFault(one)),
  );
  const records = new Map(fish.map((one) => [one.fishId, one]));
  const tracked = new Set(tracks.map(({ fishId }) => fishId));
  const disagreements = tracks.flatMap((track): readonly Disagreement[] => {
    const end = endingOf(track, options.site, limits);
    const record = records.get(track.fishId);
    return record === undefined
      ? [unrecorded(track.fishId, end)]
      : contradictions(record, end, timeTolerance);
  });
  const faulty = new Set(disagreements.filter(({ kind }) => kind !== "noRecord").map(({ fishId }) => fishId));
  const compared = tracks.filter(({ fishId }) => records.has(fishId)).length;
  return {
    compared,
    agreeing: compared - faulty.size,
    disagreements,
    withoutTrack: fish.map(({ fishId }) => fishId).filter((fishId) => !tracked.has(fishId)),
    timeTolerance,
    limits,
  };
}

/** An outcome in the words of a list. */
const outcomeWords: Readonly<Record<SeenOutcome, string>> = {
  bypassed: "bypassed",
  rackPassed: "passed through the rack",
  refused: "refused",
  impinged: "impinged on the rack",
  inactive: "inactive",
};

const minutes = (at: Time): string => format(at, "min");

function contradictions(record: RecordedFish, end: Ending, tolerance: Time): readonly Disagreement[] {
  const seenTime = end.outcomeTime ?? end.lastSeen;
  const { fishId, outcomeTime: recordedTime } = record;
  const said =
    recordedTime === undefined
      ? `${outcomeWords[record.outcome]} in a run of ${minutes(record.runDuration)}`
      : `${outcomeWords[record.outcome]} at ${minutes(recordedTime)}`;
  const seen =
    end.outcomeTime === undefined
      ? `${outcomeWords[end.outcome]}, last seen at ${minutes(end.lastSeen)}`
      : `${outcomeWords[end.outcome]} ${end.passedUnseen ? "in a gap before" : "at"} ${minutes(end.outcomeTime)}`;
  const disagreement = (kind: DisagreementKind, track: string, at = seenTime): Disagreement => ({
    fishId,
    kind,
    record: said,
    track,
    recordedTime,
    seenTime: at,
  });
  const found: Disagreement[] = [];
  if (end.outcome !== record.outcome) found.push(disagreement("outcome", seen));
  else if (recordedTime !== undefined && end.outcomeTime !== undefined) {
    if (Math.abs(end.outcomeTime - recordedTime) > tolerance) found.push(disagreement("outcomeTime", seen));
  }
  const late = end.lastSeen - record.runDuration;
  if (late > tolerance) {
    const track = `goes on to ${minutes(end.lastSeen)}, past the end of the run at ${minutes(record.runDuration)}`;
    found.push(disagreement("afterRunEnd", track, end.lastSeen));
  }
  if (end.outcomeTime === undefined && -late > tolerance) {
    const track = `stops at ${minutes(end.lastSeen)}, before the end of the run at ${minutes(record.runDuration)}`;
    found.push(disagreement("stopsEarly", track, end.lastSeen));
  }
  return found;
}

function unrecorded(fishId: string, end: Ending): Disagreement {
  return {
    fishId,
    kind: "noRecord",
    record: "no such fish",
    track: `${outcomeWords[end.outcome]}, last seen at ${minutes(end.lastSeen)}`,
    recordedTime: undefined,
    seenTime: end.outcomeTime ?? end.lastSeen,
  };
}

function recordFault({ fishId, outcome, outcomeTime, runDuration }: RecordedFish): readonly string[] {
  const allowed = Object.keys(outcomeWords);
  return [
    ...(allowed.includes(outcome)
      ? []
      : [`${fishId} has outcome ${JSON.stringify(outcome)}; the outcomes are ${allowed.join(", ")}`]),
    ...(Number.isFinite(runDuration) && runDuration > 0
      ? []
      : [`${fishId} has runDuration ${String(runDuration)} s; it must be above 0 s`]),
    ...(outcomeTime === undefined || (Number.isFinite(outcomeTime) && outcomeTime >= 0)
      ? []
      : [`${fishId} has outcomeTime ${String(outcomeTime)} s; it must be at least 0 s, or left out`]),
  ];
}

function refuseTwice(caller: string, where: string, list: readonly { readonly fishId: string }[]): void {
  const seen = new Set<string>();
  for (const { fishId } of list) {
    if (seen.has(fishId)) refuse(caller, `${fishId} stands twice among the ${where}; keep one of the two`);
    seen.add(fishId);
  }
}
