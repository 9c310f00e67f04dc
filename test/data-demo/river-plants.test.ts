import { describe, expect, it } from "vitest";
import { speciesTimings } from "../../data-demo/generators/migration-timing";
import { riverPlants } from "../../data-demo/generators/river-plants";
import { demoSpecies, lengthSummary } from "../../data-demo/generators/species";
import { chain, fish, protection, turbine, u } from "../../kernel-helpers/src";
import { readTable } from "../../kernel-helpers/src/records/readTable";
import { checkRecords } from "../../kernel-helpers/src/records/records";
import { demoRows, demoText } from "./files";

const read = async (text: string) =>
  checkRecords(await readTable(new TextEncoder().encode(text), "river-plants.csv"), chain.plantRecord);

const eel = demoSpecies.find(({ species }) => species === "silver eel");
const medianEel = u.mm(eel === undefined ? Number.NaN : lengthSummary(eel.ageClasses).medianLength);

const routesOf = (plant: (typeof riverPlants)[number]) =>
  chain.rackRoutes({
    ...plant,
    protection: protection.rampLaw()(
      fish.relativeWidth({
        totalLength: medianEel,
        widthRatio: fish.gapRatio(fish.species("silver eel")),
        clearSpacing: u.mm(plant.clearSpacing),
      }),
    ),
  });

describe("river-plants.csv", () => {
  it("is a river of eight plants that ends at the sea", async () => {
    const { rows } = await read(demoText("river-plants.csv"));
    expect(rows).toHaveLength(8);
    expect(rows.filter(({ next }) => next === undefined).map(({ plant }) => plant)).toEqual(["Ostmouth"]);
    expect(rows[2].reachLength).toBe(12_000);
    expect(rows[2].refitCost).toBeUndefined();
  });

  it("has at Halvern Weir the turbine of turbine.csv, the rack of the monitoring and the eels of the migration", () => {
    const unit = demoRows("turbine.csv")[0];
    const survival = turbine.survivalLaw({
      model: "kaplanEel",
      unit: {
        type: "kaplan",
        discharge: u.m3ps(Number(unit["discharge [m3/s]"])),
        head: u.m(Number(unit["head [m]"])),
        rotationalSpeed: u.rpm(Number(unit["rotationalSpeed [rpm]"])),
        blades: Number(unit.blades),
        efficiency: Number(unit.efficiency),
        runnerDiameter: u.m(Number(unit["runnerDiameter [m]"])),
      },
    })(medianEel);
    const weir = riverPlants.find(({ plant }) => plant === "Halvern Weir");
    expect(weir?.turbineSurvival).toBeCloseTo(survival, 2);
    expect(weir?.clearSpacing).toBe(18);
    const { plants } = chain.river({
      plants: riverPlants.map((one) => ({
        plant: one.plant,
        next: one.next,
        entering: one.entering,
        routes: routesOf(one),
        reachLength: u.km(one.reachLength),
        mortalityPerKilometre: one.mortalityPerKilometre,
      })),
    });
    const migrants = speciesTimings.find(({ species }) => species === "silver eel")?.migrants ?? 0;
    const arriving = plants.find(({ plant }) => plant === "Halvern Weir")?.arriving ?? 0;
    expect(Math.abs(arriving / migrants - 1)).toBeLessThan(0.01);
  });

  it("names the spacing that the monitoring met at Kelmar Mill", () => {
    expect(riverPlants.find(({ plant }) => plant === "Kelmar Mill")?.clearSpacing).toBe(25);
  });
});

describe("the record of a river's plants", () => {
  const text = demoText("river-plants.csv");

  it("refuses a loop with the way round it", async () => {
    await expect(read(text.replace("Ostmouth,Ostrane,,", "Ostmouth,Ostrane,Pellock,"))).rejects.toThrow(
      "the river runs in a loop: Pellock → Sallowmere → Ostmouth → Pellock",
    );
  });

  it("refuses a next plant that is not there, and a plant named twice, with their lines", async () => {
    await expect(read(text.replace("Ostrane,Tarvale,", "Ostrane,Tarvalle,"))).rejects.toThrow(
      'the next plant below "Orrowgate" is "Tarvalle", which is not in the list',
    );
    await expect(read(text.replace("\nTarvale,", "\nOrrowgate,"))).rejects.toThrow("Orrowgate");
  });
});
