import { dayNumber, isoDate } from "./calendar";
import { csvText } from "./csv";
import { seededDraws } from "./random";

/** The true law of clogging, the flume and its errors: k = 1 + scale (load / 1 kg/m²)^loadExponent (20 mm / b)^spacingExponent. */
export interface CloggingTruth {
  /** Seed of the order of the trials; leaves and instruments take the next. */
  readonly seed: number;
  readonly scale: number;
  readonly loadExponent: number;
  readonly spacingExponent: number;
  /** Standard deviation of ln(k − 1) between trials: how the leaves happened to lie. */
  readonly leafSpread: number;
  readonly rackArea: number;
  readonly approachVelocity: number;
  readonly barThickness: number;
  readonly supportShare: number;
  /** The clean rack loses scale (P/(1−P))^blockageExponent velocity heads. */
  readonly cleanScale: number;
  readonly cleanExponent: number;
  readonly velocityError: number;
  readonly lossError: number;
}

export const cloggingTruth: CloggingTruth = {
  seed: 8206,
  scale: 6,
  loadExponent: 1.3,
  spacingExponent: 0.5,
  leafSpread: 0.15,
  rackArea: 0.6,
  approachVelocity: 0.3,
  barThickness: 8,
  supportShare: 0.05,
  cleanScale: 2.6,
  cleanExponent: 1.5,
  velocityError: 0.003,
  lossError: 0.1,
};

export const trialSpacings = [12, 18, 25];
/** Wet leaves a square metre of rack, kg. */
export const trialLoads = [0.2, 0.4, 0.8, 1.2, 1.6];
const REPEATS = 4;
const FIRST_DAY = dayNumber(2022, 11, 7);
const TRIALS_A_DAY = 6;
const GRAVITY = 9.81;

/** One trial: the rack clean, then with its leaves. Units as in the file. */
export interface CloggingTrial {
  readonly configuration: string;
  readonly clearSpacing: number;
  readonly leafMass: number;
  readonly approachVelocity: number;
  readonly cleanLoss: number;
  readonly cloggedLoss: number;
}

/** Returns the true loss factor of leaves on a rack of the trials. */
export function trueLossFactor(
  truth: CloggingTruth,
  { load, clearSpacing }: { readonly load: number; readonly clearSpacing: number },
): number {
  return 1 + truth.scale * load ** truth.loadExponent * (20 / clearSpacing) ** truth.spacingExponent;
}

/** Returns the trials in the order in which they were made. */
export function cloggingTrials(truth: CloggingTruth = cloggingTruth): CloggingTrial[] {
  const order = seededDraws(truth.seed);
  const draws = seededDraws(truth.seed + 1);
  const plan = trialSpacings.flatMap((clearSpacing) =>
    trialLoads.flatMap((load) => {
      const configuration = `${clearSpacing} mm with ${load} kg/m2`;
      return Array.from({ length: REPEATS }, () => ({
        configuration,
        clearSpacing,
        load,
        key: order.uniform(),
      }));
    }),
  );
  return plan
    .toSorted((one, other) => one.key - other.key)
    .map(({ configuration, clearSpacing, load }) => {
      const velocity = truth.approachVelocity * (1 + draws.normal(0, truth.velocityError));
      const head = (1000 * velocity ** 2) / (2 * GRAVITY);
      const open = (clearSpacing / (clearSpacing + truth.barThickness)) * (1 - truth.supportShare);
      const clean = truth.cleanScale * ((1 - open) / open) ** truth.cleanExponent * head;
      const added = trueLossFactor(truth, { load, clearSpacing }) - 1;
      const factor = 1 + added * draws.lognormal(1, truth.leafSpread);
      return {
        configuration,
        clearSpacing,
        leafMass: load * truth.rackArea,
        approachVelocity: velocity,
        cleanLoss: clean + draws.normal(0, truth.lossError),
        cloggedLoss: clean * factor + draws.normal(0, truth.lossError),
      };
    });
}

/** Returns `clogging-trials.csv` as text, one row a trial. */
export function cloggingTrialsCsv(truth: CloggingTruth = cloggingTruth): string {
  const rows = cloggingTrials(truth).map((trial, at) => [
    `K${String(at + 1).padStart(2, "0")}`,
    isoDate(FIRST_DAY + Math.floor(at / TRIALS_A_DAY)),
    trial.configuration,
    String(trial.clearSpacing),
    String(truth.rackArea),
    trial.leafMass.toFixed(2),
    trial.approachVelocity.toFixed(3),
    trial.cleanLoss.toFixed(2),
    trial.cloggedLoss.toFixed(2),
    String(truth.lossError),
  ]);
  return csvText(
    [
      "trialId",
      "date",
      "configuration",
      "clearSpacing [mm]",
      "rackArea [m2]",
      "leafMass [kg]",
      "approachVelocity [m/s]",
      "cleanLoss [mm]",
      "cloggedLoss [mm]",
      "lossError [mm]",
    ],
    rows,
  );
}
