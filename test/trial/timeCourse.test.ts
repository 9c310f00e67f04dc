import { readRecords, trial, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const { rows } = await readRecords("trial-runs.csv", trial.runRecord);
const short = rows.filter(({ runDuration }) => runDuration === u.min(20));
const long = rows.filter(({ runDuration }) => runDuration === u.min(40));

describe("timeCourse", () => {
  const course = trial.timeCourse(rows, { seed: 5, resamples: 200 });

  test("ends at the guidance where all runs are as long", () => {
    const { shares } = trial.timeCourse(short, { times: [u.min(20)], seed: 1, resamples: 100 });
    expect(shares[0].share).toBeCloseTo(trial.efficiencies(short)[0].guidance.estimate ?? Number.NaN, 12);
  });

  test("runs twice as long were as far at half of their time: the rest of their guidance is waiting time", () => {
    const half = trial.timeCourse(long, { times: [u.min(20), u.min(40)], seed: 1, resamples: 200 });
    const [guided] = trial.efficiencies(short);
    expect(half.shares[0].lower).toBeLessThan(guided.guidance.estimate ?? Number.NaN);
    expect(half.shares[0].upper).toBeGreaterThan(guided.guidance.estimate ?? Number.NaN);
    expect(half.shares[1].share - half.shares[0].share).toBeGreaterThan(0.1);
  });

  test("1 − Kaplan–Meier, which takes passage through the rack for censored, lies above it", () => {
    const last = course.shares.at(-1);
    expect(last?.otherWaysCensored).toBeGreaterThan((last?.share ?? 1) + 0.1);
  });

  test("the band of whole runs holds the share, and is wider than that of independent fish at the end", () => {
    const {
      share,
      lower = NaN,
      upper = NaN,
      naiveLower = NaN,
      naiveUpper = NaN,
    } = course.shares.at(-1) ?? {};
    expect(lower).toBeLessThan(share ?? Number.NaN);
    expect(upper).toBeGreaterThan(share ?? Number.NaN);
    expect(upper - lower).toBeGreaterThan(naiveUpper - naiveLower);
  });

  test("of all fish released it is lower, and names the other denominator", () => {
    const all = trial.timeCourse(rows, { of: "all", times: [u.min(20)], seed: 1, resamples: 100 });
    expect(all.fish).toBe(960);
    expect(all.denominator).toBe("all fish released");
    expect(all.shares[0].share).toBeLessThan(course.shares[20].share);
  });

  test("counts who is still at risk: all at the beginning, the refused of the longest runs at the end", () => {
    expect(course.shares[0].atRisk).toBe(803);
    const waiting = long.filter(({ outcome }) => outcome === "refused").length;
    const late = long.filter(({ outcomeTime = 0 }) => outcomeTime === u.min(40)).length;
    expect(course.shares.at(-1)?.atRisk).toBe(waiting + late);
  });

  test("follows passage through the rack and impingement as well; with the fish still waiting they add up to 1", () => {
    const ended = ["bypassed", "rackPassed", "impinged"] as const;
    const shares = ended.map(
      (outcome) =>
        trial.timeCourse(short, { outcome, times: [u.min(20)], seed: 1, resamples: 100 }).shares[0].share,
    );
    const [{ refused, active }] = trial.efficiencies(short);
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1 - refused / active, 12);
  });

  const one = { runId: "R1", outcome: "bypassed" as const, runDuration: u.min(20) };
  test.each([
    [[{ ...one }], "fish[0] of run R1 is bypassed and has no outcomeTime; give the time"],
    [
      [{ ...one, outcome: "refused" as const, outcomeTime: u.min(3) }],
      "fish[0] of run R1 is refused and has an outcomeTime; leave it out",
    ],
    [
      [{ ...one, outcomeTime: u.min(21) }],
      "outcomeTime of fish[0] (run R1) is 21 min; it must be from 0 to the end of the run at 20 min",
    ],
    [[{ ...one, outcome: "refused" as const }], "no fish is bypassed; there is no share to follow"],
  ])("refuses %j", (fish, sentence) => {
    expect(() => trial.timeCourse(fish, { seed: 1 })).toThrow(`trial.timeCourse: ${sentence}`);
  });

  test("refuses a time after the last fish was watched, in minutes", () => {
    const fish = [
      { ...one, outcomeTime: u.min(3) },
      { ...one, outcome: "refused" as const },
    ];
    expect(() => trial.timeCourse(fish, { times: [u.min(30)], seed: 1 })).toThrow(
      "trial.timeCourse: times[0] is 30 min; it must be from 0 to 20 min, when the last fish was watched.",
    );
  });
});
