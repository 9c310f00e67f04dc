import type { trialSpecies } from "./trial-runs";

/** What holds at both plants. */
export interface MonitoringTruth {
  /** Seed of the first plant; the second takes the next. */
  readonly seed: number;
  readonly nights: number;
  readonly releaseEvery: number;
  readonly releasedFish: number;
  /** Standard deviations of a night's effect: on ln(number of migrants), on the logit of the protection. */
  readonly migrationSpread: number;
  readonly protectionSpread: number;
  /** Share of the fish held back that turn round and are seen in neither net. */
  readonly turningRound: number;
  readonly bypassMortality: number;
  readonly bypassNetEfficiency: number;
  readonly turbineNetEfficiency: number;
  /** Deaths from net and handling: at once, and in the 96 hours after among the fish still alive. */
  readonly bypassNetDeadAtOnce: number;
  readonly turbineNetDeadAtOnce: number;
  readonly handlingDeadLater: number;
  /** Deaths in the 96 hours after the turbine among the fish still alive. */
  readonly turbineDeadLater: number;
  /** Injuries of fish alive in the net: after the bypass, after the turbine. */
  readonly bypassLightInjury: number;
  readonly turbineLightInjury: number;
  readonly turbineSevereInjury: number;
}

export const monitoringTruth: MonitoringTruth = {
  seed: 8100,
  nights: 24,
  releaseEvery: 3,
  releasedFish: 50,
  migrationSpread: 0.6,
  protectionSpread: 0.4,
  turningRound: 0.1,
  bypassMortality: 0.01,
  bypassNetEfficiency: 0.95,
  turbineNetEfficiency: 0.8,
  bypassNetDeadAtOnce: 0.01,
  turbineNetDeadAtOnce: 0.03,
  handlingDeadLater: 0.03,
  turbineDeadLater: 0.04,
  bypassLightInjury: 0.05,
  turbineLightInjury: 0.2,
  turbineSevereInjury: 0.05,
};

/** What one plant is to the fish that come to it. */
export interface MonitoredPlant {
  readonly plant: string;
  readonly clearSpacing: number;
  /** Move of the protection on the logit against the law of the trial: other than 0, the laboratory curve is biased here. */
  readonly fieldBias: number;
  /** Share killed at once in the turbine: so much a metre of fish length, at most 0.95. */
  readonly turbineDeathsPerMetre: number;
  /** Full turbine flow and bypass flow, m³/s; section of the approach channel, m²; net head, m. */
  readonly fullFlow: number;
  readonly bypassFlow: number;
  readonly channelSection: number;
  readonly head: number;
  readonly efficiency: number;
}

export const monitoredPlants: readonly MonitoredPlant[] = [
  {
    plant: "Halvern Weir",
    clearSpacing: 18,
    fieldBias: 0,
    turbineDeathsPerMetre: 0.4,
    fullFlow: 34,
    bypassFlow: 1.36,
    channelSection: 61.2,
    head: 5.3,
    efficiency: 0.9,
  },
  {
    plant: "Kelmar Mill",
    clearSpacing: 25,
    fieldBias: -1.2,
    turbineDeathsPerMetre: 1,
    fullFlow: 2.4,
    bypassFlow: 0.12,
    channelSection: 4.8,
    head: 12,
    efficiency: 0.88,
  },
];

/** Migrants of one species on a middling night, and the bounds of its length classes in mm. */
export interface MonitoredSpecies {
  readonly species: (typeof trialSpecies)[number];
  readonly migrants: number;
  readonly classBounds: readonly number[];
  readonly released: boolean;
}

export const monitoredSpecies: readonly MonitoredSpecies[] = [
  { species: "roach", migrants: 25, classBounds: [60, 120, 180, 300], released: true },
  { species: "perch", migrants: 10, classBounds: [55, 120, 180, 360], released: false },
  { species: "bleak", migrants: 20, classBounds: [50, 100, 180], released: false },
  { species: "silver eel", migrants: 8, classBounds: [450, 650, 950], released: true },
];

/** One planted error: the column and the cell that stands there instead of the right one; "again" repeats the row. */
export interface PlantedError {
  readonly catchId: string;
  readonly column: string;
  readonly cell: string;
  readonly wrong: string;
}
