import { describe, expect, test } from "vitest";
import { figures, type movement, u } from "kernel-helpers";
import { site, trackThrough } from "../movement/site";

const { fishPaths } = figures;

const knownUpstream: movement.Flow = (x) => (x > 1 ? undefined : { alongFlow: 0.3, across: 0 });

const bypassing = trackThrough([
  [0, -1, 0.7],
  [2, 0.2, 1],
  [4, 0.3, 1.2],
  [60, 1.5, 1.4],
  [62, 1.8, 1.4],
]);
const staying = trackThrough([
  [0, -3, 0.5],
  [2, -2, 0.5],
]);

/** The traces of a figure that hold lines, as their points. */
const drawnLines = (spec: ReturnType<typeof fishPaths>) =>
  spec.data
    .filter(({ mode, showlegend }) => mode === "lines" && showlegend === false)
    .map(({ x }) => x as (number | null)[]);

describe("fishPaths", () => {
  test("draws a path from picture to picture, with a gap where the track is split", () => {
    expect(drawnLines(fishPaths({ site, tracks: [bypassing] }))).toEqual([[-1, 0.2, 0.3, null, 1.5, 1.8]]);
  });

  test("tells outcomes apart by dash and marker, not by colour alone", () => {
    const through = trackThrough([
      [0, 0.5, 0.7],
      [2, 1, 0.5],
    ]);
    const held = trackThrough([
      [0, 0, 0.7],
      [2, 0.83, 0.66],
    ]);
    const refusing = trackThrough([
      [0, 0.5, 0.7],
      [2, -1, 0.5],
    ]);
    const { data } = fishPaths({ site, tracks: [bypassing, through, held, refusing, staying] });
    const entries = data.filter(({ name }) => name !== undefined);
    expect(entries.map(({ name }) => name)).toEqual([
      "bypassed (1)",
      "passed through the rack (1)",
      "refused (1)",
      "impinged (1)",
      "inactive (1)",
    ]);
    const looks = entries.map(({ line, marker }) =>
      [Reflect.get(Object(line), "dash"), Reflect.get(Object(marker), "symbol")].join(" "),
    );
    expect(new Set(looks).size).toBe(5);
  });

  test("a straight way needs no places between, and a fish out of the view says so", () => {
    const straight = trackThrough(Array.from({ length: 30 }, (_, at) => [2 * at, -3 + at / 10, 0.7]));
    expect(drawnLines(fishPaths({ site, tracks: [straight] }))).toEqual([[-3, -0.1]]);
    const { data } = fishPaths({ site, tracks: [bypassing, staying], from: u.m(-1) });
    expect(data.map(({ name }) => name)).toContain("inactive (1, outside the view)");
  });

  test("says what it shows, with the range of the speeds", () => {
    expect(fishPaths({ site, tracks: [bypassing], flow: knownUpstream }).alt).toBe(
      "Paths of 1 fish in plan over the speed of the water, 0.3 m/s everywhere: 1 bypassed. " +
        "The rack stands from (0, 0) m to (1.66, 1.3) m, the bypass entrance from there to (1.66, 1.5) m.",
    );
    expect(fishPaths({ site, tracks: [bypassing] }).caption).toBe(
      "Paths are interrupted where a fish was not seen for more than 6 s.",
    );
  });

  test("has no map where the flow is known nowhere", () => {
    const spec = fishPaths({ site, tracks: [bypassing], flow: () => undefined });
    expect(spec.data.filter(({ type }) => type === "contour")).toEqual([]);
    expect(spec.alt).not.toContain("speed of the water");
  });

  test("refuses no tracks and a view that begins beyond the rack's start", () => {
    expect(() => fishPaths({ site, tracks: [] })).toThrow("figures.fishPaths: tracks is empty");
    expect(() => fishPaths({ site, tracks: [bypassing], from: u.m(1) })).toThrow(
      "figures.fishPaths: from is 1 m; it must be at most 0 m, where the rack starts.",
    );
  });
});
