import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { eventShare, kaplanMeier } from "../../kernel-helpers/src/statistics/timeToEvent";

const subjects = fc.array(fc.record({ time: fc.integer({ min: 0, max: 12 }), seen: fc.boolean() }), {
  minLength: 1,
  maxLength: 30,
});

describe("kaplanMeier", () => {
  test("without censoring the share is the plain share and the error the binomial one", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: 40 }), (times) => {
        const { steps } = kaplanMeier({ times, observed: times.map(() => true) });
        for (const { time, remaining, standardError } of steps) {
          const share = times.filter((one) => one > time).length / times.length;
          expect(remaining).toBeCloseTo(share, 12);
          const error = Math.sqrt((share * (1 - share)) / times.length);
          // Once nobody remains, Greenwood's error has no value.
          expect(standardError ?? 0).toBeCloseTo(error, 12);
          expect(standardError === undefined).toBe(share === 0);
        }
      }),
    );
  });

  test("shares fall from step to step, limits hold them and stay within 0..1, and the order of the subjects is nothing", () => {
    fc.assert(
      fc.property(subjects, (list) => {
        const curve = kaplanMeier({
          times: list.map(({ time }) => time),
          observed: list.map(({ seen }) => seen),
        });
        const back = list.toReversed();
        expect(
          kaplanMeier({ times: back.map(({ time }) => time), observed: back.map(({ seen }) => seen) }),
        ).toEqual(curve);
        expect(curve.events + curve.censored).toBe(list.length);
        expect(curve.steps.reduce((sum, { events }) => sum + events, 0)).toBe(curve.events);
        let before = 1;
        for (const { remaining, lower, upper } of curve.steps) {
          expect(remaining).toBeLessThan(before);
          before = remaining;
          if (remaining === 0) continue;
          expect(lower).toBeGreaterThanOrEqual(0);
          expect(lower).toBeLessThanOrEqual(remaining);
          expect(upper).toBeGreaterThanOrEqual(remaining);
          expect(upper).toBeLessThanOrEqual(1);
        }
      }),
    );
  });

  test("a fish censored at the time of an event is at risk then", () => {
    const { steps } = kaplanMeier({ times: [5, 5, 5, 9], observed: [true, false, false, false] });
    expect(steps).toHaveLength(1);
    expect(steps[0]).toMatchObject({ time: 5, atRisk: 4, events: 1, remaining: 0.75 });
  });

  test("a fish censored before an event leaves the fish at risk, not the share", () => {
    const { steps } = kaplanMeier({ times: [2, 5, 7], observed: [false, true, false] });
    expect(steps).toEqual([expect.objectContaining({ atRisk: 2, remaining: 0.5 })]);
  });

  test("the median is the first time after which at most half remain, a half to the last digit included", () => {
    // 4/5 · 3/4 · 5/6 … would be hit by rounding: 0.8 · 0.625 stands for a half.
    const times = [1, 1, 2, 3, 3, 3, 4, 4, 4, 4];
    const observed = [true, true, true, true, true, false, false, false, false, false];
    const { median } = kaplanMeier({ times, observed });
    expect(median.estimate).toBe(3);
    expect(kaplanMeier({ times: [1, 2, 3], observed: [true, false, false] }).median).toEqual({
      estimate: undefined,
      lower: 1,
      upper: undefined,
    });
  });

  test("nobody had the event: no step, no median", () => {
    const curve = kaplanMeier({ times: [10, 10], observed: [false, false] });
    expect(curve).toMatchObject({ steps: [], events: 0, censored: 2, lastTime: 10 });
    expect(curve.median.estimate).toBeUndefined();
  });

  test("seeded runs: the 95 % limits hold the true share in 92 to 98 of 100 data sets", () => {
    // Exponential times with mean 1, censored at a uniform time: 0.6 is passed by exp(−0.6).
    let state = 20_260_101;
    const random = (): number => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      return (state + 0.5) / 2 ** 32;
    };
    const sets = 2000;
    let held = 0;
    for (let set = 0; set < sets; set++) {
      const drawn = Array.from({ length: 60 }, () => [-Math.log(random()), 0.2 + 2 * random()]);
      const share = eventShare(
        kaplanMeier({
          times: drawn.map(([event, end]) => Math.min(event, end)),
          observed: drawn.map(([event, end]) => event <= end),
        }),
        0.6,
      );
      const truth = 1 - Math.exp(-0.6);
      if (
        share.lower !== undefined &&
        share.upper !== undefined &&
        share.lower <= truth &&
        truth <= share.upper
      )
        held++;
    }
    expect(held / sets).toBeGreaterThan(0.92);
    expect(held / sets).toBeLessThan(0.98);
  });

  test.each([
    [{ times: [], observed: [] }, "times is empty; give at least one time."],
    [
      { times: [1, 2], observed: [true] },
      "times has 2 values and observed 1; each subject needs one of both.",
    ],
    [{ times: [-1], observed: [true] }, "times[0] is -1; it must be at least 0."],
    [{ times: [NaN], observed: [true] }, "times[0] is NaN; it must be at least 0."],
    [
      { times: [1], observed: [true], level: 1 },
      "level is 1; it must lie between 0 and 1, as 0.95 for a 95 % interval.",
    ],
  ])("refuses %j", (inputs, sentence) => {
    expect(() => kaplanMeier(inputs)).toThrow(`statistics.kaplanMeier: ${sentence}`);
  });

  test("refuses a censoring mark that is no true or false", () => {
    const observed = JSON.parse("[1]") as boolean[];
    expect(() => kaplanMeier({ times: [1], observed })).toThrow(
      "statistics.kaplanMeier: observed[0] is 1; it must be true (event seen) or false (censored).",
    );
  });
});

describe("eventShare", () => {
  const curve = kaplanMeier({ times: [3, 5, 5, 8, 10], observed: [true, true, false, true, false] });

  test("is 0 before the first event and keeps its value from one event to the next", () => {
    expect(eventShare(curve, 2.9)).toMatchObject({ estimate: 0, standardError: undefined, lower: undefined });
    expect(eventShare(curve, 3).estimate).toBeCloseTo(0.2, 12);
    expect(eventShare(curve, 4.9).estimate).toBeCloseTo(0.2, 12);
    expect(eventShare(curve, 10).estimate).toBeCloseTo(0.7, 12);
  });

  test("its limits are those of the remaining share turned round", () => {
    const { lower, upper } = eventShare(curve, 6);
    expect(lower).toBeCloseTo(1 - (curve.steps[1].upper ?? NaN), 12);
    expect(upper).toBeCloseTo(1 - (curve.steps[1].lower ?? NaN), 12);
  });

  test("nothing is said after the last fish was watched, unless all had the event", () => {
    expect(() => eventShare(curve, 11)).toThrow(
      "statistics.eventShare: time is 11; it must be at least 0 and at most 10.",
    );
    expect(eventShare(kaplanMeier({ times: [1, 2], observed: [true, true] }), 99).estimate).toBe(1);
  });
});
