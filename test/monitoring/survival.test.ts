import { fileURLToPath } from "node:url";
import { readFileSync } from "node:fs";
import { assert, integer, property } from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { monitoring } from "../../kernel-helpers/src";
import { readTable } from "../../kernel-helpers/src/records/readTable";
import { checkRecords } from "../../kernel-helpers/src/records/records";

const file = fileURLToPath(new URL("../../data-demo/monitoring-catches.csv", import.meta.url));
let rows: readonly monitoring.CatchRow[];

beforeAll(async () => {
  const table = await readTable(readFileSync(file), "monitoring-catches.csv");
  rows = checkRecords(table, monitoring.catchRecord, { setAside: true }).rows;
});

const holds = ({ lower, upper }: { readonly lower: number; readonly upper: number }, truth: number) =>
  lower <= truth && truth <= upper;

describe("the efficiency of a net", () => {
  // data-demo/README.md: 0.95 behind the bypass, 0.8 behind the turbine, at both plants.
  test.each(["Halvern Weir", "Kelmar Mill"])("holds the truth of the demo record at %s", (plant) => {
    const { bypass, turbine } = monitoring.gearEfficiencies(rows, { plant });
    expect(holds(bypass, 0.95)).toBe(true);
    expect(holds(turbine, 0.8)).toBe(true);
    expect(turbine.denominator).toBe("fish released");
    expect(turbine.estimate).toBe(turbine.caught / turbine.released);
  });

  test("needs a release on two nights, and says which rows there are where none fits", () => {
    const oneNight = rows.filter(({ night }) => night === "2023-10-05");
    expect(() => monitoring.gearEfficiency(oneNight, { net: "turbine", plant: "Halvern Weir" })).toThrow(
      /released on one night only/,
    );
    expect(() => monitoring.gearEfficiency(rows, { net: "turbine", plant: "Sorrel Lock" })).toThrow(
      /no row has plant "Sorrel Lock" and net "turbine" and group "control"|no row has/,
    );
  });
});

describe("fish that passed", () => {
  const gearEfficiency = { estimate: 0.8, standardError: 0.02 };

  test("are the catch over the efficiency, and their error has the two parts of the delta method", () => {
    const { estimate, standardError } = monitoring.correctedCatch({ caught: 80, gearEfficiency });
    expect(estimate).toBeCloseTo(100, 12);
    expect(standardError).toBeCloseTo(Math.sqrt((80 * 0.2) / 0.64 + (80 * 0.02) ** 2 / 0.8 ** 4), 12);
  });

  test("are no fewer than were caught, and none caught leaves an upper bound", () => {
    assert(
      property(integer({ min: 0, max: 500 }), (caught) => {
        const { lower, estimate, upper } = monitoring.correctedCatch({ caught, gearEfficiency });
        return caught <= lower && lower <= estimate && estimate <= upper;
      }),
    );
    // e^(−0.8 N) is 0.05 at the upper bound.
    const { upper, standardError } = monitoring.correctedCatch({ caught: 0, gearEfficiency });
    expect(Math.exp(-0.8 * upper)).toBeCloseTo(0.05, 12);
    expect(standardError).toBe(0);
  });

  test("add up over nights, species and classes to the same catch", () => {
    const gear = monitoring.gearEfficiencies(rows, { plant: "Kelmar Mill" });
    const totals = ([["night"], ["species"], ["species", "lengthClass"], []] as const).map((by) =>
      monitoring
        .correctedCatches(rows, { plant: "Kelmar Mill", by, gear })
        .reduce((sum, { caught }) => sum + caught, 0),
    );
    expect(new Set(totals).size).toBe(1);
  });

  test("refuse an efficiency of 0", () => {
    const none = { estimate: 0, standardError: 0 };
    expect(() => monitoring.correctedCatch({ caught: 3, gearEfficiency: none })).toThrow(
      /gearEfficiency.estimate is 0; it must be above 0 and at most 1/,
    );
  });
});

const night = (name: string, alive: number, fish = 50) => ({ night: name, alive, fish });

describe("survival relative to a control", () => {
  test("is shown above 1, with a caution", () => {
    const { estimate, cautions } = monitoring.relativeSurvival({
      treated: { alive: 98, fish: 100 },
      control: { alive: 90, fish: 100 },
    });
    expect(estimate).toBeCloseTo(98 / 90, 12);
    expect(cautions[0]).toMatch(/1.089, above 1 by chance/);
  });

  test("takes fish of one night as independent, and says so", () => {
    const { method, cautions } = monitoring.relativeSurvival({
      treated: { alive: 90, fish: 100 },
      control: { alive: 95, fish: 100 },
    });
    expect(method).toContain("fish taken as independent");
    expect(cautions.join()).toContain("spread between nights is unknown");
  });

  test("has a wider interval where nights differ, and a narrower one again where control fish share the difference", () => {
    const lived = [49, 30, 48, 29, 47, 31];
    const treated = lived.map((alive, at) => night(`${at}`, alive));
    const steady = monitoring.relativeSurvival({
      treated,
      control: lived.map((_, at) => night(`${at}`, 39)),
    });
    const shared = monitoring.relativeSurvival({
      treated,
      control: lived.map((alive, at) => night(`${at}`, alive)),
    });
    expect(steady.method).toContain("nights as clusters");
    expect(steady.standardError).toBeGreaterThan(2 * shared.standardError);
    expect(shared.method).toContain("nights no more apart than independent fish");
  });

  test("takes rows of one night together", () => {
    const split = [night("a", 20, 25), night("a", 22, 25), night("b", 45)];
    const whole = [night("a", 42), night("b", 45)];
    const control = [night("a", 48), night("b", 49)];
    expect(monitoring.relativeSurvival({ treated: split, control })).toEqual(
      monitoring.relativeSurvival({ treated: whole, control }),
    );
  });

  test("has an interval with a width where no fish died, and where none lived", () => {
    const all = monitoring.relativeSurvival({
      treated: { alive: 50, fish: 50 },
      control: { alive: 40, fish: 40 },
    });
    expect(all.lower).toBeLessThan(0.95);
    expect(all.upper).toBeGreaterThan(1.05);
    expect(all.cautions.join()).toContain("None of 50 treated and 40 control fish died");
    const none = monitoring.relativeSurvival({
      treated: { alive: 0, fish: 50 },
      control: { alive: 40, fish: 40 },
    });
    expect([none.estimate, none.lower]).toEqual([0, 0]);
    expect(none.upper).toBeGreaterThan(0.05);
  });

  test("refuses more alive than fish, and a control of which none lived", () => {
    const treated = { alive: 5, fish: 10 };
    expect(() => monitoring.relativeSurvival({ treated: { alive: 11, fish: 10 }, control: treated })).toThrow(
      /treated\[0\].alive is 11/,
    );
    expect(() => monitoring.relativeSurvival({ treated, control: { alive: 0, fish: 10 } })).toThrow(
      /none of 10 control fish lived/,
    );
  });
});

describe("survival on a way past the rack", () => {
  // data-demo/README.md: the bypass kills 1 %; the turbine 0.4 or 1 a metre of length at once, 4 % of the rest later.
  // Released roach are 60 to 120 mm long, eels 450 to 650 mm, all lengths equally likely.
  test("agrees with the truth of the demo record: within three errors, and ten of twelve intervals hold it", () => {
    const turbines = [
      { plant: "Halvern Weir", species: "roach", atOnce: 1 - 0.4 * 0.09 },
      { plant: "Halvern Weir", species: "silver eel", atOnce: 1 - 0.4 * 0.55 },
      { plant: "Kelmar Mill", species: "roach", atOnce: 1 - 0.09 },
      { plant: "Kelmar Mill", species: "silver eel", atOnce: 1 - 0.55 },
    ];
    const compared = turbines.flatMap(({ plant, species, atOnce }) => {
      const survival = monitoring.routeSurvival(rows, { plant, species, net: "turbine", seed: 1 });
      return [
        { estimate: survival.atOnce, truth: atOnce },
        { estimate: survival.later, truth: 0.96 },
        { estimate: survival.after96h, truth: 0.96 * atOnce },
      ];
    });
    const far = compared.filter(
      ({ estimate, truth }) => Math.abs(estimate.estimate - truth) > 3 * estimate.standardError,
    );
    expect(far).toEqual([]);
    expect(compared.filter(({ estimate, truth }) => holds(estimate, truth)).length).toBeGreaterThanOrEqual(
      10,
    );
  });

  test("names what it counts against, and the two denominators differ", () => {
    const options = { plant: "Kelmar Mill", species: "roach", net: "turbine", seed: 1 } as const;
    const caught = monitoring.routeSurvival(rows, options);
    const released = monitoring.routeSurvival(rows, { ...options, denominator: "released" });
    expect(caught.denominator).toMatch(/^fish caught/);
    expect(released.denominator).toMatch(/^fish released/);
    expect(released.atOnce.control.fish).toBeGreaterThan(caught.atOnce.control.fish);
  });

  test("gives the delayed share where deaths are told from none, by hand and with the same seed the same interval", () => {
    const options = { plant: "Kelmar Mill", species: "roach", net: "turbine", seed: 1 } as const;
    const { atOnce, after96h, delayedShare } = monitoring.routeSurvival(rows, options);
    expect(delayedShare?.estimate).toBeCloseTo(1 - (1 - atOnce.estimate) / (1 - after96h.estimate), 12);
    expect(monitoring.routeSurvival(rows, options).delayedShare).toEqual(delayedShare);
    const bypass = monitoring.routeSurvival(rows, { ...options, plant: "Halvern Weir", net: "bypass" });
    expect(bypass.delayedShare).toBeUndefined();
    expect(bypass.cautions.join()).toContain("not told from none");
  });

  test("compares wild fish with the same control, over fish caught only", () => {
    const options = {
      plant: "Kelmar Mill",
      species: "roach",
      net: "turbine",
      group: "wild",
      seed: 1,
    } as const;
    expect(monitoring.routeSurvival(rows, options).group).toBe("wild");
    expect(() => monitoring.routeSurvival(rows, { ...options, denominator: "released" })).toThrow(
      /wild fish are not released/,
    );
  });

  test("has injuries by class that add up to the catch, fewer unhurt fish behind the turbine than in the control", () => {
    const shares = monitoring.injuryShares(rows, { plant: "Kelmar Mill", species: "roach" });
    expect(shares.length).toBe(6);
    for (const { uninjured, lightlyInjured, severelyInjured } of shares)
      expect(uninjured + lightlyInjured + severelyInjured).toBeCloseTo(1, 12);
    const unhurt = monitoring.uninjuredRelative(rows, {
      plant: "Kelmar Mill",
      net: "turbine",
      species: "roach",
    });
    expect(unhurt.upper).toBeLessThan(1);
  });
});
