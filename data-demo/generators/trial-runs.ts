import { type DayNumber, dayNumber, isoDate } from "./calendar";
import { csvText } from "./csv";
import { sampleLength } from "./fish-lengths";
import { speciesNamed } from "./fish-measurements";
import { type Draws, seededDraws } from "./random";
import type { DemoSpecies } from "./species";
import { drawFate, type Outcome, protectionInRun, type RunConditions, type TrialLaw } from "./trial-law";

/** The true parameters of `trial-runs.csv`: the design and the law. */
export interface TrialTruth extends TrialLaw {
  /** Seed of the plan; the runs' effects and the fish take the next two. */
  readonly seed: number;
  readonly replicates: number;
  readonly fishPerRun: number;
  readonly runsPerDay: number;
  readonly firstTemperature: number;
  readonly warmingPerDay: number;
  readonly temperatureSpread: number;
}

export const trialTruth: TrialTruth = {
  seed: 6119,
  replicates: 10,
  fishPerRun: 4,
  runsPerDay: 6,
  firstTemperature: 8,
  warmingPerDay: 0.2,
  temperatureSpread: 0.5,
  threshold: 0.15,
  exponent: 0.8,
  lightEffect: 0.8,
  bubblesEffect: 0,
  velocityEffect: -3,
  referenceVelocity: 0.45,
  silverEelEffect: -1.2,
  runSpread: 0.9,
  batchSpread: 0.2,
  inactiveLogit: -1.8,
  inactivePerDegree: -0.08,
  inactiveRunSpread: 0.5,
  impingedLogit: -4.2,
  impingedPerVelocity: 8,
  meanDelay: 3,
  rackMedianTime: 4,
  rackTimeSpread: 0.7,
  bypassMeanTime: 12,
  bestEntranceRatio: 1.25,
  entranceRatioCurvature: 10,
  neverLooking: 0.12,
};

/** The species of the trial; burbot were not to be had. */
export const trialSpecies = ["roach", "grayling", "ide", "perch", "bleak", "silver eel"] as const;
const spacings = [12, 18, 25, 40];
const velocities = [0.3, 0.45, 0.6];
const entranceRatios = [1, 1.2, 1.4];
const durations = [20, 40];
/** Days on which new fish came, counted from the first day of the trial. */
const BATCH_DAYS = 10;
const FIRST_DAY = dayNumber(2023, 4, 3);

/** One fish of one run; units as in the file. */
export interface TrialFish extends RunConditions {
  readonly runId: string;
  readonly fishId: string;
  readonly day: DayNumber;
  readonly batch: string;
  readonly species: string;
  readonly totalLength: number;
  readonly clearSpacing: number;
  readonly relativeWidth: number;
  readonly outcome: Outcome;
  readonly outcomeTime?: number;
}

/** Returns the fish of the trial, run after run, in the order of the days. */
export function trialFish(truth: TrialTruth = trialTruth): TrialFish[] {
  const effects = seededDraws(truth.seed + 1);
  const fishDraws = seededDraws(truth.seed + 2);
  const batchEffects = new Map<string, number>();
  const warmth: number[] = [];
  const width = String(trialPlanSize(truth)).length;

  return trialPlan(truth).flatMap((planned, index) => {
    const workingDay = Math.floor(index / truth.runsPerDay);
    if (warmth.length <= workingDay) warmth.push(effects.normal(0, truth.temperatureSpread));
    const batch = `${planned.species}-${Math.floor(workingDay / BATCH_DAYS) + 1}`;
    let batchEffect = batchEffects.get(batch);
    if (batchEffect === undefined) {
      batchEffect = effects.normal(0, truth.batchSpread);
      batchEffects.set(batch, batchEffect);
    }
    const run = {
      ...planned,
      runId: `R${String(index + 1).padStart(width, "0")}`,
      // Five working days a week.
      day: FIRST_DAY + 7 * Math.floor(workingDay / 5) + (workingDay % 5),
      batch,
      temperature: round(truth.firstTemperature + truth.warmingPerDay * workingDay + warmth[workingDay], 1),
      runEffect: batchEffect + effects.normal(0, truth.runSpread),
      inactiveEffect: effects.normal(0, truth.inactiveRunSpread),
    };
    const species = speciesNamed(run.species);
    return Array.from({ length: truth.fishPerRun }, (_, place) => ({
      ...run,
      fishId: `${run.runId}-${place + 1}`,
      ...drawFish(truth, run, species, fishDraws),
    }));
  });
}

/** Returns `trial-runs.csv` as text, one row a fish. */
export function trialRunsCsv(truth: TrialTruth = trialTruth): string {
  const rows = trialFish(truth).map((fish) => [
    fish.runId,
    fish.fishId,
    isoDate(fish.day),
    fish.batch,
    fish.species,
    String(fish.totalLength),
    fish.temperature.toFixed(1),
    String(fish.clearSpacing),
    fish.approachVelocity.toFixed(2),
    fish.entranceVelocityRatio.toFixed(1),
    fish.cue,
    String(fish.runDuration),
    fish.outcome,
    fish.outcomeTime?.toFixed(1) ?? "",
  ]);
  return csvText(
    [
      "runId",
      "fishId",
      "date",
      "batch",
      "species",
      "totalLength [mm]",
      "temperature [degC]",
      "clearSpacing [mm]",
      "approachVelocity [m/s]",
      "entranceVelocityRatio",
      "cue",
      "runDuration [min]",
      "outcome",
      "outcomeTime [min]",
    ],
    rows,
  );
}

function trialPlanSize(truth: TrialTruth): number {
  return trialSpecies.length * spacings.length * truth.replicates;
}

/** Every species at every spacing equally often, half with a cue; the rest of the conditions and the order at random. */
function trialPlan(truth: TrialTruth) {
  const draws = seededDraws(truth.seed);
  const cells = trialSpecies.flatMap((species) =>
    spacings.map((clearSpacing) => ({ species, clearSpacing })),
  );
  const runs = cells.flatMap((cell, cellIndex) => {
    const velocity = shuffled(levels(velocities, truth.replicates, cellIndex), draws);
    const ratio = shuffled(levels(entranceRatios, truth.replicates, cellIndex), draws);
    const duration = shuffled(levels(durations, truth.replicates, cellIndex), draws);
    return Array.from({ length: truth.replicates }, (_, index) => ({
      ...cell,
      approachVelocity: velocity[index],
      entranceVelocityRatio: ratio[index],
      cue: cueOf(index, cellIndex),
      runDuration: duration[index],
    }));
  });
  return shuffled(runs, draws);
}

/** Every second run without cue; the cue of the others alternates, and so does the first of a cell. */
function cueOf(index: number, cell: number): RunConditions["cue"] {
  if (index % 2 === 0) return "none";
  return ((index - 1) / 2 + cell) % 2 === 0 ? "light" : "bubbles";
}

function levels(values: readonly number[], count: number, start: number): number[] {
  return Array.from({ length: count }, (_, index) => values[(index + start) % values.length]);
}

function shuffled<T>(values: readonly T[], draws: Draws): T[] {
  const order = [...values];
  for (let last = order.length - 1; last > 0; last--) {
    const other = draws.integer(0, last);
    [order[last], order[other]] = [order[other], order[last]];
  }
  return order;
}

function drawFish(
  truth: TrialTruth,
  run: RunConditions & { readonly species: string; readonly clearSpacing: number },
  species: DemoSpecies,
  draws: Draws,
) {
  const totalLength = sampleLength(species, draws);
  const ratio = species.turnsOnSide ? species.widthRatio : species.heightRatio;
  const relativeWidth = (ratio * totalLength) / run.clearSpacing;
  const protection = protectionInRun(truth, run, run.species, relativeWidth);
  return { totalLength, relativeWidth, ...drawFate(truth, run, protection, draws) };
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
