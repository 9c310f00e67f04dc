import { describe, expect, test } from "vitest";
import { movement, u } from "kernel-helpers";

const row = (fishId: string, time: number, x = 0, y = 0.5) => ({
  fishId,
  time: u.s(time),
  x: u.m(x),
  y: u.m(y),
});
const options = { gapLimit: u.s(6) };

describe("movement.tracks", () => {
  test("groups mixed rows by fish, in the order in which the fish appear", () => {
    const found = movement.tracks([row("B", 0), row("A", 1), row("B", 2), row("A", 3)], options);
    expect(found.map(({ fishId, positions }) => [fishId, positions.length])).toEqual([
      ["B", 2],
      ["A", 2],
    ]);
  });

  test("bridges a gap of just the limit and splits the track at a longer one", () => {
    const [track] = movement.tracks(
      [0, 2, 8, 10, 16.5, 18.5].map((time) => row("A", time)),
      options,
    );
    expect(track.pieces.map((piece) => piece.map(({ time }) => time))).toEqual([
      [0, 2, 8, 10],
      [16.5, 18.5],
    ]);
    expect(track.gaps).toEqual([
      { from: 2, to: 8, bridged: true },
      { from: 10, to: 16.5, bridged: false },
    ]);
    expect([track.interval, track.bridgedTime, track.unseenTime]).toEqual([2, 6, 6.5]);
  });

  test("refuses times that stand twice or out of order, all of them in one sentence", () => {
    const rows = [row("A", 0), row("A", 2), row("A", 2), row("B", 5), row("B", 3)];
    expect(() => movement.tracks(rows, options)).toThrow(
      "movement.tracks: A, row 3: time 2 s stands twice; keep one of the two rows; " +
        "B, row 5: time 3 s comes after 5 s; sort the rows of a fish by time.",
    );
  });

  test("lists the first twenty faults and counts the rest", () => {
    const rows = Array.from({ length: 30 }, (_, at) => row("A", 30 - at));
    expect(() => movement.tracks(rows, options)).toThrow(/; and 9 more\.$/);
  });

  test("refuses values that are no numbers, rows without a fish, and no rows", () => {
    expect(() => movement.tracks([{ ...row("A", 0), x: NaN as never }], options)).toThrow(
      "movement.tracks: A, row 1: x is NaN; it must be a finite number.",
    );
    expect(() => movement.tracks([row(" ", 0)], options)).toThrow("row 1 has no fishId");
    expect(() => movement.tracks([], options)).toThrow("there are no rows");
    expect(() => movement.tracks([{ ...row("A", 0), time: -1 as never }], options)).toThrow(
      "time is -1 s; it must be at least 0 s.",
    );
  });

  test("refuses a limit that is missing or not above 0 s", () => {
    expect(() => movement.tracks([row("A", 0)], { gapLimit: u.s(0) })).toThrow(
      "movement.tracks: gapLimit is 0 s; it must be above 0 s.",
    );
    expect(() => movement.tracks([row("A", 0)], {} as never)).toThrow("movement.tracks: gapLimit is");
  });

  test("one position is a track", () => {
    const [track] = movement.tracks([row("A", 4)], options);
    expect([track.pieces.length, track.interval, track.gaps.length]).toEqual([1, 0, 0]);
  });
});

test("movement.trackOf gives what movement.tracks gives for one fish, and refuses the same", () => {
  const rows = [0, 2, 20, 22].map((time) => row("A", time, time / 10));
  const positions = rows.map(({ time, x, y }) => ({ time, x, y }));
  expect(movement.trackOf("A", positions, options)).toEqual(movement.tracks(rows, options)[0]);
  expect(() => movement.trackOf("A", [positions[1], positions[0]], options)).toThrow(
    "movement.trackOf: A, position 2: time 0 s comes after 2 s; sort the rows of a fish by time.",
  );
});
