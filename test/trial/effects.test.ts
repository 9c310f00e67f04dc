import { readRecords, statistics, trial, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const { rows } = await readRecords("trial-runs.csv", trial.runRecord);
type Fish = (typeof rows)[number];
const spacing = ({ clearSpacing }: Fish): number => u.to.mm(clearSpacing);
const levels = { cue: ["none", "light", "bubbles"] };

describe("regressionRows", () => {
  test("one row a fish in the denominator, with its run", () => {
    const { trials, runs, fishLeftOut, definition } = trial.regressionRows(rows, {
      efficiency: "guidance",
      terms: {},
    });
    expect(trials.every((one) => one === 1)).toBe(true);
    expect(trials.length + fishLeftOut).toBe(960);
    expect(new Set(runs).size).toBe(239);
    expect(definition).toContain("of all active fish");
  });

  test("per run the counts are those of runClusters; a number is the mean of the run's fish", () => {
    const byRun = trial.regressionRows(rows, {
      efficiency: "protection",
      terms: { cue: "cue", length: "totalLength" },
      per: "run",
    });
    const { clusters } = trial.runClusters(rows, "protection");
    expect(byRun.runs).toEqual(clusters.map(({ runId }) => runId));
    expect(byRun.successes).toEqual(clusters.map(({ successes }) => successes));
    const first = rows.filter((fish) => fish.runId === "R001" && fish.outcome !== "inactive");
    const mean = first.reduce((sum, fish) => sum + fish.totalLength, 0) / first.length;
    expect(byRun.terms.length[0]).toBeCloseTo(mean, 12);
  });

  test("refuses words that differ within a run, and an entry that is neither number nor word", () => {
    expect(() =>
      trial.regressionRows(rows, { efficiency: "guidance", terms: { fish: "fishId" }, per: "run" }),
    ).toThrow(
      "trial.regressionRows: fish differs between the fish of run R001 (R001-1, R001-2, R001-3, R001-4)",
    );
    expect(() =>
      trial.regressionRows(rows, { efficiency: "guidance", terms: { length: () => Number.NaN } }),
    ).toThrow("length of a fish of run R001 is NaN; it must be a finite number or a word");
  });
});

describe("fitEffects", () => {
  const fitted = trial.fitEffects(rows, {
    efficiency: "guidance",
    terms: { spacing, velocity: "approachVelocity", cue: "cue", species: "species" },
    levels,
  });

  const effect = (term: string) => fitted.effects.find((one) => one.term === term);

  test("wider spacing and faster water guide fewer fish of the demo trial, light more", () => {
    expect(effect("spacing")?.upper).toBeLessThan(0);
    expect(effect("velocity")?.upper).toBeLessThan(0);
    expect(effect("cue: light")?.lower).toBeGreaterThan(0);
    expect(effect("cue: bubbles")?.lower).toBeLessThan(0);
  });

  test("states fish, runs and those left out, with errors of runs beside those of independent fish", () => {
    expect(fitted).toMatchObject({ fish: 803, runs: 239, fishLeftOut: 157 });
    expect(fitted.method).toContain("cluster-robust errors of 239 clusters");
    const [, one] = fitted.effects;
    expect(one.naiveStandardError).toBe(fitted.naiveFit.coefficients[1].standardError);
    expect(one.standardError).toBe(fitted.fit.coefficients[1].standardError);
    expect(one.oddsRatio).toBeCloseTo(Math.exp(one.estimate), 12);
  });

  test("its fit gives the spacing at which half of the fish are guided, with the errors of runs", () => {
    const found = statistics.dose(fitted.fit, {
      response: 0.5,
      covariate: "spacing",
      at: { velocity: 0.45, cue: "none", species: "roach" },
    });
    expect(found.method).toContain("cluster-robust errors of 239 clusters");
    expect(found.lower).toBeLessThan(found.estimate);
    expect(found.estimate).toBeGreaterThan(10);
    expect(found.estimate).toBeLessThan(45);
  });

  test("a level in which every fish succeeded is named, with the remedy", () => {
    const protectedAll = rows
      .filter(({ species }) => species !== "burbot")
      .map((fish) => ({
        ...fish,
        outcome:
          fish.species === "perch" && fish.outcome !== "inactive" ? ("bypassed" as const) : fish.outcome,
      }));
    expect(() =>
      trial.fitEffects(protectedAll, { efficiency: "protection", terms: { species: "species" } }),
    ).toThrow(/perch.*separation.*merge levels/);
    const merged = trial.fitEffects(protectedAll, {
      efficiency: "protection",
      terms: { species: ({ species }) => (["perch", "ide"].includes(species) ? "perch or ide" : species) },
    });
    expect(merged.effects.map(({ term }) => term)).toContain("species: perch or ide");
  });

  test("warns where there are few runs", () => {
    const few = rows.filter(({ species, cue }) => species === "roach" && cue === "none");
    const { cautions, runs } = trial.fitEffects(few, { efficiency: "guidance", terms: { spacing } });
    expect(cautions).toEqual([`${runs} runs: errors from fewer than about 40 come out too small.`]);
  });

  test("a term that is the same for every fish is said to tell nothing", () => {
    const alike = rows.map((one) => ({ ...one, place: "flume" }));
    const { cautions } = trial.fitEffects(alike, {
      efficiency: "guidance",
      terms: { spacing, place: "place" },
    });
    expect(cautions).toContain("place is flume for every fish: it has no effect that could be seen.");
  });
});
