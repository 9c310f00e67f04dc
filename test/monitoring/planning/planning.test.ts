import { monitoring, statistics } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const nights = { share: 0.7, halfWidth: 0.1, fishPerNight: 25, intraclassCorrelation: 0.15, seed: 1 };

describe("monitoring.nightsForInterval", () => {
  it("says in nights what statistics.clustersForWidth says in clusters", () => {
    const found = monitoring.nightsForInterval({ ...nights, caughtShare: 0.8 });
    const same = statistics.clustersForWidth({
      share: 0.7,
      halfWidth: 0.1,
      clusterSize: 25,
      countedShare: 0.8,
      intraclassCorrelation: 0.15,
      seed: 1,
    });
    expect([found.nights, found.fish, found.halfWidth]).toEqual([
      same.clusters,
      same.countedTrials,
      same.halfWidth,
    ]);
    expect(found.designEffect).toBeCloseTo(1 + 24 * 0.8 * 0.15, 12);
  });

  it("gains little from more fish a night: the nights are what differs", () => {
    const more = monitoring.nightsForInterval({ ...nights, fishPerNight: 250 });
    const found = monitoring.nightsForInterval(nights);
    expect(more.nights).toBeGreaterThan(0.6 * found.nights);
    expect(more.fish).toBeGreaterThan(6 * found.fish);
  });

  it("takes the catches of an earlier season, and refuses a night without fish", () => {
    const uneven = monitoring.nightsForInterval({ ...nights, fishPerNight: [5, 5, 5, 85] });
    expect(uneven.nights).toBeGreaterThan(monitoring.nightsForInterval(nights).nights);
    expect(() => monitoring.nightsForInterval({ ...nights, fishPerNight: [5, 0] })).toThrow(
      "monitoring.nightsForInterval: fishPerNight[1] is 0; it must be a whole number from 1 to 10000.",
    );
  });
});

describe("monitoring.nightsForPower", () => {
  it("finds the nights of each state", () => {
    const { share: _share, halfWidth: _halfWidth, ...rest } = nights;
    const found = monitoring.nightsForPower({ ...rest, first: 0.5, second: 0.75, power: 0.8 });
    expect(found.power).toBeGreaterThanOrEqual(0.8);
    expect(Math.abs(found.nights - found.approximateNights)).toBeLessThan(3);
  });
});

/** Counts to expect. Four in five of those seen are seen at both detectors; the form takes no notice of how they divide. */
function counts(released: number, share: number) {
  const seen = Math.round(released * share);
  const both = Math.round(0.8 * seen);
  const firstOnly = Math.floor((seen - both) / 2);
  return { released, both, firstOnly, secondOnly: seen - both - firstOnly };
}

describe("monitoring.fishToRelease", () => {
  const release = { relativeSurvival: 0.9, controlSeen: 0.8, halfWidth: 0.05, seed: 1 };

  it("plans the error that pairedRelease finds in the expected counts (first-capture form, common detection)", () => {
    const { treated, control, standardError } = monitoring.fishToRelease(release);
    const { survival } = statistics.pairedRelease(
      { treatment: counts(treated, 0.72), control: counts(control, 0.8) },
      { detection: "common" },
    );
    expect(survival.standardError).toBeCloseTo(standardError, 3);
    expect(survival.estimate).toBeCloseTo(0.9, 2);
  });

  it("is by hand 2 · 1.96² · 0.81 · (0.28/0.72 + 0.2/0.8)/0.05² fish in two equal groups", () => {
    const { treated, control } = monitoring.fishToRelease({ ...release, controlsPerTreated: 1 });
    const byHand = (1.959964 ** 2 * 0.81 * (0.28 / 0.72 + 0.2 / 0.8)) / 0.05 ** 2;
    expect(treated).toBe(Math.ceil(byHand));
    expect(control).toBe(treated);
  });

  it("takes the ratio with the fewest fish where none is given", () => {
    const best = monitoring.fishToRelease(release);
    for (const controlsPerTreated of [0.5, 0.7, 1, 1.5]) {
      const other = monitoring.fishToRelease({ ...release, controlsPerTreated });
      expect(other.treated + other.control).toBeGreaterThanOrEqual(best.treated + best.control - 1);
    }
  });

  it("agrees with simulated releases, of single fish and of lots", () => {
    for (const lots of [{}, { fishPerLot: 25, intraclassCorrelation: 0.05 }]) {
      const found = monitoring.fishToRelease({ ...release, ...lots, simulations: 4000 });
      const apart = Math.abs(found.simulatedError - found.standardError);
      // The delta method is good to a few per cent here; the rest is the simulation's.
      expect(apart).toBeLessThan(0.03 * found.standardError + 4 * found.simulatedErrorError);
    }
  });

  it("releases whole lots, and warns of an interval that takes alike fish for independent", () => {
    const found = monitoring.fishToRelease({ ...release, fishPerLot: 50, intraclassCorrelation: 0.02 });
    expect(found.treated % 50).toBe(0);
    expect(found.designEffect).toBeCloseTo(1.98, 12);
    expect(found.coverage).toBeLessThan(0.9);
    expect(found.cautions.join(" ")).toContain("analyse lots, not fish");
  });

  it.each([
    [{ relativeSurvival: 1.1 }, "relativeSurvival is 1.1; it must be above 0 and at most 1"],
    [{ controlSeen: 1 }, "controlSeen is 1; it must be above 0 and below 1"],
    [{ halfWidth: 0 }, "halfWidth is 0; it must be above 0 and below 1"],
    [{ halfWidth: 1e-4 }, "halfWidth is 0.0001; that would need more than a million fish: ask for less"],
  ])("refuses %o", (change, sentence) => {
    expect(() => monitoring.fishToRelease({ ...release, ...change })).toThrow(
      `monitoring.fishToRelease: ${sentence}.`,
    );
  });
});
