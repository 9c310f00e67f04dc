import { readRecords, statistics, trial } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const { rows } = await readRecords("trial-runs.csv", trial.runRecord);
const runs = (name: string, cue: string, ...outcomes: readonly trial.Outcome[]) =>
  outcomes.map((outcome) => ({ runId: name, cue, outcome }));

const clusters = (cue: string) =>
  trial.runClusters(
    rows.filter((one) => one.cue === cue),
    "guidance",
  ).clusters;

describe("compareGroups", () => {
  const compared = trial.compareGroups(rows, { by: "cue", efficiency: "guidance", base: "none", seed: 3 });
  const [light, bubbles] = compared.differences;

  test("the demo trial's light guides more fish however runs are counted; its bubbles only if fish are taken for independent", () => {
    expect(compared.differences.map(({ comparison }) => comparison)).toEqual([
      "light less none",
      "bubbles less none",
    ]);
    expect(light.naivePValue).toBeLessThan(0.01);
    expect(light.pValue).toBeLessThan(0.01);
    expect(light.lower).toBeGreaterThan(0);
    expect(bubbles.naivePValue).toBeLessThan(0.05);
    expect(bubbles.naiveLower).toBeGreaterThan(0);
    for (const pValue of [bubbles.pValue, bubbles.betaBinomialPValue]) expect(pValue).toBeGreaterThan(0.05);
    for (const lower of [bubbles.lower, bubbles.bootstrapLower]) expect(lower).toBeLessThan(0);
  });

  test("gives what the statistics room gives for the same runs", () => {
    const difference = statistics.clusteredDifference({ first: clusters("light"), second: clusters("none") });
    expect(light).toMatchObject({
      estimate: difference.estimate,
      lower: difference.lower,
      upper: difference.upper,
    });
    expect(light.betaBinomialPValue).toBe(
      statistics.betaBinomialComparison({
        groups: [
          { name: "none", clusters: clusters("none") },
          { name: "light", clusters: clusters("light") },
        ],
      }).pValue,
    );
  });

  test("has no bootstrap without a seed, and the same one for the same seed", () => {
    const without = trial.compareGroups(rows, { by: "cue", efficiency: "guidance", base: "none" });
    expect(without.differences[0].bootstrapLower).toBeUndefined();
    const again = trial.compareGroups(rows, { by: "cue", efficiency: "guidance", base: "none", seed: 3 });
    expect(again.differences[0].bootstrapLower).toBe(light.bootstrapLower);
  });

  test("warns of several differences at once and of runs in several groups", () => {
    expect(compared.cautions).toEqual([expect.stringContaining("2 differences are looked at")]);
    const mixed = [
      ...runs("R1", "none", "bypassed", "refused"),
      ...runs("R1", "light", "bypassed"),
      ...runs("R2", "none", "refused"),
      ...runs("R3", "light", "bypassed"),
    ];
    const { cautions } = trial.compareGroups(mixed, { by: "cue", efficiency: "guidance" });
    expect(cautions).toEqual([expect.stringContaining("1 runs have fish in several groups, such as R1")]);
  });

  test("where all fish ended the same way there is a difference of 0 and no test", () => {
    const alike = ["R1", "R2", "R3", "R4"].flatMap((name, at) =>
      runs(name, at < 2 ? "none" : "light", "bypassed"),
    );
    const { differences, together } = trial.compareGroups(alike, { by: "cue", efficiency: "guidance" });
    expect(differences[0]).toMatchObject({ estimate: 0, pValue: undefined, naivePValue: undefined });
    expect(together).toBeUndefined();
  });

  test("of a group that all went and one that none did gives the difference, and no test that needs their likeness", () => {
    const fish = ["R1", "R2", "R3"].flatMap((name) => [
      ...runs(name, "light", "bypassed", "bypassed"),
      ...runs(`${name}b`, "none", "refused", "refused"),
    ]);
    const [apart] = trial.compareGroups(fish, { by: "cue", efficiency: "guidance", seed: 1 }).differences;
    expect(apart.estimate).toBe(-1);
    expect(apart.betaBinomialPValue).toBeUndefined();
    // As three trials against three: chi-square 6 on one degree of freedom.
    expect(apart.pValue).toBeCloseTo(0.0143, 4);
    expect(apart.upper).toBeGreaterThan(-0.5);
  });

  test("refuses one group, a base that is none, and a group of one run", () => {
    const none = rows.filter(({ cue }) => cue === "none");
    expect(() => trial.compareGroups(none, { by: "cue", efficiency: "guidance" })).toThrow(
      "trial.compareGroups: there is one group, none; a comparison needs at least 2.",
    );
    expect(() => trial.compareGroups(rows, { by: "cue", efficiency: "guidance", base: "dark" })).toThrow(
      'base is "dark"; the groups are light, none, bubbles.',
    );
    const one = [...none, ...runs("R900", "light", "bypassed", "inactive")];
    expect(() => trial.compareGroups(one, { by: "cue", efficiency: "guidance" })).toThrow(
      "group light has too few runs with a fish in the denominator, 1; spread between runs needs at least 2",
    );
  });
});
