import { figures, trial, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const fish = ["bypassed", "refused", "rackPassed", "bypassed", "bypassed", "inactive"].map((outcome, at) => ({
  runId: `R${Math.floor(at / 2)}`,
  cue: at < 4 ? "none" : "light",
  // A list of texts, each of which is an outcome.
  outcome: outcome as trial.Outcome,
}));
const groups = trial.efficiencies(fish, { by: "cue" });
const rows = groups.map(({ guidance }) => guidance);

describe("efficiencies", () => {
  const { data, alt } = figures.efficiencies({ share: "Guidance", rows });

  test("tells the two intervals apart by line and sign, not by colour alone", () => {
    const look = data.map(({ line, marker }) => [
      Reflect.get(Object(line), "dash"),
      Reflect.get(Object(marker), "symbol"),
    ]);
    expect(look).toEqual([
      [undefined, "circle"],
      ["dot", "square-open"],
    ]);
    expect(data.map(({ name }) => name)).toEqual([
      "runs as clusters, 95 %",
      "fish as if independent (naive)",
    ]);
  });

  test("says that one run has no interval of runs", () => {
    expect(alt).toContain("light: 100 %, no interval of runs (naive");
  });

  test("a group without fish in the denominator is named and has no dot", () => {
    const [none] = trial.efficiencies([{ runId: "R1", outcome: "inactive" as const }]);
    const drawn = figures.efficiencies({ share: "Guidance", rows: [none.guidance] });
    expect(drawn.alt).toContain("all fish: no fish in the denominator.");
    expect(drawn.data[0].x).toEqual([null, null, null, null]);
  });

  test("refuses no rows, and names that are not as many", () => {
    expect(() => figures.efficiencies({ share: "Guidance", rows: [] })).toThrow(
      "figures.efficiencies: rows is empty",
    );
    expect(() => figures.efficiencies({ share: "Guidance", rows, names: ["a"] })).toThrow(
      "figures.efficiencies: names has 1 values; it must have 2, one for each row.",
    );
  });
});

describe("outcomeShares", () => {
  test("stacks each group to all of its fish", () => {
    const { data } = figures.outcomeShares({ by: "Cue", groups });
    const sums = groups.map((_, at) =>
      data.reduce((sum, { y }) => sum + Number(Reflect.get(Object(y), at)), 0),
    );
    expect(sums).toEqual([expect.closeTo(100, 9), expect.closeTo(100, 9)]);
  });

  test("refuses names that are not as many as the groups", () => {
    expect(() => figures.outcomeShares({ by: "Cue", groups, names: [] })).toThrow(
      "names has 0 values; it must have 2",
    );
  });
});

describe("shareAgainstTime", () => {
  const timed = [5, 12, 18].map((minutes, at) => ({
    runId: `R${at}`,
    outcome: at === 1 ? ("rackPassed" as const) : ("bypassed" as const),
    outcomeTime: u.min(minutes),
    runDuration: u.min(20),
  }));
  const waiting = { runId: "R3", outcome: "refused" as const, runDuration: u.min(20) };
  const { shares } = trial.timeCourse([...timed, waiting], { seed: 1, resamples: 100 });

  test("puts the fish still waiting under the times", () => {
    const { layout } = figures.shareAgainstTime({
      share: "Share guided",
      courses: [{ name: "all", shares }],
    });
    const { xaxis } = layout;
    expect(Reflect.get(Object(xaxis), "ticktext")).toEqual([
      "0<br>4",
      "5<br>4",
      "10<br>3",
      "15<br>2",
      "20<br>1",
    ]);
  });

  test("draws the other reading dotted, and says what it would be", () => {
    const { data, alt } = figures.shareAgainstTime({
      share: "Share guided",
      courses: [{ name: "all", shares }],
      otherWaysCensored: true,
    });
    expect(Reflect.get(Object(data.at(-1)?.line), "dash")).toBe("dot");
    expect(alt).toMatch(/all: 50 % by 20 min.*With the other ways out as censored it would be 63 %\.$/);
  });

  test("refuses a course without shares", () => {
    expect(() =>
      figures.shareAgainstTime({ share: "Share", courses: [{ name: "none", shares: [] }] }),
    ).toThrow('figures.shareAgainstTime: course "none" is empty');
  });
});
