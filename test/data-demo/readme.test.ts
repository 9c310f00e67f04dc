import { describe, expect, it } from "vitest";
import { builtChoices, builtRacksTruth, plantedSlips } from "../../data-demo/generators/built-racks";
import { cloggingTruth } from "../../data-demo/generators/clogging-trials";
import { dailyFlowTruth } from "../../data-demo/generators/daily-flow";
import { debrisTruth, debrisTypes } from "../../data-demo/generators/debris";
import { fishLengthsTruth } from "../../data-demo/generators/fish-lengths";
import { bodyTruths, fishMeasurementsTruth } from "../../data-demo/generators/fish-measurements";
import { migrationTimingTruth, speciesTimings } from "../../data-demo/generators/migration-timing";
import {
  monitoredPlants,
  monitoredSpecies,
  monitoringTruth,
} from "../../data-demo/generators/monitoring-truth";
import { fishTracksTruth, trackDisagreements } from "../../data-demo/generators/fish-tracks";
import { plantedErrors } from "../../data-demo/generators/planted-catches";
import { rackLossFlumeTruth, rackLossTruths } from "../../data-demo/generators/rack-loss-flume";
import { recordSets } from "../../data-demo/generators/record-sets";
import { demoSpecies } from "../../data-demo/generators/species";
import { trialTruth } from "../../data-demo/generators/trial-runs";
import { velocityFieldTruth, velocityLayouts } from "../../data-demo/generators/velocity-field";
import { probeTruth, rawPoints } from "../../data-demo/generators/velocity-points";
import { demoRows, demoText, plain, readmeTables } from "./files";

describe.each(recordSets.map(({ file }) => file))("the README's schema of %s", (file) => {
  const [[heading, ...columns]] = readmeTables(file);

  it("has a unit, a range and a meaning for each column", () => {
    expect(heading).toEqual(["column", "unit", "range", "meaning"]);
    for (const cells of columns) {
      expect(cells).toHaveLength(4);
      expect(cells).not.toContain("");
    }
  });

  it("lists every column of the file, in order, with the unit that the header shows", () => {
    const documented = columns.map(([column, unit]) =>
      unit === "-" ? plain(column) : `${plain(column)} [${unit}]`,
    );
    expect(demoText(file).split("\n")[0].split(",")).toEqual(documented);
  });

  it("gives ranges and allowed values that every row keeps, planted errors apart", () => {
    const planted = new Set(plantedErrors.map(({ catchId }) => catchId));
    const rows = demoRows(file).filter(({ catchId = "" }) => !planted.has(catchId));
    for (const [column, unit, range] of columns) {
      const header = unit === "-" ? plain(column) : `${plain(column)} [${unit}]`;
      const cells = rows.map((row) => row[header]).filter((cell) => cell !== "");
      expect({ header, empty: cells.length === 0 }).toEqual({ header, empty: false });
      const stray = cells.filter((cell) => !keeps(cell, range));
      expect({ header, range, stray }).toEqual({ header, range, stray: [] });
    }
  });
});

/** Whether a cell keeps to a range as the README writes it: "text", "`a`, `b`", "1 to 5" or "date to date". */
function keeps(cell: string, range: string): boolean {
  if (range === "text") return cell.trim() === cell;
  if (range.startsWith("`")) return range.split(", ").map(plain).includes(cell);
  const [low, high] = range.split(" to ");
  if (/^\d{4}-\d\d-\d\d$/.test(low)) return /^\d{4}-\d\d-\d\d$/.test(cell) && low <= cell && cell <= high;
  if (Number.isNaN(Number(low)) || Number.isNaN(Number(high))) {
    throw new Error(`README.md: "${range}" is no range.`);
  }
  return /^-?\d+(\.\d+)?$/.test(cell) && Number(low) <= Number(cell) && Number(cell) <= Number(high);
}

describe("the README's true parameters", () => {
  it("are those of the flow generator, all of them", () => {
    const [table] = readmeTables("The truth behind the flow");
    expect(parameters(table)).toEqual(dailyFlowTruth);
  });

  it("are those of the fish generator, all of them", () => {
    const [table] = readmeTables("The truth behind the fish");
    expect(parameters(table)).toEqual(fishLengthsTruth);
  });

  it("are those of each species, in the order of the seeds", () => {
    const [, species] = readmeTables("The truth behind the fish");
    expect(species.slice(1)).toEqual(
      demoSpecies.map((fish) => [
        fish.species,
        String(fish.count),
        String(fish.shortest),
        String(fish.longest),
        fish.seasons.join(", "),
        String(fish.weightCoefficient),
        String(fish.weightExponent),
        String(fish.weightSpread),
      ]),
    );
  });

  it("are those of each age class", () => {
    const [, , ages] = readmeTables("The truth behind the fish");
    expect(ages.slice(1)).toEqual(
      demoSpecies.flatMap((fish) =>
        fish.ageClasses.map((age) => [
          fish.species,
          String(age.share),
          String(age.medianLength),
          String(age.spread),
        ]),
      ),
    );
  });

  it("are those of the measurements, all of them", () => {
    const [table, bodies] = readmeTables("The truth behind the measurements");
    expect(parameters(table)).toEqual(fishMeasurementsTruth);
    expect(bodies.slice(1)).toEqual(bodyTruths.map((body) => Object.values(body).map(String)));
  });

  it("are those of the trial, all of them", () => {
    const [table] = readmeTables("The truth behind the trial");
    expect(parameters(table)).toEqual(trialTruth);
  });

  it("are those of the flume and of each bar shape, all of them", () => {
    const [table, shapes] = readmeTables("The truth behind the rack losses");
    expect(parameters(table)).toEqual(rackLossFlumeTruth);
    expect(shapes.slice(1)).toEqual(rackLossTruths.map((shape) => Object.values(shape).map(String)));
  });

  it("are those of the monitoring, of each plant and of each species", () => {
    const [table, plants, species] = readmeTables("The truth behind the monitoring");
    expect(parameters(table)).toEqual(monitoringTruth);
    expect(plants.slice(1)).toEqual(monitoredPlants.map((plant) => Object.values(plant).map(String)));
    expect(species.slice(1)).toEqual(
      monitoredSpecies.map((one) => [
        one.species,
        String(one.migrants),
        one.classBounds.join(", "),
        one.released ? "yes" : "no",
      ]),
    );
  });

  it("are those of the errors planted in the catches, all of them", () => {
    const [table] = readmeTables("The errors planted in monitoring-catches.csv");
    expect(table.slice(1).map((cells) => cells.map(plain))).toEqual(
      plantedErrors.map(({ catchId, column, cell, wrong }) => [catchId, column, cell || "(empty)", wrong]),
    );
  });

  it("are those of the tracks, and of the tracks that contradict the trial", () => {
    const [table, disagreements] = readmeTables("The truth behind the tracks");
    expect(parameters(table)).toEqual(fishTracksTruth);
    expect(disagreements.slice(1)).toEqual(
      trackDisagreements().map(({ fishId, seen, seenTime, note }) => [
        fishId,
        seen,
        seenTime.toFixed(1),
        note,
      ]),
    );
  });

  it("are those of the built racks, their shares and the slips in the answers", () => {
    const [table, choices, slips] = readmeTables("The truth behind the built racks");
    expect(parameters(table)).toEqual(builtRacksTruth);
    expect(choices.slice(1).map(([fact, shares]) => [plain(fact), shares])).toEqual(
      Object.entries(builtChoices).map(([fact, shares]) => [
        fact,
        Object.entries(shares)
          .map(([value, share]) => `${value}: ${share}`)
          .join(", "),
      ]),
    );
    expect(slips.slice(1).map((cells) => cells.map(plain))).toEqual(
      plantedSlips().map(({ plantId, question, cell, meant }) => [plantId, question, cell, meant]),
    );
  });

  it("are those of the velocity field, its layouts and the probe", () => {
    const [field, layouts, probe] = readmeTables("The truth behind the velocities");
    expect(parameters(field)).toEqual(velocityFieldTruth);
    expect(layouts.slice(1)).toEqual(velocityLayouts.map((layout) => Object.values(layout).map(String)));
    expect(parameters(probe)).toEqual(probeTruth);
  });

  it("are those of the migration and of each species' timing, all of them", () => {
    const [table, species] = readmeTables("The truth behind the migration");
    expect(parameters(table)).toEqual(migrationTimingTruth);
    expect(species.slice(1)).toEqual(speciesTimings.map((one) => Object.values(one).map(String)));
  });

  it("are those of the debris and of each of its types, all of them", () => {
    const [table, types] = readmeTables("The truth behind the debris");
    expect(parameters(table)).toEqual(debrisTruth);
    expect(types.slice(1)).toEqual(debrisTypes.map((one) => Object.values(one).map(String)));
  });

  it("are those of the clogging trials, all of them", () => {
    const [table] = readmeTables("The truth behind the clogging trials");
    expect(parameters(table)).toEqual(cloggingTruth);
  });

  it("name the points whose raw records are kept", () => {
    expect(demoText("README.md")).toContain(`Raw records of four points, ${rawPoints.join(", ")}:`);
  });

  it("say that everything is invented", () => {
    expect(demoText("README.md")).toContain("**Everything here is invented**");
  });
});

function parameters(table: string[][]): Record<string, number> {
  expect(table[0]).toEqual(["parameter", "value", "unit", "meaning"]);
  return Object.fromEntries(table.slice(1).map(([name, value]) => [plain(name), Number(value)]));
}
