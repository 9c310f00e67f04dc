import { describe, expect, it } from "vitest";
import { poisson } from "../../data-demo/generators/counts";
import { sampleLength } from "../../data-demo/generators/fish-lengths";
import { speciesNamed } from "../../data-demo/generators/fish-measurements";
import { fieldProtection, monitoringCatchesCsv } from "../../data-demo/generators/monitoring-catches";
import {
  monitoredPlants,
  monitoredSpecies,
  monitoringTruth as truth,
} from "../../data-demo/generators/monitoring-truth";
import { plantedErrors } from "../../data-demo/generators/planted-catches";
import { seededDraws } from "../../data-demo/generators/random";
import { trialTruth } from "../../data-demo/generators/trial-runs";
import { demoRows } from "./files";
import { groupsBy, mean } from "./numbers";

type Row = Record<string, string>;
const rows = demoRows("monitoring-catches.csv");
const counts = ["caught", "uninjured", "lightlyInjured", "severelyInjured", "deadAtOnce", "deadAfter96h"];

/** What is wrong with a row by itself, as a careful reader would put it. */
function faults(row: Row): string[] {
  const [caught, uninjured, light, severe, dead, later] = counts.map((column) => Number(row[column]));
  const plant = monitoredPlants.find((one) => one.plant === row.plant);
  const flow = Number(row["turbineFlow [m3/s]"]);
  const whole = counts.every((column) => /^\d+$/.test(row[column]));
  const checks: [wrong: boolean, fault: string][] = [
    [plant === undefined, "plant"],
    [new Date(`${row.night}T00:00:00Z`).toString() === "Invalid Date", "night"],
    [!["bypass", "turbine"].includes(row.net), "net"],
    [!monitoredSpecies.some(({ species }) => species === row.species), "species"],
    [!(Number(row["lengthFrom [mm]"]) < Number(row["lengthTo [mm]"])), "length class"],
    [!whole, "count"],
    [whole && uninjured + light + severe !== caught, "sum of the injury classes"],
    [whole && dead > caught, "deaths at once"],
    [whole && dead <= caught && later > caught - dead, "deaths later"],
    [row.group === "wild" ? row.released !== "" : row.released === "", "released"],
    [row.released !== "" && row.group !== "wild" && caught > Number(row.released), "more than released"],
    [Number.isNaN(flow), "turbine flow"],
    [plant !== undefined && flow > plant.fullFlow, "turbine flow"],
    [Number(row["turbineLoad [kW]"]) === 0, "turbine load"],
  ];
  return checks.filter(([wrong]) => wrong).map(([, fault]) => fault);
}

const planted = new Set(plantedErrors.map(({ catchId }) => catchId));
const sound = rows.filter(({ catchId }) => !planted.has(catchId));

function total(group: readonly Row[], column: string): number {
  return group.reduce((sum, row) => sum + Number(row[column]), 0);
}

function releases(plant: string, species: string, net: string, group: string): Row[] {
  return sound.filter(
    (row) => row.plant === plant && row.species === species && row.net === net && row.group === group,
  );
}

function halvernRows(csv: string): string[] {
  return csv.split("\n").filter((row) => row.includes("Halvern"));
}

describe("monitoring-catches.csv", () => {
  it("has seventeen planted errors, and a reader who checks each row finds these and no other", () => {
    expect(plantedErrors).toHaveLength(17);
    const repeated = [...groupsBy(rows, ({ catchId }) => catchId)].filter(([, same]) => same.length > 1);
    const found = new Set([
      ...rows.filter((row) => faults(row).length > 0).map(({ catchId }) => catchId),
      ...repeated.map(([catchId]) => catchId),
    ]);
    expect([...found].toSorted()).toEqual([...planted].toSorted());
  });

  it("has one fault in each faulty row, so that each can be told from the others", () => {
    const perRow = rows.map((row) => faults(row).length);
    expect(Math.max(...perRow)).toBe(1);
    expect(perRow.filter((count) => count === 1)).toHaveLength(plantedErrors.length - 1);
  });

  it("holds the planted cell where the list says so", () => {
    for (const { catchId, column, cell } of plantedErrors.filter((error) => error.cell !== "again")) {
      const [row] = rows.filter((one) => one.catchId === catchId);
      const [, held] = Object.entries(row).find(([name]) => name.replace(/ \[.*/, "") === column) ?? [];
      expect({ catchId, held }).toEqual({ catchId, held: cell });
    }
  });

  it("covers 24 nights at each plant, with releases on every third", () => {
    for (const { plant } of monitoredPlants) {
      const ofPlant = sound.filter((row) => row.plant === plant);
      expect(new Set(ofPlant.map(({ night }) => night)).size).toBe(24);
      expect(new Set(ofPlant.filter(({ group }) => group === "treated").map(({ night }) => night)).size).toBe(
        8,
      );
    }
  });

  it("has one flow and one load a night, below the plant's full flow", () => {
    for (const same of groupsBy(sound, ({ plant, night }) => `${plant} ${night}`).values()) {
      expect(new Set(same.map((row) => `${row["turbineFlow [m3/s]"]} ${row["turbineLoad [kW]"]}`)).size).toBe(
        1,
      );
    }
  });

  it("loads the turbine by flow, head and efficiency within the scatter of a load", () => {
    for (const { plant, head, efficiency } of monitoredPlants) {
      for (const row of sound.filter((one) => one.plant === plant)) {
        const expected = 9.81 * Number(row["turbineFlow [m3/s]"]) * head * efficiency;
        expect(Math.abs(Number(row["turbineLoad [kW]"]) / expected - 1)).toBeLessThan(0.05);
      }
    }
  });

  it("changes one plant only when only that plant changes", () => {
    const other = monitoredPlants.map((plant) =>
      plant.plant === "Kelmar Mill" ? { ...plant, clearSpacing: 12 } : plant,
    );
    const changed = monitoringCatchesCsv(truth, other);
    expect(halvernRows(changed)).toEqual(halvernRows(monitoringCatchesCsv()));
    expect(changed).not.toBe(monitoringCatchesCsv());
  });
});

describe.each(monitoredPlants)("the catches of $plant give back the truth:", (plant) => {
  const released = monitoredSpecies.filter((monitored) => monitored.released);

  it.each([
    { net: "bypass", efficiency: truth.bypassNetEfficiency },
    { net: "turbine", efficiency: truth.turbineNetEfficiency },
  ])("the share of the controls that the net behind the $net holds", ({ net, efficiency }) => {
    const controls = released.flatMap(({ species }) => releases(plant.plant, species, net, "control"));
    const number = total(controls, "released");
    const allowed = 3.5 * Math.sqrt((efficiency * (1 - efficiency)) / number);
    expect(Math.abs(total(controls, "caught") / number - efficiency)).toBeLessThan(allowed);
  });

  it.each(released)(
    "survival of the turbine by $species, corrected by the controls",
    ({ species, classBounds }) => {
      const alive = (group: string) => {
        const ofGroup = releases(plant.plant, species, "turbine", group);
        const caught = total(ofGroup, "caught");
        const share = 1 - total(ofGroup, "deadAtOnce") / caught;
        return { share, relative: (1 - share) / share / caught };
      };
      const [treated, control] = [alive("treated"), alive("control")];
      const estimate = treated.share / control.share;
      const error = estimate * Math.sqrt(treated.relative + control.relative);
      const expected = 1 - (plant.turbineDeathsPerMetre * (classBounds[0] + classBounds[1])) / 2000;
      expect(Math.abs(estimate - expected)).toBeLessThan(3.5 * error);
      expect(error).toBeLessThan(0.05);
    },
  );

  it("later deaths of controls: the handling's", () => {
    const controls = released.flatMap(({ species }) =>
      ["bypass", "turbine"].flatMap((net) => releases(plant.plant, species, net, "control")),
    );
    const alive = total(controls, "caught") - total(controls, "deadAtOnce");
    const share = total(controls, "deadAfter96h") / alive;
    const expected = truth.handlingDeadLater;
    expect(Math.abs(share - expected)).toBeLessThan(3.5 * Math.sqrt((expected * (1 - expected)) / alive));
  });

  it("the plant's departure from the curve of the laboratory", () => {
    const draws = seededDraws(77);
    const ofPlant = sound.filter((row) => row.plant === plant.plant);
    const nights = [...groupsBy(ofPlant, ({ night }) => night).values()];
    const meanFlow = mean(nights.map(([row]) => Number(row["turbineFlow [m3/s]"])));
    const velocity = meanFlow / plant.channelSection;
    const move = trialTruth.velocityEffect * (velocity - trialTruth.referenceVelocity);
    const departures = monitoredSpecies.map(({ species }) => {
      const lengths = Array.from({ length: 4000 }, () => sampleLength(speciesNamed(species), draws));
      const held = mean(lengths.map((length) => fieldProtection(plant, species, length, move)));
      const predicted = (held * (1 - truth.turningRound)) / (1 - held * truth.turningRound);
      const fish = (net: string) =>
        total(
          sound.filter(
            (row) =>
              row.plant === plant.plant && row.group === "wild" && row.species === species && row.net === net,
          ),
          "caught",
        );
      const bypass = fish("bypass") / truth.bypassNetEfficiency;
      return bypass / (bypass + fish("turbine") / truth.turbineNetEfficiency) - predicted;
    });
    const most = plant.fieldBias === 0 ? 0.05 : -0.1;
    const least = plant.fieldBias === 0 ? -0.05 : -0.3;
    expect(mean(departures)).toBeLessThan(most);
    expect(mean(departures)).toBeGreaterThan(least);
  });
});

describe("poisson", () => {
  it("has the mean and the variance that it is asked for", () => {
    const draws = seededDraws(9);
    const values = Array.from({ length: 20_000 }, () => poisson(draws, 6));
    const middle = mean(values);
    expect(Math.abs(middle - 6)).toBeLessThan(4 * Math.sqrt(6 / 20_000));
    expect(Math.abs(mean(values.map((value) => (value - middle) ** 2)) - 6)).toBeLessThan(0.3);
    expect(poisson(draws, 0)).toBe(0);
  });
});
