import { statistics, trial, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

/** Fish of one run, named by their outcomes. */
const run = (runId: string, outcomes: readonly trial.Outcome[], more: object = {}) =>
  outcomes.map((outcome) => ({ runId, outcome, cue: "none", ...more }));

const fish = [
  ...run("R1", ["bypassed", "bypassed", "refused", "inactive"]),
  ...run("R2", ["rackPassed", "impinged", "bypassed", "refused"]),
  ...run("R3", ["inactive", "inactive"]),
];

describe("efficiencies", () => {
  const [all] = trial.efficiencies(fish);

  test("counts every outcome and keeps inactive fish apart", () => {
    expect(all).toMatchObject({
      group: "all fish",
      runs: 3,
      fish: 10,
      bypassed: 3,
      rackPassed: 1,
      refused: 2,
      impinged: 1,
      active: 7,
      inactive: 3,
      runsWithoutActive: 1,
    });
  });

  test("gives each efficiency its own denominator, in words", () => {
    expect(all.guidance).toMatchObject({ successes: 3, trials: 7, estimate: 3 / 7 });
    expect(all.protection).toMatchObject({ successes: 5, trials: 7, estimate: 5 / 7 });
    expect(all.guidanceOfPassed).toMatchObject({ successes: 3, trials: 4, estimate: 3 / 4 });
    expect(all.guidance.definition).toBe(
      "bypassed of all active fish (bypassed, rackPassed, refused, impinged)",
    );
    expect(all.guidanceOfPassed.definition).toBe("bypassed of the fish that passed (bypassed, rackPassed)");
  });

  test("an impinged fish is active and not protected", () => {
    const [one] = trial.efficiencies(run("R1", ["impinged"]));
    expect(one.active).toBe(1);
    expect(one.protection.estimate).toBe(0);
  });

  test("a run without an active fish leaves the denominator and is counted", () => {
    expect(all.guidance).toMatchObject({ runs: 2, runsLeftOut: 1 });
  });

  test("the interval takes runs as clusters; the naive one beside it takes fish as independent, and says so", () => {
    const clusters = [
      { successes: 2, trials: 3 },
      { successes: 1, trials: 4 },
    ];
    const clustered = statistics.clusteredInterval({ clusters });
    const naive = statistics.proportionInterval({ successes: 3, trials: 7 });
    expect(all.guidance).toMatchObject({ lower: clustered.lower, upper: clustered.upper });
    expect(all.guidance).toMatchObject({ naiveLower: naive.lower, naiveUpper: naive.upper });
    expect(all.guidance.method).toContain("runs as clusters");
    expect(all.guidance.naiveMethod).toBe("fish as if independent: wilson");
  });

  test("one run has no interval but the naive one, and no active fish no share; both are said", () => {
    const [one] = trial.efficiencies(run("R1", ["bypassed", "refused"]));
    expect(one.guidance.lower).toBeUndefined();
    expect(one.guidance.naiveLower).toBeGreaterThan(0);
    expect(one.guidance.cautions).toEqual([
      expect.stringContaining("One run tells nothing about the spread"),
    ]);
    const [none] = trial.efficiencies(run("R1", ["inactive"]));
    expect(none.guidance.estimate).toBeUndefined();
    expect(none.guidance.cautions).toEqual(["No fish is in the denominator: there is no share."]);
  });

  test("groups by a column, by several and by a function, in order of appearance", () => {
    const two = [...fish, ...run("R4", ["bypassed"], { cue: "light", spacing: 0.018 })].map((one) => ({
      spacing: 0.012,
      ...one,
    }));
    expect(trial.efficiencies(two, { by: "cue" }).map(({ group }) => group)).toEqual(["none", "light"]);
    expect(trial.efficiencies(two, { by: ["cue", "spacing"] }).map(({ group }) => group)).toEqual([
      "none, 0.012",
      "light, 0.018",
    ]);
    expect(trial.efficiencies(two, { by: ({ runId }) => runId }).map(({ fish: many }) => many)).toEqual([
      4, 4, 2, 1,
    ]);
  });

  test("groups named by numbers come in their order", () => {
    const spaced = [18, 40, 12].flatMap((spacing, at) => run(`R${at}`, ["bypassed"], { spacing }));
    const withSpacing = spaced.map((one) => ({ spacing: 0, ...one }));
    expect(
      trial.efficiencies(withSpacing, { by: ({ spacing }) => `${spacing} mm` }).map(({ group }) => group),
    ).toEqual(["12 mm", "18 mm", "40 mm"]);
  });

  test("takes the method of the naive interval and the level", () => {
    const [one] = trial.efficiencies(fish, { method: "clopperPearson", level: 0.9 });
    const exact = statistics.proportionInterval({
      successes: 3,
      trials: 7,
      method: "clopperPearson",
      level: 0.9,
    });
    expect(one.guidance).toMatchObject({ naiveLower: exact.lower, naiveUpper: exact.upper, level: 0.9 });
  });

  test("states the distance of whoever recorded the outcomes, or that it is not known", () => {
    const [stated] = trial.efficiencies(fish, { recordedWithin: u.m(1) });
    expect(stated.guidance.activity).toBe("active: as recorded, within 1 m of rack or bypass");
    expect(all.guidance.activity).toBe("active: as recorded, at a distance that is not stated");
  });

  test("refuses no fish, an outcome that is none and a column that is not there", () => {
    expect(() => trial.efficiencies([])).toThrow(
      "trial.efficiencies: there are no fish; give one record for each.",
    );
    const noList: unknown = { rows: fish };
    expect(() => trial.efficiencies(noList as typeof fish)).toThrow(
      "trial.efficiencies: the fish are no list",
    );
    const guided: string = "guided";
    expect(() => trial.efficiencies([{ runId: "R1", outcome: guided as trial.Outcome }])).toThrow(
      'outcome of fish[0] is "guided"; it must be one of bypassed, rackPassed, refused, impinged, inactive.',
    );
    expect(() => trial.efficiencies(fish, { by: "closestDistance" as "cue" })).toThrow(
      "fish[0] has no closestDistance to group by; its columns are runId, outcome, cue.",
    );
  });
});

describe("decideActivity", () => {
  const followed = [
    { runId: "R1", outcome: "refused" as const, closestDistance: u.m(0.8) },
    { runId: "R1", outcome: "inactive" as const, closestDistance: u.m(1.4) },
    { runId: "R2", outcome: "rackPassed" as const, closestDistance: u.m(0.9) },
    { runId: "R2", outcome: "refused" as const },
  ];

  test("a fish that took neither way is refused within the distance and inactive beyond it", () => {
    const near = trial.decideActivity(followed, { distance: u.m(0.5) });
    expect(near.fish.map(({ outcome }) => outcome)).toEqual([
      "inactive",
      "inactive",
      "rackPassed",
      "refused",
    ]);
    const far = trial.decideActivity(followed, { distance: u.m(1.5) });
    expect(far.fish.map(({ outcome }) => outcome)).toEqual(["refused", "refused", "rackPassed", "refused"]);
    expect(far.changed).toEqual([
      { index: 1, runId: "R1", closestDistance: u.m(1.4), was: "inactive", now: "refused" },
    ]);
  });

  test("fish without a closest distance keep what was recorded, and are counted in words", () => {
    const { asRecorded, activity } = trial.decideActivity(followed, { distance: u.m(0.5) });
    expect(asRecorded).toBe(1);
    expect(activity).toBe(
      "active: came within 0.5 m of rack or bypass, by the closest distance at which it was seen; " +
        "1 refused or inactive fish without one as they were recorded",
    );
  });

  test("a larger distance never lowers the number of active fish, and so never raises guidance", () => {
    const guidance = [0.2, 0.8, 1, 1.4, 3].map(
      (distance) => trial.efficiencies(followed, { activeWithin: u.m(distance) })[0].guidance.trials,
    );
    expect(guidance).toEqual(guidance.toSorted((a, b) => a - b));
    expect(new Set(guidance).size).toBe(3);
  });

  test("refuses records that carry no distance at all", () => {
    expect(() => trial.efficiencies(fish, { activeWithin: u.m(1) })).toThrow("no fish has a closestDistance");
  });
});

describe("runClusters", () => {
  test("counts run by run and names the runs without a fish in the denominator", () => {
    expect(trial.runClusters(fish, "guidanceOfPassed")).toEqual({
      definition: "bypassed of the fish that passed (bypassed, rackPassed)",
      clusters: [
        { runId: "R1", successes: 2, trials: 2 },
        { runId: "R2", successes: 1, trials: 2 },
      ],
      runsLeftOut: ["R3"],
    });
  });

  test("refuses an efficiency that is none", () => {
    const other: string = "success";
    expect(() => trial.runClusters(fish, other as trial.EfficiencyName)).toThrow(
      'efficiency is "success"; it must be one of guidance, protection, guidanceOfPassed.',
    );
  });
});
