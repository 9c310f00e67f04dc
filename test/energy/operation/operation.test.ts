import { clogging, energy, river, u } from "kernel-helpers";
import { array, assert, double, property } from "fast-check";
import { describe, expect, test } from "vitest";
import { plant, record } from "../plant";

const runs = (flow: number, change: Partial<Parameters<typeof energy.operation>[0]> = {}) =>
  energy.operation({ ...plant, ...change, record: record(flow) });

describe("a day of energy.operation", () => {
  test("gives residual flow, bypass, turbines and weir all the river's water, in that order", () => {
    const [day] = runs(50).days;
    expect(day).toMatchObject({ residualFlow: 2.5, bypassFlow: 1.36, turbineFlow: 34 });
    expect(day.weirFlow).toBeCloseTo(50 - 2.5 - 1.36 - 34, 12);
    expect(runs(2).days[0]).toMatchObject({ residualFlow: 2, bypassFlow: 0, turbineFlow: 0, weirFlow: 0 });
  });

  test("works out velocity, head loss, net head and power as by hand", () => {
    const [day] = runs(50).days;
    const velocity = (34 + 1.36) / (17 * 3.6);
    const loss = (0.5 * velocity ** 2) / 19.62;
    expect(day.approachVelocity).toBeCloseTo(velocity, 12);
    expect(day.headLoss).toBeCloseTo(loss, 12);
    expect(day.netHead).toBeCloseTo(5.4 - 0.08 - loss, 12);
    expect(day.power).toBeCloseTo(1000 * 9.81 * 34 * (5.32 - loss) * 0.885, 4);
    expect(day.energy).toBeCloseTo(day.power * 86_400, 2);
  });

  test("takes the turbine flow of energy.turbineFlow wherever one set of units takes all water", () => {
    assert(
      property(double({ min: 0, max: 100, noNaN: true }), (flow) => {
        const expected = energy.turbineFlow({
          riverFlow: u.m3ps(flow),
          designDischarge: u.m3ps(34),
          residualFlow: plant.residualFlow,
          bypassFlow: plant.bypassFlow,
          technicalMinimum: u.m3ps(4),
        });
        expect(runs(flow).days[0].turbineFlow).toBeCloseTo(expected, 9);
      }),
    );
  });

  test("lets the intake's loss grow with the square of the turbine flow", () => {
    const [day] = runs(2.5 + 1.36 + 17).days;
    expect(5.4 - day.netHead - day.headLoss).toBeCloseTo(0.08 / 4, 12);
  });

  test("takes the tail water's rise from the head, and stands still where none is left", () => {
    expect(runs(50, { tailwaterRise: () => u.m(1) }).days[0].netHead).toBeCloseTo(
      runs(50).days[0].netHead - 1,
      12,
    );
    const flood = runs(50, { tailwaterRise: () => u.m(6) });
    expect(flood.days[0]).toMatchObject({ turbineFlow: 0, netHead: 0, energy: 0 });
    expect(flood.days[0].weirFlow).toBeCloseTo(50 - 2.5 - 1.36, 12);
    const drowned = runs(50, { rackLoss: () => u.m(7) });
    expect(drowned.days[0]).toMatchObject({ turbineFlow: 0, energy: 0, headLoss: 0 });
  });

  test("raises the rack's loss by the clogging factor of the date", () => {
    const clean = runs(50).days[0].headLoss;
    expect(runs(50, { cloggingFactor: 3 }).days[0].headLoss).toBeCloseTo(3 * clean, 12);
    const dated = runs(50, { cloggingFactor: (date) => (date === "2026-01-01" ? 2 : 1) });
    expect(dated.days[0].headLoss).toBeCloseTo(2 * clean, 12);
  });

  test("loses the hours of a shutdown and no more", () => {
    const whole = runs(50).days[0].energy;
    const atNight = energy.seasonShutdown({ from: "01-01", to: "01-31", part: "night" });
    const stopped = runs(50, { shutdown: atNight, nightShare: 0.6 }).days[0];
    expect(stopped.stopped).toEqual({ day: false, night: true });
    expect(stopped.energy).toBeCloseTo(0.4 * whole, 2);
    expect(stopped.turbineFlow).toBe(34);
  });
});

describe("the account of energy.operation", () => {
  const causes = energy.lossCauses;
  const lost = ({ losses }: { readonly losses: Readonly<Record<string, number>> }) =>
    causes.reduce((sum, cause) => sum + losses[cause], 0);

  test("has losses that add up, with what is produced, to the potential", () => {
    assert(
      property(
        array(double({ min: 0, max: 150, noNaN: true }), { minLength: 1, maxLength: 20 }),
        double({ min: 1, max: 10, noNaN: true }),
        (flows, cloggingFactor) => {
          const shutdown = energy.seasonShutdown({ from: "01-05", to: "01-09" });
          const { total, days } = energy.operation({
            ...plant,
            cloggingFactor,
            shutdown,
            record: record(...flows),
          });
          expect(lost(total) + total.produced).toBeCloseTo(total.potential, -2);
          for (const cause of causes) expect(total.losses[cause]).toBeGreaterThanOrEqual(0);
          const produced = days.reduce((sum, day) => sum + day.energy, 0);
          expect(total.produced).toBeCloseTo(produced, -2);
        },
      ),
    );
  });

  test("books each cause where it belongs", () => {
    const day = 86_400;
    const head = 1000 * 9.81 * 5.4;
    const { total } = runs(20);
    expect(total.potential).toBeCloseTo(head * 20 * 0.9 * day, 0);
    expect(total.losses.residualFlow).toBeCloseTo(head * 2.5 * 0.9 * day, 0);
    expect(total.losses.bypassFlow).toBeCloseTo(head * 1.36 * 0.9 * day, 0);
    expect(total.losses.standstill).toBe(0);
    expect(runs(6).total.losses.standstill).toBeCloseTo(head * (6 - 2.5 - 1.36) * 0.9 * day, 0);
    expect(total.losses.clogging).toBe(0);
  });

  test("books the clean rack as energy.annualLoss does", () => {
    const flows = [12, 25, 60];
    const { days, annual } = energy.operation({ ...plant, record: record(...flows) });
    const loss = energy.annualLoss({
      days: days.map(({ date, turbineFlow }) => ({ date, turbineFlow })),
      lossAt: (flow) => plant.rackLoss((flow + 1.36) / (17 * 3.6)),
      efficiency: (flow) => energy.dispatch({ available: flow, units: plant.units }).efficiency,
    });
    expect(annual.losses.rack / loss.annual).toBeCloseTo(1, 9);
  });

  test("scales the record to a mean year", () => {
    const { annual, total } = energy.operation({ ...plant, record: record(30, 30) });
    expect(annual.produced).toBeCloseTo((total.produced / 2) * 365.25, 0);
  });
});

describe("energy.operation refuses", () => {
  test("a record with a gap, a doubled day or a negative flow, naming the day", () => {
    const [first, , third] = record(30, 30, 30);
    expect(() => energy.operation({ ...plant, record: [first, third] })).toThrow(
      "energy.operation: a day is missing in the record, from 2026-01-02",
    );
    expect(() => energy.operation({ ...plant, record: [first, first] })).toThrow("2026-01-01 stands twice");
    expect(() => runs(-3)).toThrow("the discharge of 2026-01-01 is -3 m³/s");
  });

  test("a season's record, whose year would not be one", () => {
    const season = river.season(record(30, 30), "01-01", "01-31");
    expect(() => energy.operation({ ...plant, record: season })).toThrow("only the season 01-01 to 01-31");
  });

  test("a negative head loss, a clogging factor below 1 and a night longer than a day", () => {
    expect(() => runs(50, { rackLoss: () => u.m(-0.1) })).toThrow("rackLoss of 2026-01-01 is -0.1 m");
    expect(() => runs(50, { cloggingFactor: 0.5 })).toThrow("cloggingFactor is 0.5");
    expect(() => runs(50, { cloggingFactor: () => Number.NaN })).toThrow("cloggingFactor of 2026-01-01");
    expect(() => runs(50, { nightShare: 12 })).toThrow("nightShare is 12");
  });
});

describe("energy.seasonShutdown", () => {
  test("runs over the new year, by its part of the day, from its flow on", () => {
    const stop = energy.seasonShutdown({ from: "11-15", to: "01-15", part: "night", fromFlow: u.m3ps(40) });
    expect(stop("2026-12-31", "night", u.m3ps(40))).toBe(true);
    expect(stop("2026-01-10", "night", u.m3ps(60))).toBe(true);
    expect(stop("2026-01-16", "night", u.m3ps(60))).toBe(false);
    expect(stop("2026-12-31", "day", u.m3ps(40))).toBe(false);
    expect(stop("2026-12-31", "night", u.m3ps(39))).toBe(false);
  });

  test("refuses a day of the year that is none", () => {
    expect(() => energy.seasonShutdown({ from: "13-01", to: "01-15" })).toThrow(
      'energy.seasonShutdown: from is "13-01"; a day of the year reads 03-01, the month first.',
    );
  });
});

describe("energy.cloggingByDay", () => {
  test("carries the mean loss of clogging.headLossOverTime to the plant's days", () => {
    const flows = record(40, 60);
    const { days } = clogging.headLossOverTime({
      days: flows.map(({ date, discharge }) => ({
        date,
        riverFlow: discharge,
        turbineFlow: u.m3ps(34),
        debris: { leaves: u.kg(300) },
      })),
      rack: {
        rackArea: u.m2(99.4),
        channelArea: u.m2(17 * 3.6),
        clearSpacing: u.mm(18),
        cleanLossCoefficient: 0.5,
        coefficients: { scale: 6, loadExponent: 1.3, spacingExponent: 0.5 },
      },
      cleaning: { threshold: u.m(0.1), shortestInterval: u.h(1), reach: 1, greatestLoss: u.m(0.5) },
      assumptions: { stickingShare: 0.5, leafEquivalents: { leaves: 1 } },
    });
    const cloggingFactor = energy.cloggingByDay(days);
    const run = energy.operation({ ...plant, bypassFlow: u.m3ps(0), cloggingFactor, record: flows });
    run.days.forEach((day, at) => expect(day.headLoss).toBeCloseTo(days[at].meanHeadLoss, 9));
    expect(run.total.losses.clogging).toBeGreaterThan(run.total.losses.rack);
  });

  test("is 1 without loss, and refuses a day it has not and a day that stands twice", () => {
    const still = { date: "2026-01-01", cleanHeadLoss: u.m(0), meanHeadLoss: u.m(0) };
    const factor = energy.cloggingByDay([still]);
    expect(factor("2026-01-01")).toBe(1);
    expect(() => factor("2026-01-02")).toThrow("energy.cloggingByDay: there is no day 2026-01-02");
    expect(() => energy.cloggingByDay([still, still])).toThrow("2026-01-01 stands twice");
  });
});
