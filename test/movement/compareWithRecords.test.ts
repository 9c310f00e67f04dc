import { describe, expect, test } from "vitest";
import { movement, readRecords, trial, u } from "kernel-helpers";
import {
  fishTracksCsv,
  fishTracksTruth,
  trackDisagreements,
  trackedFish,
} from "../../data-demo/generators/fish-tracks";
import { site, trackThrough } from "./site";

// As a notebook reads them.
const tracks = movement.tracks((await readRecords("fish-tracks.csv", movement.trackRecord)).rows, {
  gapLimit: u.s(8),
});
const fish = (await readRecords("trial-runs.csv", trial.runRecord)).rows;

describe("the demo tracks and the record of the trial", () => {
  const comparison = movement.compareWithRecords(tracks, fish, { site });

  test("every planted disagreement is found, and no other", () => {
    expect(comparison.disagreements.map(({ fishId }) => fishId)).toEqual(
      trackDisagreements().map(({ fishId }) => fishId),
    );
    expect(comparison).toMatchObject({ compared: 40, agreeing: 33, timeTolerance: 30 });
    expect(comparison.withoutTrack).toHaveLength(920);
  });

  test("each is of the kind that was planted", () => {
    expect(comparison.disagreements.map(({ fishId, kind }) => `${fishId} ${kind}`)).toEqual([
      "R023-4 outcome",
      "R036-3 outcome",
      "R073-1 outcome",
      "R093-4 outcomeTime",
      "R103-1 afterRunEnd",
      "R192-3 outcome",
      "R223-3 outcome",
    ]);
    expect(comparison.disagreements[3]).toMatchObject({
      record: "bypassed at 3.4 min",
      recordedTime: 204,
    });
    expect(comparison.disagreements[4].track).toBe("goes on to 26 min, past the end of the run at 20 min");
  });

  test.each([10, 20, 60, 120])("and the list is the same at a tolerance of %i s", (seconds) => {
    const { disagreements } = movement.compareWithRecords(tracks, fish, {
      site,
      timeTolerance: u.s(seconds),
    });
    expect(disagreements).toEqual(comparison.disagreements);
  });

  test("every track shows the outcome that happened", () => {
    const happened = trackedFish().map(({ record, seen }) => [record.fishId, seen]);
    expect(tracks.map((track) => [track.fishId, movement.ending(track, site).outcome])).toEqual(happened);
  });
});

describe("tracks of other seeds, with the same seven kinds of disagreement", () => {
  test.each([1, 2, 3, 4, 5, 6, 7, 8, 9, 10])("seed %i: all are found, and nothing else", (nth) => {
    const truth = { ...fishTracksTruth, seed: 100 * nth };
    const rows = fishTracksCsv(truth)
      .trimEnd()
      .split("\n")
      .slice(1)
      .map((line) => line.split(","))
      .map(([fishId, time, x, y]) => ({
        fishId,
        time: u.s(Number(time)),
        x: u.m(Number(x)),
        y: u.m(Number(y)),
      }));
    const seen = movement.tracks(rows, { gapLimit: u.s(8) });
    const { disagreements } = movement.compareWithRecords(seen, fish, { site });
    const planted = trackDisagreements(truth).map(({ fishId }) => fishId);
    expect(planted).toHaveLength(7);
    expect(disagreements.map(({ fishId }) => fishId)).toEqual(planted);
  });
});

describe("movement.compareWithRecords", () => {
  const bypassing = trackThrough([
    [0, -1, 0.7],
    [2, 1.5, 1.4],
    [4, 1.8, 1.4],
  ]);
  const compared = (record: Partial<movement.RecordedFish>, options = {}) =>
    movement.compareWithRecords(
      [bypassing],
      [{ fishId: "A", outcome: "bypassed", outcomeTime: u.s(4), runDuration: u.min(20), ...record }],
      { site, ...options },
    ).disagreements;

  test("has nothing to list where record and track agree", () => {
    expect(compared({})).toEqual([]);
  });

  test("holds a time to the tolerance, just reached and passed", () => {
    expect(compared({ outcomeTime: u.s(14) }, { timeTolerance: u.s(10) })).toEqual([]);
    expect(compared({ outcomeTime: u.s(15) }, { timeTolerance: u.s(10) })).toMatchObject([
      { kind: "outcomeTime", recordedTime: 15, seenTime: 4 },
    ]);
  });

  test("lists a track without record, and counts it not as compared", () => {
    const result = movement.compareWithRecords([bypassing], [], { site });
    expect(result).toMatchObject({
      compared: 0,
      agreeing: 0,
      disagreements: [{ fishId: "A", kind: "noRecord" }],
    });
  });

  test("lists a refused fish whose track stops before the end of the run", () => {
    const lost = trackThrough([
      [0, -1, 0.7],
      [2, -0.5, 0.7],
    ]);
    const record = { fishId: "A", outcome: "refused", runDuration: u.min(20) } as const;
    expect(movement.compareWithRecords([lost], [record], { site }).disagreements).toMatchObject([
      { kind: "stopsEarly", track: "stops at 0.0333 min, before the end of the run at 20 min" },
    ]);
  });

  test("says that a passage fell into a gap", () => {
    const unseen = trackThrough([
      [0, 1.4, 1.4],
      [60, 1.8, 1.4],
    ]);
    const record = { fishId: "A", outcome: "refused", runDuration: u.min(1) } as const;
    expect(movement.compareWithRecords([unseen], [record], { site }).disagreements[0].track).toBe(
      "bypassed in a gap before 1 min",
    );
  });

  test("refuses fish that stand twice, and records that can't be", () => {
    const record = { fishId: "A", outcome: "refused", runDuration: u.min(20) } as const;
    expect(() => movement.compareWithRecords([bypassing], [record, record], { site })).toThrow(
      "movement.compareWithRecords: A stands twice among the records; keep one of the two.",
    );
    expect(() => movement.compareWithRecords([bypassing, bypassing], [record], { site })).toThrow(
      "A stands twice among the tracks",
    );
    expect(() => compared({ outcome: "escaped" as never })).toThrow(
      'A has outcome "escaped"; the outcomes are bypassed, rackPassed, refused, impinged, inactive.',
    );
    expect(() => compared({ runDuration: u.s(0) })).toThrow("A has runDuration 0 s; it must be above 0 s.");
    expect(() => compared({}, { timeTolerance: u.s(-1) })).toThrow("timeTolerance is -1 s");
  });
});
