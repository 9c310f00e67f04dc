import { type DayNumber, dayNumber, isoDate, yearOf } from "./calendar";
import { csvText } from "./csv";
import { type Draws, seededDraws } from "./random";

/** What the flow record is made from; "relative" flows are in units of the flow of an ordinary dry day. */
export interface DailyFlowTruth {
  /** Mean of the whole record, m³/s: every relative flow is multiplied by one factor that makes it so. */
  readonly meanDischarge: number;
  readonly firstYear: number;
  readonly lastYear: number;
  /** One stream a process, so that changing one leaves the others as they were. */
  readonly yearSeed: number;
  readonly wetnessSeed: number;
  readonly floodSeed: number;
  /** Snow and rain over the year: two cosines in ln(flow), each with amplitude and day of its maximum. */
  readonly annualAmplitude: number;
  readonly annualPeakDay: number;
  readonly halfYearAmplitude: number;
  readonly halfYearPeakDay: number;
  /** Standard deviation of a year's effect on ln(flow): wet and dry years. */
  readonly yearSpread: number;
  /** Wetness of the catchment: autoregressive noise in ln(flow) with two roots, a slow and a smoothing one. */
  readonly wetnessSpread: number;
  readonly wetnessPersistence: number;
  readonly wetnessSmoothing: number;
  /** Freshets and floods: arrivals, how they bunch in the year, relative peak, rise and recession. */
  readonly floodsPerYear: number;
  readonly floodSeasonality: number;
  readonly floodSeasonPeakDay: number;
  readonly floodMedianPeak: number;
  readonly floodPeakSpread: number;
  readonly floodLongestRise: number;
  readonly recessionFastDays: number;
  readonly recessionSlowDays: number;
  readonly recessionSlowShare: number;
}

/** The true parameters of `daily-flow.csv`. */
export const dailyFlowTruth: DailyFlowTruth = {
  meanDischarge: 41,
  firstYear: 2012,
  lastYear: 2023,
  yearSeed: 4178,
  wetnessSeed: 4179,
  floodSeed: 4180,
  annualAmplitude: 0.66,
  annualPeakDay: 75,
  halfYearAmplitude: 0.16,
  halfYearPeakDay: 110,
  yearSpread: 0.25,
  wetnessSpread: 0.4,
  wetnessPersistence: 0.97,
  wetnessSmoothing: 0.7,
  floodsPerYear: 13,
  floodSeasonality: 0.7,
  floodSeasonPeakDay: 60,
  floodMedianPeak: 0.5,
  floodPeakSpread: 1.05,
  floodLongestRise: 3,
  recessionFastDays: 2.5,
  recessionSlowDays: 12,
  recessionSlowShare: 0.2,
};

const DAYS_A_YEAR = 365.25;

/**
 * Daily mean flow at Halvern Weir over whole calendar years.
 *
 * Returns one row a day: the day number, and the discharge in m³/s.
 */
export function dailyFlow(truth: DailyFlowTruth = dailyFlowTruth): { day: DayNumber; discharge: number }[] {
  const first = dayNumber(truth.firstYear, 1, 1);
  const count = dayNumber(truth.lastYear + 1, 1, 1) - first;
  const days = Array.from({ length: count }, (_, index) => first + index);

  const yearEffect = yearEffects(truth);
  const wetness = wetnessNoise(truth, count);
  const floods = floodWater(truth, days);
  const relative = days.map(
    (day, index) => Math.exp(season(truth, day) + yearEffect(day) + wetness[index]) + floods[index],
  );

  const relativeMean = relative.reduce((sum, flow) => sum + flow, 0) / count;
  const factor = truth.meanDischarge / relativeMean;
  return days.map((day, index) => ({ day, discharge: relative[index] * factor }));
}

/** Returns `daily-flow.csv` as text. */
export function dailyFlowCsv(truth: DailyFlowTruth = dailyFlowTruth): string {
  const rows = dailyFlow(truth).map(({ day, discharge }) => [isoDate(day), discharge.toFixed(2)]);
  return csvText(["date", "discharge [m3/s]"], rows);
}

/** Angle of a day in the year, 0 on `peakDay`; leap days shift it by less than a day. */
function yearAngle(day: DayNumber, peakDay: number): number {
  const dayOfYear = day - dayNumber(yearOf(day), 1, 1) + 1;
  return (2 * Math.PI * (dayOfYear - peakDay)) / DAYS_A_YEAR;
}

function season(truth: DailyFlowTruth, day: DayNumber): number {
  return (
    truth.annualAmplitude * Math.cos(yearAngle(day, truth.annualPeakDay)) +
    truth.halfYearAmplitude * Math.cos(2 * yearAngle(day, truth.halfYearPeakDay))
  );
}

/** Each year's effect stands at its middle and runs straight to the next, so that no New Year makes a step. */
function yearEffects(truth: DailyFlowTruth): (day: DayNumber) => number {
  const draws = seededDraws(truth.yearSeed);
  const effects = Array.from({ length: truth.lastYear - truth.firstYear + 1 }, () =>
    draws.normal(0, truth.yearSpread),
  );
  const firstMiddle = dayNumber(truth.firstYear, 7, 1);
  return (day) => {
    const position = Math.min(Math.max((day - firstMiddle) / DAYS_A_YEAR, 0), effects.length - 1);
    const before = Math.min(Math.floor(position), effects.length - 2);
    // A record of one year has no neighbour to run to.
    if (before < 0) return effects[0];
    return effects[before] + (position - before) * (effects[before + 1] - effects[before]);
  };
}

// The noise forgets its start at rest to below one part in a million over this many days.
const WETNESS_WARM_UP = 500;

function wetnessNoise(truth: DailyFlowTruth, count: number): number[] {
  const draws = seededDraws(truth.wetnessSeed);
  const { wetnessSpread, wetnessPersistence: slow, wetnessSmoothing: smooth } = truth;
  // Variance of a second-order autoregression with roots a and b, over that of its innovation:
  // (1 + ab) / ((1 − ab)(1 − a²)(1 − b²)); its inverse keeps the noise at wetnessSpread.
  const product = slow * smooth;
  const innovation =
    wetnessSpread * Math.sqrt(((1 - product) * (1 - slow ** 2) * (1 - smooth ** 2)) / (1 + product));
  const noise: number[] = [];
  let today = 0;
  let yesterday = 0;
  for (let index = -WETNESS_WARM_UP; index < count; index++) {
    const tomorrow = (slow + smooth) * today - product * yesterday + draws.normal(0, innovation);
    yesterday = today;
    today = tomorrow;
    if (index >= 0) noise.push(today);
  }
  return noise;
}

function floodWater(truth: DailyFlowTruth, days: readonly DayNumber[]): number[] {
  const draws = seededDraws(truth.floodSeed);
  const water = days.map(() => 0);
  for (let index = 0; index < days.length; index++) {
    const bunching = 1 + truth.floodSeasonality * Math.cos(yearAngle(days[index], truth.floodSeasonPeakDay));
    if (draws.uniform() < (truth.floodsPerYear / DAYS_A_YEAR) * bunching) {
      addFlood(truth, draws, water, index);
    }
  }
  return water;
}

/** Adds one flood: a straight rise to the peak, then a fast and a slow recession together. */
function addFlood(truth: DailyFlowTruth, draws: Draws, water: number[], start: number): void {
  const peak = draws.lognormal(truth.floodMedianPeak, truth.floodPeakSpread);
  const rise = draws.integer(1, truth.floodLongestRise);
  for (let index = start; index < water.length; index++) {
    const sincePeak = index - start + 1 - rise;
    water[index] += peak * (sincePeak < 0 ? 1 + sincePeak / rise : recession(truth, sincePeak));
  }
}

function recession(truth: DailyFlowTruth, days: number): number {
  return (
    (1 - truth.recessionSlowShare) * Math.exp(-days / truth.recessionFastDays) +
    truth.recessionSlowShare * Math.exp(-days / truth.recessionSlowDays)
  );
}
