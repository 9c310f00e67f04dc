import { describe, expect, it } from "vitest";
import { fishTracksTruth, trackDisagreements } from "../../data-demo/generators/fish-tracks";
import { distanceToRack, trackFlume as flume, upstreamOfRack } from "../../data-demo/generators/track-flume";
import { demoRows } from "./files";
import { groupsBy, mean } from "./numbers";

const pictures = demoRows("fish-tracks.csv").map((row) => ({
  fishId: row.fishId,
  time: Number(row["time [s]"]),
  x: Number(row["x [m]"]),
  y: Number(row["y [m]"]),
}));
type Picture = (typeof pictures)[number];
const tracks = groupsBy(pictures, ({ fishId }) => fishId);
const trial = new Map(demoRows("trial-runs.csv").map((row) => [row.fishId, row]));

/** What a track shows by itself: where its last picture lies, and how near to the rack it came. */
function outcomeSeen(track: readonly Picture[]): string {
  const last = track[track.length - 1];
  if (last.x > flume.rackEnd && last.y > flume.rackWidth) return "bypassed";
  if (!upstreamOfRack(flume, last)) return "rackPassed";
  if (distanceToRack(flume, last) < 0.025) return "impinged";
  return Math.min(...track.map((picture) => distanceToRack(flume, picture))) > 1 ? "inactive" : "refused";
}

/** What speaks against the trial's record, if anything does. */
function contradiction(fishId: string, track: readonly Picture[]): string | undefined {
  const record = trial.get(fishId);
  if (record === undefined) return "no such fish";
  const seen = outcomeSeen(track);
  if (seen !== record.outcome) return `${record.outcome} recorded, ${seen} seen`;
  const last = track[track.length - 1].time / 60;
  if (last > Number(record["runDuration [min]"]) + 0.1) return "after the end of the run";
  const time = record["outcomeTime [min]"];
  return time !== "" && Math.abs(last - Number(time)) > 0.5 ? "another time" : undefined;
}

describe("fish-tracks.csv", () => {
  it("has 40 tracks of fish of the trial, in order of fish and time, at whole picture intervals", () => {
    expect(tracks.size).toBe(40);
    expect([...tracks.keys()].filter((fishId) => !trial.has(fishId))).toEqual([]);
    expect([...tracks.keys()]).toEqual([...tracks.keys()].toSorted());
    for (const track of tracks.values()) {
      const steps = track.slice(1).map(({ time }, index) => time - track[index].time);
      expect(Math.min(...steps)).toBeGreaterThanOrEqual(fishTracksTruth.interval);
      expect(steps.filter((step) => step % fishTracksTruth.interval !== 0)).toEqual([]);
    }
  });

  it("contradicts the trial's records for the planted fish and for no other", () => {
    const found = [...tracks].filter(([fishId, track]) => contradiction(fishId, track) !== undefined);
    expect(found.map(([fishId]) => fishId)).toEqual(trackDisagreements().map(({ fishId }) => fishId));
    expect(found).toHaveLength(7);
  });

  it("shows for each planted fish the outcome that the list says", () => {
    for (const { fishId, seen } of trackDisagreements()) {
      expect({ fishId, seen: outcomeSeen(tracks.get(fishId) ?? []) }).toEqual({ fishId, seen });
    }
  });

  it("shows every outcome of the trial", () => {
    const seen = new Set([...tracks.values()].map(outcomeSeen));
    expect([...seen].toSorted()).toEqual(["bypassed", "impinged", "inactive", "rackPassed", "refused"]);
  });

  it("has gaps, none longer than stated, in most tracks", () => {
    const longest = [...tracks.values()].map((track) =>
      Math.max(
        ...track.slice(1).map(({ time, x }, index) => {
          // Where the fish swims out of the view and comes back, it is no gap of the cameras.
          const edge = Math.min(x, track[index].x) < fishTracksTruth.viewFrom + 0.5;
          return edge ? 0 : time - track[index].time;
        }),
      ),
    );
    expect(longest.filter((gap) => gap > fishTracksTruth.interval).length).toBeGreaterThan(25);
    // Two gaps may run into one another; a third is not seen.
    expect(Math.max(...longest)).toBeLessThanOrEqual(
      2 * fishTracksTruth.longestGap + 2 * fishTracksTruth.interval,
    );
  });

  it("keeps every fish between the walls, in view, and upstream of the rack until it passes", () => {
    for (const track of tracks.values()) {
      const before = track.slice(0, -4);
      expect(Math.min(...track.map(({ x }) => x))).toBeGreaterThanOrEqual(fishTracksTruth.viewFrom);
      expect(before.filter(({ y }) => y < 0 || y > flume.width)).toEqual([]);
      expect(before.filter((picture) => !upstreamOfRack(flume, picture))).toEqual([]);
    }
  });

  it("moves at speeds over ground that fish can have", () => {
    const speeds = [...tracks.values()].flatMap((track) =>
      track
        .slice(1)
        .map(
          ({ x, y, time }, index) =>
            Math.hypot(x - track[index].x, y - track[index].y) / (time - track[index].time),
        ),
    );
    expect(Math.max(...speeds)).toBeLessThan(1);
    expect(mean(speeds)).toBeGreaterThan(0.02);
  });
});

describe("the flume of the tracks", () => {
  it("measures the distance from the rack square to it, and from its ends beyond them", () => {
    expect(distanceToRack(flume, { x: -3, y: -4 })).toBeCloseTo(5, 12);
    const middle = { x: flume.rackEnd / 2, y: flume.rackWidth / 2 };
    const off = { x: middle.x - 0.4 * Math.sin(flume.angle), y: middle.y + 0.4 * Math.cos(flume.angle) };
    expect(distanceToRack(flume, off)).toBeCloseTo(0.4, 12);
    expect(upstreamOfRack(flume, off)).toBe(true);
    expect(upstreamOfRack(flume, { x: 1, y: 0.1 })).toBe(false);
  });
});
