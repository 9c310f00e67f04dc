import * as fc from "fast-check";
import { trial, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const small = {
  factors: { clearSpacing: [u.mm(12), u.mm(18)], cue: ["none", "light", "bubbles"] },
  replicates: 4,
  fishPerRun: 4,
  runsPerDay: 7,
  batches: [
    { name: "roach-1", fish: 80 },
    { name: "roach-2", fish: 80 },
  ],
  controls: [{ name: "no rack", per: "day", runs: 1 }],
  seed: 1,
} as const;

/** Factors with two to four levels each. */
const anyFactors = fc
  .array(fc.integer({ min: 2, max: 4 }), { minLength: 1, maxLength: 3 })
  .map((counts) =>
    Object.fromEntries(
      counts.map((count, at) => [
        `factor${at}`,
        Array.from({ length: count }, (_, level) => `level${level}`),
      ]),
    ),
  );

const anyPlan = fc
  .record({
    factors: anyFactors,
    replicates: fc.integer({ min: 1, max: 5 }),
    runsPerDay: fc.integer({ min: 2, max: 9 }),
    batches: fc.integer({ min: 1, max: 2 }),
    perDay: fc.integer({ min: 0, max: 1 }),
    perBatch: fc.integer({ min: 0, max: 2 }),
    seed: fc.nat(),
  })
  .map(({ batches, perDay, perBatch, ...rest }) => ({
    ...rest,
    fishPerRun: 4,
    batches: Array.from({ length: batches }, (_, at) => ({ name: `batch ${at + 1}`, fish: 1000 })),
    controls: [
      ...(perDay > 0 ? [{ name: "no rack", per: "day" as const, runs: perDay }] : []),
      ...(perBatch > 0 ? [{ name: "handled only", per: "batch" as const, runs: perBatch }] : []),
    ],
  }));

const order = (seed: number) =>
  trial.plan({ ...small, seed }).runs.map((run) => [run.clearSpacing, run.cue, run.control]);

describe("trial.plan", () => {
  it("makes every condition as often as there are replicates, and every control as often as asked", () => {
    fc.assert(
      fc.property(anyPlan, (options) => {
        const made = trial.plan(options);
        const names = Object.keys(options.factors);
        const counts = new Map<string, number>();
        for (const run of made.runs.filter((one) => one.control === undefined)) {
          const condition = names.map((name) => run[name]).join(" / ");
          counts.set(condition, (counts.get(condition) ?? 0) + 1);
        }
        expect(counts.size).toBe(made.conditions);
        expect(new Set(counts.values())).toEqual(new Set([options.replicates]));
        for (const { name, per, runs } of options.controls) {
          const blocks = per === "day" ? made.days : options.batches.length;
          expect(made.runs.filter((run) => run.control === name)).toHaveLength(runs * blocks);
        }
      }),
      { numRuns: 60 },
    );
  });

  it("keeps to the runs of a day, starts a batch on a new day and numbers runs and places through", () => {
    fc.assert(
      fc.property(anyPlan, (options) => {
        const { runs, days } = trial.plan(options);
        for (let day = 1; day <= days; day++) {
          const own = runs.filter((run) => run.day === day);
          expect(own.length).toBeLessThanOrEqual(options.runsPerDay);
          expect(new Set(own.map((run) => run.batch)).size).toBe(1);
          expect(own.map((run) => run.place)).toEqual(own.map((_, at) => at + 1));
        }
        expect(new Set(runs.map((run) => run.runId)).size).toBe(runs.length);
        expect(runs.map((run) => run.day)).toEqual(runs.map((run) => run.day).toSorted((a, b) => a - b));
      }),
      { numRuns: 60 },
    );
  });

  it("gives batches whole replicates where there are enough, so that levels are even in them", () => {
    fc.assert(
      fc.property(
        anyPlan.filter((options) => options.replicates >= options.batches.length),
        (options) => {
          const ofBatches = trial.plan(options).balance.filter((one) => one.block === "batch");
          expect(ofBatches.map((one) => one.largestDifference)).toEqual(ofBatches.map(() => 0));
        },
      ),
      { numRuns: 60 },
    );
  });

  it("evens every level out within days as far as numbers of runs allow, in 98 of 100 plans at least", () => {
    const plans = fc.sample(anyPlan, { numRuns: 100, seed: 1 }).map((options) => trial.plan(options));
    const uneven = plans.filter((made) => made.balance.some((one) => one.block === "day" && !one.even));
    expect(uneven.length).toBeLessThanOrEqual(2);
    for (const made of uneven) expect(made.cautions.join(" ")).toMatch(/differ by \d runs? in a day/);
  });

  it("is more even within days than runs in random order would be", () => {
    const { runs, factors } = trial.plan({ ...small, controls: [] });
    const [, , byDay] = trial.balance(factors, runs);
    const sorted = runs.toSorted((a, b) => Number(a.clearSpacing) - Number(b.clearSpacing));
    const unplanned = sorted.map((run, at) => ({ ...run, day: runs[at].day, batch: runs[at].batch }));
    expect(byDay.largestDifference).toBeLessThanOrEqual(1);
    expect(trial.balance(factors, unplanned)[2].largestDifference).toBeGreaterThan(3);
  });

  it("is the same for the same seed and another for another", () => {
    expect(order(1)).toEqual(order(1));
    expect(order(1)).not.toEqual(order(2));
  });

  it("puts every level at every place of the day about as often, over many seeds", () => {
    const first = Array.from(
      { length: 300 },
      (_, seed) => trial.plan({ ...small, controls: [], seed }).runs[0],
    );
    const light = first.filter((run) => run.cue === "light").length;
    expect(light).toBeGreaterThan(70);
    expect(light).toBeLessThan(130);
    const narrow = first.filter((run) => run.clearSpacing === u.mm(12)).length;
    expect(narrow).toBeGreaterThan(115);
    expect(narrow).toBeLessThan(185);
  });

  it("gives controls no level and no replicate", () => {
    const controls = trial.plan(small).runs.filter((run) => run.control === "no rack");
    expect(controls.length).toBeGreaterThan(0);
    for (const run of controls)
      expect([run.clearSpacing, run.cue, run.replicate]).toEqual([undefined, undefined, undefined]);
  });

  it("says where a day can't hold all conditions and where replicates don't divide over batches", () => {
    expect(trial.plan({ ...small, runsPerDay: 4 }).notes.join(" ")).toContain("days are incomplete blocks");
    expect(trial.plan(small).notes).toContain("A day can hold every condition.");
    expect(trial.plan({ ...small, replicates: 3 }).notes.join(" ")).toContain("do not divide over 2 batches");
    expect(trial.plan({ ...small, replicates: 1 }).notes.join(" ")).toContain("partly mixed up");
    expect(trial.plan({ ...small, replicates: 1 }).cautions.join(" ")).toContain("One replicate");
    expect(trial.plan({ ...small, controls: [] }).cautions.join(" ")).toContain("No controls are planned");
  });

  it("carries exclusion rules and welfare points, and defers to local law", () => {
    const made = trial.plan(small);
    expect(made.exclusionRules).toBe(trial.usualExclusionRules);
    expect(made.welfare.map((one) => one.topic)).toEqual(
      expect.arrayContaining(["Permit", "Ethics approval", "Humane end points", "Anaesthesia", "Reduction"]),
    );
    expect(made.cautions.at(-1)).toMatch(/local law and licensed practice decide/);
    const own = [
      { about: "run", rule: "pump failed", decidedBy: "operator", decidedAt: "end of the run" },
    ] as const;
    expect(trial.plan({ ...small, exclusionRules: own }).exclusionRules).toBe(own);
  });
});

describe("the fish of a plan", () => {
  const { controls: _none, ...rest } = small;
  const plain = { ...rest, runsPerDay: 6 };
  const reuse = (times: number, restDays: number) =>
    trial.plan({ ...plain, reuse: { times, restDays } }).fish[0].needed;

  it("are each used once: runs times fish a run, and the spare ones", () => {
    const [first] = trial.plan({ ...plain, spareShare: 0.25 }).fish;
    expect([first.runs, first.handled, first.needed, first.missing]).toEqual([12, 48, 60, 0]);
    expect(first.sentence).toBe(
      "Batch roach-1 needs 60 fish (12 runs, each fish once, 12 of them spare) and has 80: 20 are left.",
    );
  });

  it("that are missing are a caution, in a sentence with the remedies", () => {
    const batches = [{ name: "few", fish: 40 }];
    const made = trial.plan({ ...plain, batches });
    expect(made.cautions[0]).toBe(
      "Batch few needs 96 fish (24 runs, each fish once) and has 40: 56 too few. " +
        "Fewer replicates, fewer fish a run or another delivery would do.",
    );
  });

  it("that swim again are fewer, but never fewer than those of the days between two swims", () => {
    // Two days of six runs of four a batch.
    expect(reuse(2, 0)).toBe(24);
    expect(reuse(3, 0)).toBe(24);
    expect(reuse(2, 1)).toBe(48);
  });

  it("that swim again are called pseudo-replication", () => {
    expect(trial.plan({ ...plain, reuse: { times: 2, restDays: 1 } }).cautions.join(" ")).toContain(
      "pseudo-replication",
    );
  });
});

describe("trial.plan refuses", () => {
  it.each([
    [{ factors: {} }, "factors is empty; a plan needs at least one factor"],
    [{ factors: { cue: ["none"] } }, "factor cue has 1 levels; it needs at least 2"],
    [{ factors: { cue: ["none", "none"] } }, "factor cue has the level none twice"],
    [
      { factors: { day: ["a", "b"] } },
      'a factor is named "day", as a column of the plan is; call it otherwise',
    ],
    [{ replicates: 0 }, "replicates is 0; it must be a whole number from 1 to 1000"],
    [{ fishPerRun: 2.5 }, "fishPerRun is 2.5; it must be a whole number from 1 to 1000"],
    [{ runsPerDay: 1 }, "runsPerDay is 1 and the controls take 1 of them; no run of the factorial fits in"],
    [{ batches: [] }, "batches is empty; fish come in at least one batch"],
    [
      {
        batches: [
          { name: "a", fish: 1 },
          { name: "a", fish: 1 },
        ],
      },
      'two batches are named "a"; each needs a name of its own',
    ],
    [
      { batches: [{ name: "a", fish: -1 }] },
      "batches[0].fish is -1; it must be a whole number of at least 0",
    ],
    [{ reuse: { times: 1, restDays: 1 } }, "reuse.times is 1; it must be a whole number from 2 to 100"],
    [
      { exclusionRules: [] },
      "exclusionRules is empty; write at least one rule before the first run, even if it never applies",
    ],
    [
      { exclusionRules: [{ about: "run" as const, rule: "x", decidedBy: " ", decidedAt: "y" }] },
      "exclusionRules[0].decidedBy is empty; say it before the first run",
    ],
    [{ seed: 1.5 }, "seed is 1.5; it must be a whole number from 0 to 4294967295"],
  ])("%o", (change, sentence) => {
    const attempt = () => trial.plan({ ...small, ...change });
    expect(attempt).toThrow(RangeError);
    expect(attempt).toThrow(`trial.plan: ${sentence}.`);
  });
});
