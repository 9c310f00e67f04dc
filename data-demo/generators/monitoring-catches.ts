import { type DayNumber, dayNumber, isoDate } from "./calendar";
import { happens, poisson } from "./counts";
import { csvText } from "./csv";
import { dailyFlow } from "./daily-flow";
import { sampleLength } from "./fish-lengths";
import { speciesNamed } from "./fish-measurements";
import {
  type MonitoredPlant,
  type MonitoredSpecies,
  type MonitoringTruth,
  monitoredPlants,
  monitoredSpecies,
  monitoringTruth,
} from "./monitoring-truth";
import { plantedErrors } from "./planted-catches";
import { type Draws, seededDraws } from "./random";
import { logistic, trialRamp } from "./trial-law";
import { trialTruth } from "./trial-runs";

type Net = "bypass" | "turbine";
type Group = "wild" | "treated" | "control";

/** One row of the file, as counted: the fish of one length class of one species in one net in one night. */
export interface Catch {
  readonly plant: string;
  readonly night: DayNumber;
  readonly net: Net;
  readonly group: Group;
  readonly species: string;
  readonly lengthFrom: number;
  readonly lengthTo: number;
  readonly released?: number;
  readonly turbineLoad: number;
  readonly turbineFlow: number;
  readonly bypassFlow: number;
  caught: number;
  uninjured: number;
  lightlyInjured: number;
  severelyInjured: number;
  deadAtOnce: number;
  deadAfter96h: number;
}

interface Night {
  readonly night: DayNumber;
  readonly turbineLoad: number;
  readonly turbineFlow: number;
  readonly bypassFlow: number;
}

const FIRST_NIGHT = dayNumber(2023, 10, 2);
// Halvern Weir: residual flow and technical minimum of plant.csv, m³/s.
const RESIDUAL_FLOW = 2.5;
const TECHNICAL_MINIMUM = 4;

export const catchColumns = [
  "catchId",
  "plant",
  "night",
  "net",
  "group",
  "species",
  "lengthFrom [mm]",
  "lengthTo [mm]",
  "released",
  "caught",
  "uninjured",
  "lightlyInjured",
  "severelyInjured",
  "deadAtOnce",
  "deadAfter96h",
  "turbineLoad [kW]",
  "turbineFlow [m3/s]",
  "bypassFlow [m3/s]",
] as const;

/** Returns what the nets held, plant after plant and night after night, before any error gets into the records. */
export function netCatches(
  truth: MonitoringTruth = monitoringTruth,
  plants: readonly MonitoredPlant[] = monitoredPlants,
): Catch[] {
  return plants.flatMap((plant, index) => {
    const draws = seededDraws(truth.seed + index);
    return nightsAt(truth, plant, draws).flatMap((night, count) => [
      ...wildCatches(truth, plant, night, draws),
      ...(count % truth.releaseEvery === 0 ? releaseCatches(truth, plant, night, draws) : []),
    ]);
  });
}

/** Returns `monitoring-catches.csv` as text, the planted errors in it. */
export function monitoringCatchesCsv(
  truth: MonitoringTruth = monitoringTruth,
  plants: readonly MonitoredPlant[] = monitoredPlants,
): string {
  const rows = netCatches(truth, plants).map((one, index) => [
    `N${String(index + 1).padStart(4, "0")}`,
    one.plant,
    isoDate(one.night),
    one.net,
    one.group,
    one.species,
    ...[one.lengthFrom, one.lengthTo, one.released ?? ""].map(String),
    ...[one.caught, one.uninjured, one.lightlyInjured, one.severelyInjured].map(String),
    ...[one.deadAtOnce, one.deadAfter96h].map(String),
    one.turbineLoad.toFixed(0),
    one.turbineFlow.toFixed(2),
    one.bypassFlow.toFixed(2),
  ]);
  return csvText(catchColumns, withPlantedErrors(rows));
}

function withPlantedErrors(rows: readonly (readonly string[])[]): string[][] {
  return rows.flatMap((row) => {
    const cells = [...row];
    let again = false;
    for (const { catchId, column, cell } of plantedErrors) {
      if (catchId !== row[0]) continue;
      const place = catchColumns.findIndex((name) => name.replace(/ \[.*/, "") === column);
      if (place < 0) throw new Error(`planted error of ${catchId}: there is no column "${column}".`);
      if (cell === "again") again = true;
      else cells[place] = cell;
    }
    return again ? [cells, cells] : [cells];
  });
}

/** The nights on which a plant ran, with flow and load: at Halvern Weir by the daily flow, at Kelmar Mill by chance. */
function nightsAt(truth: MonitoringTruth, plant: MonitoredPlant, draws: Draws): Night[] {
  const flows = plant.plant === "Halvern Weir" ? halvernFlows(plant) : undefined;
  const nights: Night[] = [];
  for (let night = FIRST_NIGHT; nights.length < truth.nights; night++) {
    const turbineFlow =
      flows === undefined ? plant.fullFlow * (0.6 + 0.4 * draws.uniform()) : flows.get(night);
    if (turbineFlow === undefined) throw new Error(`monitoring: daily-flow.csv has no ${isoDate(night)}.`);
    if (turbineFlow < TECHNICAL_MINIMUM && flows !== undefined) continue;
    const turbineLoad = 9.81 * turbineFlow * plant.head * plant.efficiency * draws.normal(1, 0.01);
    nights.push({ night, turbineFlow, turbineLoad, bypassFlow: plant.bypassFlow });
  }
  return nights;
}

function halvernFlows(plant: MonitoredPlant): Map<DayNumber, number> {
  return new Map(
    dailyFlow().map(({ day, discharge }) => [
      day,
      Math.min(plant.fullFlow, Math.max(0, discharge - RESIDUAL_FLOW - plant.bypassFlow)),
    ]),
  );
}

function wildCatches(truth: MonitoringTruth, plant: MonitoredPlant, night: Night, draws: Draws): Catch[] {
  const migration = draws.lognormal(1, truth.migrationSpread);
  const move =
    plant.fieldBias +
    trialTruth.velocityEffect * (night.turbineFlow / plant.channelSection - trialTruth.referenceVelocity) +
    draws.normal(0, truth.protectionSpread);
  return monitoredSpecies.flatMap((monitored) => {
    const rows = emptyRows(plant, night, "wild", monitored);
    const count = poisson(draws, monitored.migrants * migration);
    for (let fish = 0; fish < count; fish++) {
      const length = sampleLength(speciesNamed(monitored.species), draws);
      const held = happens(draws, fieldProtection(plant, monitored.species, length, move));
      if (held && happens(draws, truth.turningRound)) continue;
      const net: Net = held ? "bypass" : "turbine";
      netFish(truth, plant, rowFor(rows, net, length), length, "wild", draws);
    }
    return rows.filter(({ caught }) => caught > 0);
  });
}

/** Returns the share that the rack holds back: the law of the trial, moved by velocity, night and the plant's bias. */
export function fieldProtection(
  plant: MonitoredPlant,
  species: string,
  length: number,
  move: number,
): number {
  const { turnsOnSide, widthRatio, heightRatio } = speciesNamed(species);
  const ramp = trialRamp(
    trialTruth,
    ((turnsOnSide ? widthRatio : heightRatio) * length) / plant.clearSpacing,
  );
  if (ramp === 0 || ramp === 1) return ramp;
  const ofSpecies = species === "silver eel" ? trialTruth.silverEelEffect : 0;
  return logistic(Math.log(ramp / (1 - ramp)) + ofSpecies + move);
}

/** Treated fish set free at the bypass entrance and between rack and turbine; controls set free in the nets. */
function releaseCatches(truth: MonitoringTruth, plant: MonitoredPlant, night: Night, draws: Draws): Catch[] {
  const groups = ["treated", "control"] as const;
  return monitoredSpecies
    .filter(({ released }) => released)
    .flatMap((monitored) =>
      groups.flatMap((group) => {
        // One length class a species is reared: the smallest.
        const rows = emptyRows(plant, night, group, monitored, truth.releasedFish).filter(
          ({ lengthFrom }) => lengthFrom === monitored.classBounds[0],
        );
        for (const row of rows) {
          for (let fish = 0; fish < truth.releasedFish; fish++) {
            const length = row.lengthFrom + draws.uniform() * (row.lengthTo - row.lengthFrom);
            netFish(truth, plant, row, length, group, draws);
          }
        }
        return rows;
      }),
    );
}

function emptyRows(
  plant: MonitoredPlant,
  night: Night,
  group: Group,
  { species, classBounds }: MonitoredSpecies,
  released?: number,
): Catch[] {
  const none = {
    caught: 0,
    uninjured: 0,
    lightlyInjured: 0,
    severelyInjured: 0,
    deadAtOnce: 0,
    deadAfter96h: 0,
  };
  return (["bypass", "turbine"] as const).flatMap((net) =>
    classBounds.slice(1).map((lengthTo, index) => ({
      ...night,
      plant: plant.plant,
      net,
      group,
      species,
      lengthFrom: classBounds[index],
      lengthTo,
      released,
      ...none,
    })),
  );
}

/** Length classes reach from their lower bound to just below the upper; the last one includes it. */
function rowFor(rows: readonly Catch[], net: Net, length: number): Catch {
  const ofNet = rows.filter((row) => row.net === net);
  const found = ofNet.findLast(({ lengthFrom }) => length >= lengthFrom);
  if (found === undefined) throw new Error(`monitoring: no length class holds ${length} mm.`);
  return found;
}

/** One fish comes to a net: it may miss it; if not, way and handling may hurt or kill it. */
function netFish(
  truth: MonitoringTruth,
  plant: MonitoredPlant,
  row: Catch,
  length: number,
  group: Group,
  draws: Draws,
): void {
  const turbine = row.net === "turbine";
  if (!happens(draws, turbine ? truth.turbineNetEfficiency : truth.bypassNetEfficiency)) return;
  row.caught++;

  const onTheWay = group !== "control";
  const routeDeaths = turbine
    ? Math.min(0.95, plant.turbineDeathsPerMetre * (length / 1000))
    : truth.bypassMortality;
  const handlingDeaths = turbine ? truth.turbineNetDeadAtOnce : truth.bypassNetDeadAtOnce;
  const killedOnTheWay = happens(draws, onTheWay ? routeDeaths : 0);
  if (killedOnTheWay || happens(draws, handlingDeaths)) {
    row.deadAtOnce++;
    row.severelyInjured++;
    return;
  }
  const severe = happens(draws, onTheWay && turbine ? truth.turbineSevereInjury : 0);
  const light = happens(draws, onTheWay && turbine ? truth.turbineLightInjury : truth.bypassLightInjury);
  if (severe) row.severelyInjured++;
  else if (light) row.lightlyInjured++;
  else row.uninjured++;

  const laterOnTheWay = happens(draws, onTheWay && turbine ? truth.turbineDeadLater : 0);
  if (laterOnTheWay || happens(draws, truth.handlingDeadLater)) row.deadAfter96h++;
}
