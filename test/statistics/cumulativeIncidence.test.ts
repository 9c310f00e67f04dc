import { statistics } from "kernel-helpers";
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";

/** Subjects with whole times, so that ties are common, and an event or none. */
const subjects = fc.array(
  fc.record({ time: fc.nat(12), event: fc.constantFrom("bypass", "rack", undefined) }),
  { minLength: 2, maxLength: 40 },
);
const listsOf = (group: readonly { readonly time: number; readonly event: string | undefined }[]) => ({
  times: group.map(({ time }) => time),
  events: group.map(({ event }) => event),
});

describe("cumulativeIncidence", () => {
  test("the shares of all events and of those without one add up to 1", () => {
    fc.assert(
      fc.property(subjects, (group) => {
        fc.pre(group.some(({ event }) => event !== undefined));
        const { times, events } = listsOf(group);
        const curve = statistics.cumulativeIncidence({ times, events });
        const waiting = statistics.kaplanMeier({
          times,
          observed: events.map((event) => event !== undefined),
        });
        const shares = curve.events.reduce((sum, { steps }) => sum + (steps.at(-1)?.share ?? 0), 0);
        expect(shares + (waiting.steps.at(-1)?.remaining ?? 1)).toBeCloseTo(1, 12);
      }),
    );
  });

  test("with one kind of event it is 1 − Kaplan–Meier, error included", () => {
    const times = [3, 5, 5, 8, 10, 11, 11, 14];
    const seen = [true, true, false, true, false, true, true, false];
    const curve = statistics.cumulativeIncidence({
      times,
      events: seen.map((is) => (is ? "bypass" : undefined)),
    });
    const { steps } = statistics.kaplanMeier({ times, observed: seen });
    expect(curve.events[0].steps.map(({ share }) => share)).toEqual(
      steps.map(({ remaining }) => expect.closeTo(1 - remaining, 12)),
    );
    expect(curve.events[0].steps.map(({ standardError }) => standardError)).toEqual(
      steps.map(({ standardError }) => expect.closeTo(standardError ?? Number.NaN, 12)),
    );
  });

  test("without censoring it is the plain share with the binomial error", () => {
    const curve = statistics.cumulativeIncidence({
      times: [1, 2, 3, 4, 5, 6, 7],
      events: ["a", "b", "a", "b", "a", "a", "b"],
    });
    const last = curve.events[0].steps.at(-1);
    expect(last?.share).toBeCloseTo(4 / 7, 14);
    expect(last?.standardError).toBeCloseTo(Math.sqrt(((4 / 7) * (3 / 7)) / 7), 14);
  });

  test("1 − Kaplan–Meier with the other events as censored is never below it", () => {
    fc.assert(
      fc.property(subjects, (group) => {
        fc.pre(group.some(({ event }) => event === "bypass"));
        const { times, events } = listsOf(group);
        const share = statistics
          .cumulativeIncidence({ times, events })
          .events.find(({ event }) => event === "bypass");
        const alone = statistics.kaplanMeier({ times, observed: events.map((event) => event === "bypass") });
        share?.steps.forEach((step, at) => {
          expect(1 - alone.steps[at].remaining).toBeGreaterThanOrEqual(step.share - 1e-12);
        });
      }),
    );
  });

  test("limits hold the share and stay within 0..1; at 1 there are none", () => {
    const curve = statistics.cumulativeIncidence({ times: [1, 2, 2], events: ["a", "a", "a"] });
    expect(curve.events[0].steps.at(-1)).toMatchObject({ share: 1, lower: undefined, upper: undefined });
    const [first] = curve.events[0].steps;
    expect(first.lower).toBeGreaterThan(0);
    expect(first.upper).toBeLessThan(1);
    expect(first.lower).toBeLessThan(first.share);
  });

  test.each([
    [{ times: [], events: [] }, "times is empty"],
    [{ times: [1, 2], events: ["a"] }, "times has 2 values and events 1"],
    [{ times: [1], events: [undefined] }, "no subject has an event"],
    [{ times: [-1], events: ["a"] }, "times[0] is -1; it must be at least 0"],
    [{ times: [1], events: [""] }, 'events[0] is ""; it must name the event'],
  ])("refuses %j", (input, sentence) => {
    expect(() => statistics.cumulativeIncidence(input)).toThrow(
      `statistics.cumulativeIncidence: ${sentence}`,
    );
  });
});

describe("incidenceAt", () => {
  const curve = statistics.cumulativeIncidence({
    times: [3, 5, 5, 8, 10],
    events: ["bypass", "rack", undefined, "bypass", undefined],
  });

  test("is 0 before the first event, keeps its step between events, and 0 for an event that nobody had", () => {
    expect(statistics.incidenceAt(curve, "bypass", 2)).toMatchObject({ share: 0, standardError: undefined });
    expect(statistics.incidenceAt(curve, "bypass", 9).share).toBeCloseTo(0.5, 14);
    expect(statistics.incidenceAt(curve, "impinged", 9).share).toBe(0);
  });

  test("refuses a time after the last one at which anybody was watched", () => {
    expect(() => statistics.incidenceAt(curve, "bypass", 11)).toThrow(
      "time is 11; it must be at least 0 and at most 10",
    );
  });
});
