import { statistics } from "kernel-helpers";
import { describe, expect, it } from "vitest";

/** The two ends as a source prints them. */
const printed = ({ lower, upper }: { lower: number; upper: number }, decimals = 4): readonly string[] => [
  lower.toFixed(decimals),
  upper.toFixed(decimals),
];

type Row = readonly [method: (typeof statistics.proportionMethods)[number], lower: string, upper: string];

describe("a proportion's interval at 95 % (Newcombe 1998, Stat. Med. 17:857, table I; printed)", () => {
  const of81in263: readonly Row[] = [
    ["wilson", "0.2553", "0.3662"],
    ["wilsonCorrected", "0.2535", "0.3682"],
    ["clopperPearson", "0.2527", "0.3676"],
    ["midP", "0.2544", "0.3658"],
  ];
  it.each(of81in263)("81 of 263 by %s", (method, lower, upper) => {
    expect(printed(statistics.proportionInterval({ successes: 81, trials: 263, method }))).toEqual([
      lower,
      upper,
    ]);
  });

  const of0in20: readonly Row[] = [
    ["wilson", "0.0000", "0.1611"],
    ["wilsonCorrected", "0.0000", "0.2005"],
    ["clopperPearson", "0.0000", "0.1684"],
    ["midP", "0.0000", "0.1391"],
  ];
  it.each(of0in20)("0 of 20 by %s", (method, lower, upper) => {
    const got = statistics.proportionInterval({ successes: 0, trials: 20, method });
    expect(printed(got)).toEqual([lower, upper]);
    expect(got.lower).toBe(0);
  });
});

describe("7 of 50 by Clopper–Pearson (SciPy documentation, binomtest; printed)", () => {
  it("goes from 0.058191700340 to 0.267396002497", () => {
    const got = statistics.proportionInterval({ successes: 7, trials: 50, method: "clopperPearson" });
    expect(printed(got, 12)).toEqual(["0.058191700340", "0.267396002497"]);
  });
});

describe("a difference of two proportions (Newcombe 1998, Stat. Med. 17:873; printed)", () => {
  it("56 of 70 less 48 of 80 is 0.2000, from 0.0524 to 0.3339", () => {
    const got = statistics.differenceInterval({
      first: { successes: 56, trials: 70 },
      second: { successes: 48, trials: 80 },
    });
    expect(got.estimate).toBeCloseTo(0.2, 12);
    expect(printed(got)).toEqual(["0.0524", "0.3339"]);
  });
});

describe("published counts of fish, Wilson's interval at 95 % (counts from the studies; intervals recomputed)", () => {
  const studies = [
    [
      "smolts in the bypass of an inclined rack (Tomanova et al. 2017)",
      193,
      239,
      80.7,
      0.1,
      "0.7528",
      "0.8525",
    ],
    ["bypass use by eel (Kjærås et al. 2023, J. Fish Biol. 102:465)", 38, 90, 42, 0.5, "0.3254", "0.5254"],
    ["deaths after rack passage (Calles et al. 2012)", 8, 22, 36, 0.5, "0.1973", "0.5705"],
  ] as const;
  it.each(studies)("%s: %i of %i, printed %d %%", (_, successes, trials, percentage, digit, lower, upper) => {
    const got = statistics.proportionInterval({ successes, trials });
    expect(Math.abs(100 * got.estimate - percentage)).toBeLessThan(digit);
    expect(printed(got)).toEqual([lower, upper]);
  });
});
