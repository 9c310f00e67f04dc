import { energy, fish, protection, survival, turbine, u } from "kernel-helpers";
import { assert, double, property } from "fast-check";
import { describe, expect, test } from "vitest";
import { plant, record } from "../plant";

const ramp = protection.rampLaw({ threshold: 0.2, exponent: 1 });
const fall = (length: number): number => 1 - 0.6 * length;
const laws = {
  clearSpacing: u.mm(18),
  protection: ramp,
  turbineSurvival: fall,
  protectedSurvival: 0.98,
  bypassSurvival: 0.99,
  weirSurvival: 0.97,
};
const roach = {
  species: "roach",
  bodyRatio: 0.11,
  classes: [
    { totalLength: u.mm(90), count: 30, mass: u.g(9) },
    { totalLength: u.mm(150), count: 10, mass: u.g(44) },
  ],
};
const eel = {
  species: "silver eel",
  bodyRatio: 0.03,
  classes: [{ totalLength: u.mm(700), count: 5, mass: u.g(650) }],
};
const dates = ["2026-01-01", "2026-01-02", "2026-01-03"] as const;
const migration = [
  { date: dates[0], species: "roach", byDay: 100, byNight: 300 },
  { date: dates[1], species: "roach", byDay: 50, byNight: 0 },
  { date: dates[1], species: "silver eel", byDay: 1, byNight: 40 },
  { date: dates[2], species: "silver eel", byDay: 0, byNight: 0 },
];
const { days } = energy.operation({ ...plant, record: record(60, 12, 4) });
const season = (change: Partial<energy.SeasonInputs> = {}) =>
  energy.seasonSurvival({ ...laws, days, migration, species: [roach, eel], ...change });

const loaded = (unitFlow: number) => () => unitFlow / 20;
const lawOfSpecies = (species: string) => (species === "roach" ? ramp : protection.barrierLaw());
const measured = (species: string, mm: number, grams: number) => ({
  species,
  totalLength: u.mm(mm),
  weight: u.g(grams),
});
const strikeAt = (discharge: ReturnType<typeof u.m3ps>) =>
  turbine.survivalLaw({
    model: "waterLengthStrike",
    unit: {
      type: "kaplan",
      discharge,
      head: u.m(5.3),
      rotationalSpeed: u.rpm(187.5),
      efficiency: 0.9,
      blades: 4,
      runnerDiameter: u.m(1.95),
      hubDiameter: u.m(0.82),
    },
    inflowAngle: u.deg(29.8),
    injuryShare: "vonRaben",
  });

/** The whole season fish by fish group, in the plainest way. */
function byHand(operated: readonly energy.OperatingDay[], rows: typeof migration) {
  let migrants = 0;
  let alive = 0;
  let mass = 0;
  let aliveMass = 0;
  for (const { date, species, byDay, byNight } of rows) {
    const day = operated.find((one) => one.date === date);
    const { bodyRatio, classes } = species === "roach" ? roach : eel;
    if (day === undefined) throw new Error(date);
    const all = classes.reduce((sum, { count }) => sum + count, 0);
    for (const [fishes, stopped] of [
      [byDay, day.stopped.day],
      [byNight, day.stopped.night],
    ] as const) {
      const turbineFlow = stopped ? 0 : day.turbineFlow;
      const channel = turbineFlow + day.bypassFlow;
      const weir = (day.riverFlow - channel) / day.riverFlow;
      const bypass = channel === 0 ? 0 : ((1 - weir) * day.bypassFlow) / channel;
      for (const { totalLength, count, mass: one } of classes) {
        const held = ramp((bodyRatio * totalLength) / laws.clearSpacing);
        const shares = [weir, bypass, (1 - weir - bypass) * held, (1 - weir - bypass) * (1 - held)];
        const survivals = [0.97, 0.99, 0.98, fall(totalLength)];
        const fishOfClass = (fishes * count) / all;
        const share = survival.routes({ shares, survivals });
        migrants += fishOfClass;
        alive += fishOfClass * share;
        mass += fishOfClass * one;
        aliveMass += fishOfClass * one * share;
      }
    }
  }
  return { migrants, byNumbers: alive / migrants, byBiomass: aliveMass / mass };
}

describe("energy.seasonSurvival", () => {
  test("adds up days, parts of the day, species and classes as by hand", () => {
    const expected = byHand(days, migration);
    const result = season();
    expect(result.migrants).toBe(491);
    expect(result.byNumbers).toBeCloseTo(expected.byNumbers, 12);
    expect(result.byBiomass).toBeCloseTo(expected.byBiomass, 12);
  });

  test("does so with a shutdown by night", () => {
    const shutdown = energy.seasonShutdown({ from: "01-01", to: "01-02", part: "night" });
    const operated = energy.operation({ ...plant, shutdown, record: record(60, 12, 4) }).days;
    const expected = byHand(operated, migration);
    expect(season({ days: operated }).byNumbers).toBeCloseTo(expected.byNumbers, 12);
    expect(season({ days: operated }).byNumbers).toBeGreaterThan(season().byNumbers);
  });

  test("parts the fish over ways that add up to all of them", () => {
    for (const { routes } of [season(), ...season().species])
      expect(routes.weir + routes.bypass + routes.rack + routes.turbine).toBeCloseTo(1, 12);
  });

  test("sends all fish to the bypass that enter a channel whose turbines stand still", () => {
    const [day] = energy.operation({ ...plant, record: record(5) }).days;
    const { routes } = season({ days: [day], migration: [migration[0]] });
    expect(routes.weir).toBeCloseTo((5 - 1.36) / 5, 12);
    expect(routes.bypass).toBeCloseTo(1.36 / 5, 12);
    expect([routes.rack, routes.turbine]).toEqual([0, 0]);
  });

  test("gives each class its protection, its turbine survival and its survival", () => {
    const [{ classes }] = season().species;
    expect(classes.map(({ migrants }) => migrants)).toEqual([450 * 0.75, 450 * 0.25]);
    expect(classes[0].turbineSurvival).toBeCloseTo(fall(0.09), 12);
    expect(classes[1].protection).toBeCloseTo(ramp((0.11 * 0.15) / 0.018), 12);
    const mean = classes[0].survival * 0.75 + classes[1].survival * 0.25;
    expect(mean).toBeCloseTo(season().species[0].byNumbers, 12);
  });

  test("takes the turbine law at each unit's flow where one is given", () => {
    const [full] = days;
    const result = season({ days: [full], migration: [migration[0]], turbineSurvival: { at: loaded } });
    expect(result.species[0].classes[0].turbineSurvival).toBeCloseTo(17 / 20, 12);
  });

  test("takes the law of each species where one is given", () => {
    const [first, second] = season({ protection: { of: lawOfSpecies } }).species;
    expect(first.byNumbers).toBeCloseTo(season().species[0].byNumbers, 12);
    expect(second.byNumbers).toBeLessThan(season().species[1].byNumbers + 1e-12);
  });

  test("has no biomass where the classes have no masses", () => {
    const bare = [roach, eel].map((one) => ({
      ...one,
      classes: one.classes.map(({ totalLength, count }) => ({ totalLength, count })),
    }));
    expect(season({ species: bare }).byBiomass).toBeUndefined();
    expect(season({ species: bare }).byNumbers).toBeCloseTo(season().byNumbers, 12);
  });

  test("lists the days with fish, whose survivals weigh up to the season's", () => {
    const result = season();
    expect(result.days.map(({ date }) => date)).toEqual(["2026-01-01", "2026-01-02"]);
    const alive = result.days.reduce((sum, day) => sum + day.migrants * day.survival, 0);
    expect(alive / result.migrants).toBeCloseTo(result.byNumbers, 12);
  });

  test("lies between the worst and the best of the survivals", () => {
    assert(
      property(
        double({ min: 0, max: 3, noNaN: true }),
        double({ min: 0, max: 20, noNaN: true }),
        (weirEffectiveness, bypassEffectiveness) => {
          const { byNumbers, routes } = season({ weirEffectiveness, bypassEffectiveness });
          expect(byNumbers).toBeGreaterThanOrEqual(fall(0.7) - 1e-12);
          expect(byNumbers).toBeLessThanOrEqual(0.99 + 1e-12);
          expect(Object.values(routes).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
        },
      ),
    );
  });

  test("never loses fish by a narrower rack where protected fish fare better than in the turbine", () => {
    const spacings = [40, 25, 18, 12].map((spacing) => season({ clearSpacing: u.mm(spacing) }).byNumbers);
    expect(spacings).toEqual(spacings.toSorted((one, other) => one - other));
  });

  test("carries the laws' cautions, and warns of guided fish counted twice", () => {
    expect(season().cautions.join("\n")).toMatch(/protected survival is an assumption/);
    expect(season().cautions.join("\n")).toMatch(/counted in it already/);
    expect(season({ bypassEffectiveness: 0 }).cautions.join("\n")).not.toMatch(/counted in it already/);
  });

  test("refuses fish on a day without operation, without classes, or without water", () => {
    expect(() => season({ days: days.slice(0, 1) })).toThrow(
      "energy.seasonSurvival: roach come on 2026-01-02, a day that the operation does not have",
    );
    expect(() => season({ species: [roach] })).toThrow(
      "silver eel come on 2026-01-02, but species has no length classes for them; it has roach.",
    );
    expect(() => season({ species: [roach, roach, eel] })).toThrow("species has roach twice");
    const dry = energy.operation({ ...plant, record: record(0) }).days;
    expect(() => season({ days: dry, migration: [migration[0]] })).toThrow(
      "400 roach come on 2026-01-01, when no water",
    );
  });

  test("refuses an empty season, survivals that are no shares and masses for some classes only", () => {
    expect(() => season({ migration: [migration[3]] })).toThrow("no fish come in the season");
    expect(() => season({ weirSurvival: 97 })).toThrow("weirSurvival is 97");
    expect(() => season({ turbineSurvival: () => 1.2 })).toThrow("turbineSurvival at 90 mm is 1.2");
    expect(() => season({ protection: () => -1 })).toThrow("protection of roach at 90 mm is -1");
    expect(() => season({ weirEffectiveness: -1 })).toThrow("weirEffectiveness is -1");
    const patchy = { ...roach, classes: [roach.classes[0], { totalLength: u.mm(150), count: 3 }] };
    expect(() => season({ species: [patchy, eel] })).toThrow("roach has masses for some classes only");
  });

  test("takes milliseconds for a year of seven species with 40 classes each", () => {
    const species = fish.speciesTable.map((one) => ({
      species: one.name,
      bodyRatio: fish.gapRatio(one),
      classes: Array.from({ length: 40 }, (_, at) => ({
        totalLength: u.mm(50 + 10 * at),
        count: 1,
        mass: u.g(9),
      })),
    }));
    const year = record(...Array.from({ length: 365 }, (_, day) => 20 + 15 * Math.sin(day / 20)));
    const operated = energy.operation({ ...plant, record: year }).days;
    const rows = operated.flatMap(({ date }) =>
      species.map((one) => ({ date, species: one.species, byDay: 3, byNight: 5 })),
    );
    const inputs = { ...laws, days: operated, migration: rows, species, turbineSurvival: { at: strikeAt } };
    energy.seasonSurvival(inputs);
    const times = Array.from({ length: 5 }, () => {
      const start = performance.now();
      energy.seasonSurvival(inputs);
      return performance.now() - start;
    });
    // The least of five: other work on the machine only adds.
    expect(Math.min(...times)).toBeLessThan(200);
  });
});

describe("energy.routeShares", () => {
  test("parts fish as the water, or as an effectiveness says, at most all", () => {
    const flows = { weirFlow: u.m3ps(10), bypassFlow: u.m3ps(2), turbineFlow: u.m3ps(28) };
    expect(energy.routeShares(flows)).toEqual({ weir: 0.25, bypass: 0.05, atRack: 0.7 });
    expect(energy.routeShares({ ...flows, weirEffectiveness: 2 }).weir).toBe(0.5);
    expect(energy.routeShares({ ...flows, weirEffectiveness: 9 })).toEqual({ weir: 1, bypass: 0, atRack: 0 });
    expect(energy.routeShares({ ...flows, bypassEffectiveness: 0 }).bypass).toBe(0);
  });

  test("refuses a place without water and a negative flow", () => {
    const none = { weirFlow: u.m3ps(0), bypassFlow: u.m3ps(0), turbineFlow: u.m3ps(0) };
    expect(() => energy.routeShares(none)).toThrow("no water flows over weir, bypass or turbines");
    expect(() => energy.routeShares({ ...none, weirFlow: u.m3ps(-1) })).toThrow("weirFlow is -1 m³/s");
  });
});

describe("energy.characteristicYears", () => {
  const flowOfYear = new Map([
    [2021, 30],
    [2022, 50],
    [2023, 41],
    [2024, 36],
  ]);
  const days4 = Array.from({ length: 1461 + 20 }, (_, day) => {
    const date = new Date(Date.UTC(2021, 0, 1 + day)).toISOString().slice(0, 10);
    return { date, discharge: u.m3ps(flowOfYear.get(Number(date.slice(0, 4))) ?? 1) };
  });

  test("are the whole years of lowest and highest mean flow, and the one nearest to the mean", () => {
    const years = energy.characteristicYears(days4);
    expect(years.map(({ kind, year, meanFlow }) => [kind, year, Math.round(meanFlow)])).toEqual([
      ["dry", 2021, 30],
      ["mean", 2023, 41],
      ["wet", 2022, 50],
    ]);
    expect(years.map((one) => one.record.length)).toEqual([365, 365, 365]);
  });

  test("need three whole years and a record in order", () => {
    expect(() => energy.characteristicYears(days4.slice(0, 1000))).toThrow(
      "the record has 2 whole calendar years",
    );
    expect(() => energy.characteristicYears([...days4.slice(0, 5), ...days4.slice(6)])).toThrow(
      "a day is missing",
    );
  });

  test("energy.inYear cuts any record to a year and refuses one without rows", () => {
    expect(energy.inYear(days4, 2024)).toHaveLength(366);
    expect(() => energy.inYear(days4, 2019)).toThrow("no row of the year 2019");
  });
});

describe("energy.populations", () => {
  test("counts fish into classes whose lower end belongs to them, with their mean mass", () => {
    const [one] = energy.populations({
      sample: [measured("roach", 120, 20), measured("roach", 129, 24), measured("roach", 130, 30)],
    });
    expect(one.classes.map(({ totalLength, count, mass }) => [totalLength, count, mass])).toEqual([
      [expect.closeTo(0.125, 12), 2, expect.closeTo(0.022, 12)],
      [expect.closeTo(0.135, 12), 1, expect.closeTo(0.03, 12)],
    ]);
  });

  test("meets the gap with width or height as the species does", () => {
    const [roachOne, burbot] = energy.populations({
      sample: [measured("roach", 120, 20), measured("burbot", 300, 200)],
    });
    expect([roachOne.bodyRatio, burbot.bodyRatio]).toEqual([0.11, 0.13]);
  });

  test("refuses an unknown species, a class without width and an empty sample", () => {
    expect(() => energy.populations({ sample: [measured("salmon", 120, 20)] })).toThrow(
      'no species "salmon"',
    );
    expect(() => energy.populations({ sample: [measured("roach", 120, 20)], classWidth: u.mm(0) })).toThrow(
      "classWidth",
    );
    expect(() => energy.populations({ sample: [] })).toThrow("the sample has no fish");
  });
});
