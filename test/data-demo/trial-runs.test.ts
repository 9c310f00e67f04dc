import { protection } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { speciesNamed } from "../../data-demo/generators/fish-measurements";
import { trialRamp } from "../../data-demo/generators/trial-law";
import { trialFish, trialRunsCsv, trialSpecies, trialTruth } from "../../data-demo/generators/trial-runs";
import { demoRows } from "./files";
import { groupsBy, mean } from "./numbers";

const fish = demoRows("trial-runs.csv").map((row) => ({
  runId: row.runId,
  fishId: row.fishId,
  date: row.date,
  batch: row.batch,
  species: row.species,
  totalLength: Number(row["totalLength [mm]"]),
  clearSpacing: Number(row["clearSpacing [mm]"]),
  approachVelocity: Number(row["approachVelocity [m/s]"]),
  cue: row.cue,
  runDuration: Number(row["runDuration [min]"]),
  outcome: row.outcome,
  outcomeTime: row["outcomeTime [min]"] === "" ? undefined : Number(row["outcomeTime [min]"]),
  conditions: Object.entries(row)
    .filter(([column]) => !/^(fishId|totalLength|outcome)/.test(column))
    .map(([, cell]) => cell)
    .join(),
}));
type Fish = (typeof fish)[number];

function relativeDimension(
  { species, totalLength, clearSpacing }: Fish,
  dimension: "width" | "height",
): number {
  return (speciesNamed(species)[`${dimension}Ratio`] * totalLength) / clearSpacing;
}

function met(one: Fish): number {
  return relativeDimension(one, speciesNamed(one.species).turnsOnSide ? "width" : "height");
}

const runs = groupsBy(fish, ({ runId }) => runId);
const active = fish.filter(({ outcome }) => outcome !== "inactive");
const open = active.filter((one) => met(one) > trialTruth.threshold && met(one) < 1);

function heldBack({ outcome }: { readonly outcome: string }): number {
  return outcome === "rackPassed" ? 0 : 1;
}

function shareHeld(group: readonly { readonly outcome: string }[]): number {
  return mean(group.map(heldBack));
}

function logitHeld(group: readonly { readonly outcome: string }[]): number {
  const share = shareHeld(group);
  return Math.log(share / (1 - share));
}

function refusedShare(group: readonly { readonly outcome: string }[]): number {
  return group.filter(({ outcome }) => outcome === "refused").length / group.length;
}

/** What a fish did, less what the ramp says of it. */
function leftover(one: Fish): number {
  return heldBack(one) - trialRamp(trialTruth, met(one));
}

/** The planned conditions of each row that follow the water's. */
function plan(csv: string): string[] {
  return csv.split("\n").map((row) => row.split(",").slice(9, 12).join());
}

/** A guided share with its binomial variance and the variance between runs, as for a ratio of two run totals. */
function guided(cue: string) {
  const ofCue = active.filter((one) => one.cue === cue);
  const perRun = [...groupsBy(ofCue, ({ runId }) => runId).values()].map((group) => ({
    count: group.length,
    guided: group.filter(({ outcome }) => outcome === "bypassed").length,
  }));
  const share = ofCue.filter(({ outcome }) => outcome === "bypassed").length / ofCue.length;
  const squares = perRun.reduce((sum, run) => sum + (run.guided - run.count * share) ** 2, 0);
  return {
    share,
    count: ofCue.length,
    binomial: (share * (1 - share)) / ofCue.length,
    betweenRuns: ((perRun.length / (perRun.length - 1)) * squares) / ofCue.length ** 2,
  };
}

describe("trial-runs.csv", () => {
  it("has 240 runs of four fish, each fish with its own id", () => {
    expect(runs.size).toBe(240);
    expect(new Set([...runs.values()].map((group) => group.length))).toEqual(new Set([4]));
    expect(new Set(fish.map(({ fishId }) => fishId)).size).toBe(960);
  });

  it("keeps one set of conditions for all fish of a run", () => {
    for (const group of runs.values())
      expect(new Set(group.map(({ conditions }) => conditions)).size).toBe(1);
  });

  it("gives each species ten runs at each spacing, five of them with a cue", () => {
    const first = [...runs.values()].map(([one]) => one);
    for (const species of trialSpecies) {
      for (const spacing of [12, 18, 25, 40]) {
        const cell = first.filter((run) => run.species === species && run.clearSpacing === spacing);
        expect(cell).toHaveLength(10);
        expect(cell.filter(({ cue }) => cue === "none")).toHaveLength(5);
      }
    }
    const cues = groupsBy(first, ({ cue }) => cue);
    expect(cues.get("light")).toHaveLength(60);
    expect(cues.get("bubbles")).toHaveLength(60);
  });

  it("has a time, within the run, exactly where the fish took a route or was impinged", () => {
    for (const { fishId, outcome, outcomeTime, runDuration } of fish) {
      const timed = ["bypassed", "rackPassed", "impinged"].includes(outcome);
      expect({ fishId, timed: outcomeTime !== undefined }).toEqual({ fishId, timed });
      expect(outcomeTime ?? 0).toBeLessThanOrEqual(runDuration);
    }
  });

  it("has fish of all five outcomes", () => {
    const counts = Object.fromEntries(
      [...groupsBy(fish, ({ outcome }) => outcome)].map(([outcome, group]) => [outcome, group.length]),
    );
    expect(Object.keys(counts).toSorted()).toEqual([
      "bypassed",
      "impinged",
      "inactive",
      "rackPassed",
      "refused",
    ]);
    for (const count of Object.values(counts)) expect(count).toBeGreaterThanOrEqual(5);
  });

  it("lets no fish through a gap smaller than the dimension that it meets it with", () => {
    const blocked = active.filter((one) => met(one) >= 1);
    expect(blocked.length).toBeGreaterThan(200);
    expect(blocked.filter(({ outcome }) => outcome === "rackPassed")).toEqual([]);
  });

  it("shows perch that meet the gap with their height: the ramp of the height fits them better than that of the width", () => {
    const perch = active.filter(({ species }) => species === "perch");
    const loglikelihood = (dimension: "width" | "height") =>
      perch.reduce((sum, one) => {
        // A little give, so that a single fish cannot make either law impossible.
        const share = 0.01 + 0.98 * trialRamp(trialTruth, relativeDimension(one, dimension));
        return sum + Math.log(heldBack(one) === 1 ? share : 1 - share);
      }, 0);
    expect(loglikelihood("height") - loglikelihood("width")).toBeGreaterThan(10);
  });

  it("has silver eels that go through the rack more than the curve says, and other fish that do not", () => {
    const plain = open.filter(({ cue }) => cue !== "light");
    expect(mean(plain.filter(({ species }) => species === "silver eel").map(leftover))).toBeLessThan(-0.1);
    expect(
      Math.abs(mean(plain.filter(({ species }) => species !== "silver eel").map(leftover))),
    ).toBeLessThan(0.07);
  });

  it("has fish of one run that are not independent: variance between runs well above the binomial", () => {
    const pairs = [...groupsBy(open, ({ runId }) => runId).values()].flatMap((group) =>
      group.flatMap((one, index) => group.slice(index + 1).map((other) => [one, other] as const)),
    );
    const covariance = mean(pairs.map(([one, other]) => leftover(one) * leftover(other)));
    const variance = mean(open.map((one) => leftover(one) ** 2));
    expect(covariance / variance).toBeGreaterThan(0.08);
    expect(covariance / variance).toBeLessThan(0.35);
  });

  it("keeps more fish off the rack with light, and fewer at high velocity", () => {
    const none = open.filter(({ cue }) => cue === "none");
    expect(shareHeld(open.filter(({ cue }) => cue === "light")) - shareHeld(none)).toBeGreaterThan(0.05);
    const slow = shareHeld(none.filter(({ approachVelocity }) => approachVelocity === 0.3));
    expect(slow - shareHeld(none.filter(({ approachVelocity }) => approachVelocity === 0.6))).toBeGreaterThan(
      0.05,
    );
  });

  it("makes bubbles look significant to whoever takes the fish of one run for independent, and no longer otherwise", () => {
    const without = guided("none");
    const bubbles = guided("bubbles");
    const difference = bubbles.share - without.share;
    expect(difference / Math.sqrt(bubbles.binomial + without.binomial)).toBeGreaterThan(1.96);
    expect(difference / Math.sqrt(bubbles.betweenRuns + without.betweenRuns)).toBeLessThan(1.75);
  });
});

describe("the law behind the trial, in many runs without effects of run and batch", () => {
  const law = {
    ...trialTruth,
    replicates: 1000,
    warmingPerDay: 0,
    runSpread: 0,
    batchSpread: 0,
    inactiveRunSpread: 0,
  };
  const many = trialFish(law).filter(({ outcome }) => outcome !== "inactive");
  const plain = many.filter(
    (one) =>
      one.cue === "none" &&
      one.approachVelocity === law.referenceVelocity &&
      one.species !== "silver eel" &&
      one.runDuration === 40,
  );

  it.each([0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9])(
    "holds back what the ramp says about a relative width of %f",
    (middle) => {
      const bin = plain.filter(({ relativeWidth }) => Math.abs(relativeWidth - middle) < 0.05);
      const expected = mean(bin.map(({ relativeWidth }) => trialRamp(law, relativeWidth)));
      const allowed = 3.5 * Math.sqrt((expected * (1 - expected)) / bin.length);
      expect(bin.length).toBeGreaterThan(150);
      // A run of 40 minutes is over before a few of those that would have passed: refused.
      expect(Math.abs(mean(bin.map(heldBack)) - expected)).toBeLessThan(allowed + 0.005);
    },
  );

  it("moves the logit by the effects of light and velocity, and not by bubbles", () => {
    // Within a narrow band of the ramp the effects on the logit show undiluted.
    const band = many.filter(
      (one) =>
        Math.abs(one.relativeWidth - 0.5) < 0.08 && one.species !== "silver eel" && one.runDuration === 40,
    );
    const still = band.filter(({ approachVelocity }) => approachVelocity === law.referenceVelocity);
    const at = (cue: string) => logitHeld(still.filter((one) => one.cue === cue));
    expect(Math.abs(at("light") - at("none") - law.lightEffect)).toBeLessThan(0.3);
    expect(Math.abs(at("bubbles") - at("none"))).toBeLessThan(0.3);
    const none = band.filter(({ cue }) => cue === "none");
    const slope =
      (logitHeld(none.filter(({ approachVelocity }) => approachVelocity === 0.6)) -
        logitHeld(none.filter(({ approachVelocity }) => approachVelocity === 0.3))) /
      0.3;
    expect(Math.abs(slope - law.velocityEffect)).toBeLessThan(0.8);
  });

  it("leaves fewer fish refused in longer runs", () => {
    const [short, long] = [20, 40].map((duration) => many.filter((one) => one.runDuration === duration));
    expect(refusedShare(short) - refusedShare(long)).toBeGreaterThan(0.05);
  });
});

describe("the ramp behind the trial", () => {
  it.each([0, 0.1, 0.15, 0.2, 0.5, 0.9, 1, 1.4])(
    "is protection.ramp at a relative width of %f",
    (relativeWidth) => {
      const { threshold, exponent } = trialTruth;
      const expected = protection.ramp({ relativeWidth, threshold, exponent });
      expect(trialRamp(trialTruth, relativeWidth)).toBeCloseTo(expected, 12);
    },
  );
});

describe("the fish of the trial", () => {
  it("change in outcome alone when only the law changes: the plan stays", () => {
    expect(plan(trialRunsCsv({ ...trialTruth, exponent: 2 }))).toEqual(plan(trialRunsCsv()));
  });
});
