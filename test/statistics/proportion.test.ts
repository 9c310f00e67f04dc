import * as fc from "fast-check";
import { statistics } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const counts = fc
  .integer({ min: 1, max: 400 })
  .chain((trials) =>
    fc.record({ trials: fc.constant(trials), successes: fc.integer({ min: 0, max: trials }) }),
  );
const level = fc.double({ min: 0.6, max: 0.999, noNaN: true });
const methods = statistics.proportionMethods.map((method) => [method] as const);

describe.each(methods)("statistics.proportionInterval by %s", (method) => {
  it("holds its estimate and stays inside 0..1", () => {
    fc.assert(
      fc.property(counts, level, (count, at) => {
        const { estimate, lower, upper } = statistics.proportionInterval({ ...count, level: at, method });
        expect(estimate).toBe(count.successes / count.trials);
        expect(lower).toBeGreaterThanOrEqual(0);
        expect(lower).toBeLessThanOrEqual(estimate);
        expect(upper).toBeGreaterThanOrEqual(estimate);
        expect(upper).toBeLessThanOrEqual(1);
        expect(lower).toBeLessThan(upper);
      }),
    );
  });

  it("turns over when successes and failures change places", () => {
    fc.assert(
      fc.property(counts, level, ({ successes, trials }, at) => {
        const one = statistics.proportionInterval({ successes, trials, level: at, method });
        const other = statistics.proportionInterval({
          successes: trials - successes,
          trials,
          level: at,
          method,
        });
        expect(one.lower).toBeCloseTo(1 - other.upper, 10);
        expect(one.upper).toBeCloseTo(1 - other.lower, 10);
      }),
    );
  });

  it("lies inside the interval of a higher level", () => {
    fc.assert(
      fc.property(counts, level, (count, at) => {
        const inner = statistics.proportionInterval({ ...count, level: at, method });
        const outer = statistics.proportionInterval({ ...count, level: at + (1 - at) / 2, method });
        expect(outer.lower).toBeLessThanOrEqual(inner.lower);
        expect(outer.upper).toBeGreaterThanOrEqual(inner.upper);
      }),
    );
  });

  it("names its level, its method and the count", () => {
    const got = statistics.proportionInterval({ successes: 3, trials: 8, level: 0.9, method });
    expect(got).toMatchObject({ level: 0.9, method, successes: 3, trials: 8 });
  });
});

const ends = (method: (typeof statistics.proportionMethods)[number], successes: number, trials: number) =>
  statistics.proportionInterval({ successes, trials, method });

describe("the methods beside each other", () => {
  it("mid-p lies inside Clopper–Pearson, and Wilson inside its corrected form", () => {
    fc.assert(
      fc.property(counts, ({ successes, trials }) => {
        const exact = ends("clopperPearson", successes, trials);
        const half = ends("midP", successes, trials);
        expect(half.lower).toBeGreaterThanOrEqual(exact.lower - 1e-12);
        expect(half.upper).toBeLessThanOrEqual(exact.upper + 1e-12);
        const corrected = ends("wilsonCorrected", successes, trials);
        const plain = ends("wilson", successes, trials);
        expect(plain.lower).toBeGreaterThanOrEqual(corrected.lower);
        expect(plain.upper).toBeLessThanOrEqual(corrected.upper);
      }),
    );
  });

  it("Agresti–Coull has the middle of Wilson and is never narrower, where neither is cut off", () => {
    const [wide, narrow] = [ends("agrestiCoull", 12, 40), ends("wilson", 12, 40)];
    expect(wide.lower + wide.upper).toBeCloseTo(narrow.lower + narrow.upper, 12);
    expect(wide.upper - wide.lower).toBeGreaterThan(narrow.upper - narrow.lower);
  });

  it("Clopper–Pearson leaves half of what the level leaves in each tail of the binomial count", () => {
    const { lower, upper } = ends("clopperPearson", 3, 10);
    const choose = [1, 10, 45, 120];
    const upTo = (count: number, share: number) =>
      choose
        .slice(0, count + 1)
        .reduce((sum, ways, at) => sum + ways * share ** at * (1 - share) ** (10 - at), 0);
    expect(1 - upTo(2, lower)).toBeCloseTo(0.025, 12);
    expect(upTo(3, upper)).toBeCloseTo(0.025, 12);
    const half = ends("midP", 3, 10);
    expect(1 - (upTo(2, half.lower) + upTo(3, half.lower)) / 2).toBeCloseTo(0.025, 12);
    expect((upTo(2, half.upper) + upTo(3, half.upper)) / 2).toBeCloseTo(0.025, 12);
  });
});

describe("statistics.proportionInterval refuses", () => {
  it.each([
    [{ successes: 5, trials: 4 }, "successes is 5; it must be a whole number from 0 to 4"],
    [{ successes: -1, trials: 4 }, "successes is -1; it must be a whole number from 0 to 4"],
    [{ successes: 1.5, trials: 4 }, "successes is 1.5; it must be a whole number from 0 to 4"],
    [{ successes: 0, trials: 0 }, "trials is 0; it must be a whole number of at least 1"],
    [{ successes: 1, trials: Number.NaN }, "trials is NaN; it must be a whole number of at least 1"],
    [
      { successes: 1, trials: 4, level: 95 },
      "level is 95; it must lie between 0 and 1, as 0.95 for a 95 % interval",
    ],
  ])("%o", (input, sentence) => {
    const attempt = () => statistics.proportionInterval(input);
    expect(attempt).toThrow(RangeError);
    expect(attempt).toThrow(`statistics.proportionInterval: ${sentence}.`);
  });

  it("a method that it doesn't know, and names those it knows", () => {
    // What a cell without type checking may pass.
    const method = "wald" as unknown as "wilson";
    expect(() => statistics.proportionInterval({ successes: 1, trials: 4, method })).toThrow(
      'method is "wald"; the methods are wilson, wilsonCorrected, clopperPearson, midP, agrestiCoull, jeffreys.',
    );
  });
});

describe("statistics.differenceInterval", () => {
  const pair = fc.record({ first: counts, second: counts });

  it("holds the difference, stays inside −1..1 and changes its sign with the order", () => {
    fc.assert(
      fc.property(pair, level, ({ first, second }, at) => {
        const one = statistics.differenceInterval({ first, second, level: at });
        const other = statistics.differenceInterval({ first: second, second: first, level: at });
        expect(one.lower).toBeLessThanOrEqual(one.estimate);
        expect(one.upper).toBeGreaterThanOrEqual(one.estimate);
        expect(one.lower).toBeGreaterThanOrEqual(-1 - 1e-12);
        expect(one.upper).toBeLessThanOrEqual(1 + 1e-12);
        expect(one.lower).toBeCloseTo(-other.upper, 12);
      }),
    );
  });

  it("refuses a bad count and says which", () => {
    expect(() =>
      statistics.differenceInterval({
        first: { successes: 1, trials: 2 },
        second: { successes: 3, trials: 2 },
      }),
    ).toThrow("statistics.differenceInterval: second.successes is 3; it must be a whole number from 0 to 2.");
  });
});
