import { csvText } from "./csv";
import { poisson } from "./counts";
import { type Draws, seededDraws } from "./random";
import { distanceToRack, type Point, type TrackFlume, trackFlume, upstreamOfRack } from "./track-flume";
import type { Outcome } from "./trial-law";
import { type TrialFish, trialFish } from "./trial-runs";

/** The true parameters of `fish-tracks.csv`, beside the flume's. */
export interface FishTracksTruth {
  readonly seed: number;
  /** Seconds between two pictures. */
  readonly interval: number;
  /** The cameras see no farther upstream, m. */
  readonly viewFrom: number;
  /** A fish released is at this x, m. */
  readonly releaseAt: number;
  /** Mean number of approaches to the rack before the last one. */
  readonly approaches: number;
  /** Standard deviation of a fish about its way, m, and its correlation from picture to picture. */
  readonly wander: number;
  readonly wanderPersistence: number;
  readonly positionError: number;
  /** Chance that a gap begins at a picture; gaps last from the shortest to the longest, s. */
  readonly dropoutShare: number;
  readonly shortestGap: number;
  readonly longestGap: number;
}

export const fishTracksTruth: FishTracksTruth = {
  seed: 6301,
  interval: 2,
  viewFrom: -4,
  releaseAt: -6,
  approaches: 1.2,
  wander: 0.07,
  wanderPersistence: 0.8,
  positionError: 0.01,
  dropoutShare: 0.012,
  shortestGap: 4,
  longestGap: 30,
};

/** Tracked fish of each outcome of the trial. */
const tracked: readonly (readonly [Outcome, number])[] = [
  ["bypassed", 14],
  ["rackPassed", 10],
  ["refused", 9],
  ["impinged", 3],
  ["inactive", 4],
];

/** A track that contradicts the record of the trial: what the cameras saw, and when. */
export interface Disagreement {
  readonly fishId: string;
  readonly seen: Outcome;
  /** Minutes from the release to the last picture. */
  readonly seenTime: number;
  readonly note: string;
}

/** What the cameras saw where the record says otherwise: n-th tracked fish of an outcome, outcome seen, minutes later. */
const planted: readonly (readonly [
  recorded: Outcome,
  nth: number,
  seen: Outcome,
  later: number,
  note: string,
])[] = [
  ["bypassed", 2, "rackPassed", 0, "recorded as bypassed; the track goes through the rack"],
  ["bypassed", 7, "bypassed", 4, "the bypass entered four minutes later than recorded"],
  ["rackPassed", 4, "bypassed", 0, "recorded as passed through the rack; the track goes into the bypass"],
  ["refused", 1, "bypassed", 0, "recorded as refused; the track goes into the bypass"],
  ["refused", 5, "inactive", 0, "recorded as refused; the track stays more than 1 m from rack and bypass"],
  ["refused", 7, "refused", 6, "the track goes on for six minutes after the end of the run"],
  ["inactive", 2, "refused", 0, "recorded as inactive; the track comes to the rack"],
];

/** One fish before the cameras: the record, and what happened. */
export interface TrackedFish {
  readonly record: TrialFish;
  readonly seen: Outcome;
  /** Seconds from the release to the outcome seen, or to the last picture. */
  readonly end: number;
  readonly note?: string;
}

/** Returns the tracked fish in the order of the trial. */
export function trackedFish(truth: FishTracksTruth = fishTracksTruth): TrackedFish[] {
  const draws = seededDraws(truth.seed);
  const all = trialFish();
  const chosen = tracked.flatMap(([outcome, count]) => {
    const candidates = all.filter((fish) => fish.outcome === outcome && suits(fish));
    return Array.from({ length: count }, (_, nth) => {
      const [record] = candidates.splice(draws.integer(0, candidates.length - 1), 1);
      const error = planted.find(([recorded, place]) => recorded === outcome && place === nth);
      const time = record.outcomeTime ?? (error?.[2] === "bypassed" ? 12.5 : record.runDuration);
      return {
        record,
        seen: error?.[2] ?? outcome,
        end: 60 * (Number(time.toFixed(1)) + (error?.[3] ?? 0)),
        note: error?.[4],
      };
    });
  });
  return chosen.toSorted((one, other) => (one.record.fishId < other.record.fishId ? -1 : 1));
}

/** Returns what the README lists: the tracks that contradict the trial's record. */
export function trackDisagreements(truth: FishTracksTruth = fishTracksTruth): Disagreement[] {
  return trackedFish(truth).flatMap(({ record, seen, end, note }) =>
    note === undefined ? [] : [{ fishId: record.fishId, seen, seenTime: end / 60, note }],
  );
}

/** Returns `fish-tracks.csv` as text, one row a picture in which the fish was found. */
export function fishTracksCsv(
  truth: FishTracksTruth = fishTracksTruth,
  flume: TrackFlume = trackFlume,
): string {
  const rows = trackedFish(truth).flatMap((fish, index) => {
    const draws = seededDraws(truth.seed + 1 + index);
    return positions(truth, flume, fish, draws).map(({ time, x, y }) => [
      fish.record.fishId,
      String(time),
      x.toFixed(3),
      y.toFixed(3),
    ]);
  });
  return csvText(["fishId", "time [s]", "x [m]", "y [m]"], rows);
}

/** Short enough for a track of a size to look at, long enough to be seen at all. */
function suits({ outcomeTime, runDuration }: TrialFish): boolean {
  return outcomeTime === undefined ? runDuration === 20 : outcomeTime > 2 && outcomeTime < 15;
}

interface Waypoint extends Point {
  readonly time: number;
}

function positions(truth: FishTracksTruth, flume: TrackFlume, fish: TrackedFish, draws: Draws): Waypoint[] {
  // The last picture shows the end of the way.
  const last = Math.floor(fish.end / truth.interval) * truth.interval;
  const way = waypoints(truth, flume, { ...fish, end: last }, draws);
  const keep = Math.sqrt(1 - truth.wanderPersistence ** 2);
  let aside: Point = { x: 0, y: 0 };
  let gapUntil = -1;
  const seen: Waypoint[] = [];
  for (let time = 0; time <= last; time += truth.interval) {
    aside = {
      x: truth.wanderPersistence * aside.x + draws.normal(0, truth.wander * keep),
      y: truth.wanderPersistence * aside.y + draws.normal(0, truth.wander * keep),
    };
    const error = { x: draws.normal(0, truth.positionError), y: draws.normal(0, truth.positionError) };
    const dropsOut = draws.uniform() < truth.dropoutShare;
    const gap = draws.integer(truth.shortestGap, truth.longestGap);
    // The cameras are set up for the outcome: no gap in the first or the last seconds before it.
    if (dropsOut && time + gap < last - 20) gapUntil = Math.max(gapUntil, time + gap);
    const final = time > last - 3 * truth.interval && fish.seen !== "refused" && fish.seen !== "inactive";
    const point = at(way, time);
    const there = final
      ? point
      : keptUpstream(flume, fish.seen, { x: point.x + aside.x + error.x, y: point.y + aside.y + error.y });
    if (there.x >= truth.viewFrom && time > gapUntil) seen.push({ time, ...there });
  }
  return seen;
}

/** The way of a fish: it sets out, comes to the rack and turns away again some times, and ends as its outcome says. */
function waypoints(
  truth: FishTracksTruth,
  flume: TrackFlume,
  { seen, end }: TrackedFish,
  draws: Draws,
): Waypoint[] {
  const middle = () => flume.width * (0.25 + 0.5 * draws.uniform());
  const release = { time: 0, x: truth.releaseAt, y: middle() };
  if (seen === "inactive") {
    const stays = Array.from({ length: 8 }, (_, index) => ({
      time: (end * (index + 1)) / 8,
      x: -1.7 - 2.2 * draws.uniform(),
      y: middle(),
    }));
    return [release, ...stays];
  }
  const tries = poisson(draws, truth.approaches) + (seen === "refused" ? 1 : 0);
  const visits = Array.from({ length: tries }, () => [
    nearRack(flume, 0.1 + 0.75 * draws.uniform(), 0.12),
    { x: -1 - 1.8 * draws.uniform(), y: middle() },
  ]).flat();
  const stops = [...visits, ...ending(truth, flume, seen, draws)];
  // It sets out after a while; the rest of the time is shared among the stops, the last leg being a quick one.
  const start = end * (0.1 + 0.4 * draws.uniform());
  const arrive = { time: start, x: truth.releaseAt + 1, y: middle() };
  const quick = Math.min(20, (end - start) / 4);
  const slow = stops.length - 1;
  const timed = stops.map((stop, index) => ({
    ...stop,
    time: index === slow ? end : start + ((end - start - quick) * (index + 1)) / slow,
  }));
  return [release, arrive, ...timed];
}

/** The last stops: upstream, in the bypass, on the rack or behind it. */
function ending(truth: FishTracksTruth, flume: TrackFlume, seen: Outcome, draws: Draws): Point[] {
  const along = 0.15 + 0.7 * draws.uniform();
  const before = nearRack(flume, along, 0.15);
  if (seen === "bypassed") {
    const entranceMiddle = (flume.rackWidth + flume.width) / 2;
    return [before, { x: flume.rackEnd + 0.15, y: entranceMiddle }];
  }
  if (seen === "rackPassed") return [before, nearRack(flume, along, -0.15)];
  if (seen === "impinged") return [before, nearRack(flume, along, 0.02)];
  return [before, { x: truth.viewFrom + 1 + draws.uniform(), y: flume.width / 2 }];
}

/** A point at a share of the rack's length from its upstream end, so far upstream of it. */
function nearRack(flume: TrackFlume, along: number, distance: number): Point {
  const x = along * flume.rackEnd - distance * Math.sin(flume.angle);
  return { x, y: along * flume.rackWidth + distance * Math.cos(flume.angle) };
}

/** Puts a wandering fish back between the walls and upstream of the rack; inactive fish also more than 1 m from it. */
function keptUpstream(flume: TrackFlume, seen: Outcome, point: Point): Point {
  const margin = 0.03;
  const y = Math.min(Math.max(point.y, margin), flume.width - margin);
  if (seen === "inactive") return { x: Math.min(point.x, -1.3), y };
  const x = Math.min(point.x, flume.rackEnd - margin);
  const inside = { x, y };
  const distance = distanceToRack(flume, inside);
  if (upstreamOfRack(flume, inside) && distance >= margin) return inside;
  const back = upstreamOfRack(flume, inside) ? margin - distance : margin + distance;
  // Upstream along the flow, so that no wall is met.
  return { x: x - back / Math.sin(flume.angle), y };
}

function at(way: readonly Waypoint[], time: number): Point {
  const next = way.findIndex((stop) => stop.time >= time);
  if (next <= 0) return next === 0 ? way[0] : way[way.length - 1];
  const [from, to] = [way[next - 1], way[next]];
  const share = (time - from.time) / (to.time - from.time);
  return { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) };
}
