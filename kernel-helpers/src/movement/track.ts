import { time } from "../formula/input";
import type { Length, Time } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkOptions, refuse, refuseAll } from "./checks";
import { median } from "./median";

/** Where a fish was, and when: x along the flow, y across it, time from the release. */
export interface Position {
  readonly time: Time;
  readonly x: Length;
  readonly y: Length;
}

/** One row of the record of positions. */
export interface TrackRow extends Position {
  readonly fishId: string;
}

/** A time between two positions that is longer than the interval between pictures. */
export interface Gap {
  readonly from: Time;
  readonly to: Time;
  /** True where the way between is taken for known; false where the track is split. */
  readonly bridged: boolean;
}

/** The track of one fish: its positions, in pieces without a gap longer than the limit. */
export interface Track {
  readonly fishId: string;
  readonly positions: readonly Position[];
  readonly pieces: readonly (readonly Position[])[];
  /** Longest time between two positions that is bridged. */
  readonly gapLimit: Time;
  /** Median time from one position to the next; zero for a single position. */
  readonly interval: Time;
  readonly gaps: readonly Gap[];
  /** Sum of the gaps that are bridged, and of those that split the track. */
  readonly bridgedTime: Time;
  readonly unseenTime: Time;
}

/** What `tracks` takes beside the rows. */
export interface TrackOptions {
  /** Longest time between two positions that is bridged by a straight way; a longer one splits the track. */
  readonly gapLimit: Time;
}

/**
 * The tracks of all fish in a record of positions.
 *
 * Returns one track a fish, in the order in which the fish first appear. A time between two positions of up to `gapLimit`
 * is bridged by a straight way; a longer one splits the track, and nothing is claimed about the way between. Rows of
 * different fish may be mixed; those of one fish stand in order of time.
 * Throws a RangeError that lists every time that stands twice or before an earlier one and every value that is no number.
 *
 * @example
 * movement.tracks([{ fishId: "A", time: u.s(0), x: u.m(-2), y: u.m(0.5) },
 *   { fishId: "A", time: u.s(2), x: u.m(-1.5), y: u.m(0.5) },
 *   { fishId: "A", time: u.s(30), x: u.m(-1), y: u.m(0.6) }], { gapLimit: u.s(6) })[0].pieces.length // => 2
 */
export function tracks(rows: readonly TrackRow[], { gapLimit }: TrackOptions): readonly Track[] {
  const caller = "movement.tracks";
  checkGapLimit(caller, gapLimit);
  if (rows.length === 0) refuse(caller, "there are no rows; give a list of { fishId, time, x, y }");
  const byFish = new Map<string, Position[]>();
  const faults: string[] = [];
  rows.forEach(({ fishId, time: at, x, y }, index) => {
    const row = `row ${index + 1}`;
    if (typeof fishId !== "string" || fishId.trim() === "") {
      faults.push(`${row} has no fishId; it must name the fish`);
      return;
    }
    const fault = positionFault({ time: at, x, y });
    if (fault !== undefined) {
      faults.push(`${fishId}, ${row}: ${fault}`);
      return;
    }
    const positions = byFish.get(fishId);
    if (positions === undefined) {
      byFish.set(fishId, [{ time: at, x, y }]);
      return;
    }
    const order = orderFault(positions[positions.length - 1].time, at);
    if (order !== undefined) faults.push(`${fishId}, ${row}: ${order}`);
    positions.push({ time: at, x, y });
  });
  refuseAll(caller, faults);
  return Array.from(byFish, ([fishId, positions]) => assembled(fishId, positions, gapLimit));
}

/**
 * The track of one fish from its positions.
 *
 * Returns the same as `movement.tracks` does for one fish. Throws a RangeError for no positions, times that stand twice
 * or out of order, and values that are no numbers.
 *
 * @example
 * movement.trackOf("A", [{ time: u.s(0), x: u.m(-2), y: u.m(0.5) },
 *   { time: u.s(4), x: u.m(-1.5), y: u.m(0.5) }], { gapLimit: u.s(6) }).pieces.length // => 1
 */
export function trackOf(fishId: string, positions: readonly Position[], { gapLimit }: TrackOptions): Track {
  const caller = "movement.trackOf";
  checkGapLimit(caller, gapLimit);
  if (positions.length === 0) refuse(caller, `${fishId} has no positions; give a list of { time, x, y }`);
  const faults = positions.flatMap((position, index) => {
    const fault =
      positionFault(position) ??
      (index === 0 ? undefined : orderFault(positions[index - 1].time, position.time));
    return fault === undefined ? [] : [`${fishId}, position ${index + 1}: ${fault}`];
  });
  refuseAll(caller, faults);
  return assembled(fishId, positions, gapLimit);
}

function checkGapLimit(caller: string, gapLimit: Time): void {
  checkOptions(
    caller,
    { gapLimit: gapLimit ?? null },
    { gapLimit: time("\\Delta t", { above: 0, unit: "s" }) },
  );
}

function positionFault(position: Position): string | undefined {
  for (const name of ["time", "x", "y"] as const) {
    const value: unknown = position[name];
    const isNumber = typeof value === "number" && Number.isFinite(value);
    if (!isNumber) return `${name} is ${String(value)}; it must be a finite number`;
    if (name === "time" && value < 0) return `time is ${value} s; it must be at least 0 s`;
  }
  return undefined;
}

function orderFault(before: Time, at: Time): string | undefined {
  if (at > before) return undefined;
  return at === before
    ? `time ${at} s stands twice; keep one of the two rows`
    : `time ${at} s comes after ${before} s; sort the rows of a fish by time`;
}

function assembled(fishId: string, positions: readonly Position[], gapLimit: Time): Track {
  const steps = positions.slice(1).map(({ time: to }, index) => ({ from: positions[index].time, to }));
  const interval = median(steps.map(({ from, to }) => to - from)) ?? 0;
  const pieces: Position[][] = [[positions[0]]];
  steps.forEach(({ from, to }, index) => {
    if (to - from > gapLimit) pieces.push([]);
    pieces[pieces.length - 1].push(positions[index + 1]);
  });
  // A picture may come a little late without one being missing.
  const gaps = steps
    .filter(({ from, to }) => to - from > 1.5 * interval || to - from > gapLimit)
    .map(({ from, to }) => ({ from, to, bridged: to - from <= gapLimit }));
  const sum = (bridged: boolean) =>
    gaps.reduce((total, gap) => total + (gap.bridged === bridged ? gap.to - gap.from : 0), 0);
  return {
    fishId,
    positions: [...positions],
    pieces,
    gapLimit,
    interval: u.s(interval),
    gaps,
    bridgedTime: u.s(sum(true)),
    unseenTime: u.s(sum(false)),
  };
}
