import { trial, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { collectOutputs } from "../emitted";

const run = { fishPerRun: 4, intraclassCorrelation: 0.1, inactiveShare: 0.15, seed: 8 };
const factors = { clearSpacing: [u.mm(12), u.mm(18)], cue: ["none", "light"] } as const;

/** A plan by hand: for each run batch, day, spacing and cue. */
const inHand = (
  rows: readonly (readonly [string, number, 12 | 18, "none" | "light"])[],
): readonly trial.PlannedRun<typeof factors>[] =>
  rows.map(([batch, day, spacing, cue], at) => ({
    runId: `R${at}`,
    batch,
    day,
    place: 1,
    control: undefined,
    replicate: 1,
    fish: 4,
    clearSpacing: factors.clearSpacing[spacing === 12 ? 0 : 1],
    cue,
  }));

describe("exercises of notebook 08", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");

  test("08.1 asks for runs, takes the rule of thumb and follows the likeness", () => {
    const asked = { ...run, share: 0.6, halfWidth: 0.05 };
    // By hand: 1.96² · 0.24 · 1.255/0.05² = 463 active fish, 136.1 runs of 3.4.
    exercise("08.1", asked, 136);
    expect(verdict()).toContain("✓");
    exercise("08.1", asked, 463);
    expect(verdict()).toContain("Hint");
    // 1.96² · 0.24 · 1.765/0.05² = 651, 191.4 runs.
    exercise("08.1", { ...asked, intraclassCorrelation: 0.3 }, 191);
    expect(verdict()).toContain("✓");
  });

  test("08.2 asks for the factor with the larger design effect, not 1/√2", () => {
    const asked = { fishPerRun: 4, activeShare: 0.85, intraclassCorrelation: 0.1 };
    exercise("08.2", asked, Math.sqrt(1.595 / 2.51));
    expect(verdict()).toContain("✓");
    exercise("08.2", asked, Math.SQRT1_2);
    expect(verdict()).toContain("Hint");
    exercise("08.2", { ...asked, intraclassCorrelation: 0 }, Math.SQRT1_2);
    expect(verdict()).toContain("✓");
  });

  test("08.3 reads the least even day", () => {
    const runs = inHand([
      ["a", 1, 12, "none"],
      ["a", 1, 18, "none"],
      ["a", 1, 12, "none"],
      ["a", 2, 18, "light"],
      ["a", 2, 12, "none"],
    ]);
    exercise("08.3", { factors, runs }, 3);
    expect(verdict()).toContain("✓");
    exercise("08.3", { factors, runs }, 1);
    expect(verdict()).toContain("Hint");
  });

  test("08.4 names what can't be told apart, the batch before its days", () => {
    const byBatch = inHand([
      ["a", 1, 12, "none"],
      ["a", 2, 12, "light"],
      ["a", 2, 12, "none"],
      ["b", 3, 18, "light"],
    ]);
    exercise("08.4", { factors, runs: byBatch }, "clear spacing and batch are mixed up");
    expect(verdict()).toContain("✓");
    exercise("08.4", { factors, runs: byBatch }, "cue and day are mixed up");
    expect(verdict()).toContain("Hint");
    const byDay = inHand([
      ["a", 1, 12, "none"],
      ["a", 1, 18, "none"],
      ["a", 2, 12, "light"],
      ["a", 2, 18, "light"],
    ]);
    exercise("08.4", { factors, runs: byDay }, "cue and day are mixed up");
    expect(verdict()).toContain("✓");
    const { runs } = trial.plan({
      factors,
      replicates: 2,
      fishPerRun: 4,
      runsPerDay: 4,
      batches: [{ name: "a", fish: 99 }],
      seed: 1,
    });
    exercise("08.4", { factors, runs }, "none of these");
    expect(verdict()).toContain("✓");
  });

  test("08.5 asks for the gain, not the share, and follows the permit", () => {
    const asked = { ...run, share: 0.5, power: 0.8, permittedFish: 240 };
    // Normal approximation with 30 runs: 102 active fish over 1.255 are 81.3; 0.5 against 0.713 has a power of 0.80.
    exercise("08.5", asked, 0.213);
    expect(verdict()).toContain("✓");
    exercise("08.5", asked, 0.713);
    expect(verdict()).toContain("Hint");
    const { higher = 0 } = trial.detectableDifference({ ...run, share: 0.5, power: 0.8, runs: 60 });
    exercise("08.5", { ...asked, permittedFish: 480 }, higher - 0.5);
    expect(verdict()).toContain("✓");
  });
});
