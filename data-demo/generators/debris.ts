import { type DayNumber, dayNumber, isoDate, yearOf } from "./calendar";
import { poisson } from "./counts";
import { csvText } from "./csv";
import { dailyFlow } from "./daily-flow";
import { halvernWeir } from "./halvern-weir";
import { type Draws, seededDraws } from "./random";

/** What the drifting debris is made from, beside the parameters of each type. */
export interface DebrisTruth {
  /** Seed of the first type; the others take the next, the cold spells the one after them. */
  readonly seed: number;
  /** Standard deviation of ln(mass) of a day about what season and flow give: no curve explains it. */
  readonly daySpread: number;
  /** Frazil ice drifts in cold spells that begin from December to February. */
  readonly spellsPerWinter: number;
  readonly shortestSpell: number;
  readonly longestSpell: number;
  /** Mean mass of ice on a day of a spell, kg. */
  readonly iceMass: number;
}

export const debrisTruth: DebrisTruth = {
  seed: 8100,
  daySpread: 0.6,
  spellsPerWinter: 2.5,
  shortestSpell: 2,
  longestSpell: 9,
  iceMass: 900,
};

/** One type of debris that comes with season and flow. Masses in kg a day at the mean flow. */
export interface DebrisType {
  readonly type: string;
  /** On every day of the year. */
  readonly baseMass: number;
  /** On top of it at the peak of the season. */
  readonly seasonMass: number;
  /** Day of the year. */
  readonly seasonPeakDay: number;
  /** Standard deviation of the season's bell, days. */
  readonly seasonSpread: number;
  /** The mass is proportional to flow to this power. */
  readonly flowExponent: number;
  /** And to the flow over yesterday's flow to this power. */
  readonly riseExponent: number;
}

/** The true parameters of each type, in the order of the file's columns. */
export const debrisTypes: readonly DebrisType[] = [
  kind("leaves", [25, 520], [302, 16], [0.4, 0.8]),
  kind("wood", [12, 0], [1, 30], [1.3, 1.5]),
  kind("waterPlants", [5, 90], [205, 28], [-0.2, 0.6]),
];

function kind(
  type: string,
  [baseMass, seasonMass]: readonly [number, number],
  [seasonPeakDay, seasonSpread]: readonly [number, number],
  [flowExponent, riseExponent]: readonly [number, number],
): DebrisType {
  return { type, baseMass, seasonMass, seasonPeakDay, seasonSpread, flowExponent, riseExponent };
}

/** The debris that drifts in the river on one day, kg by type. */
export interface DebrisDay {
  readonly day: DayNumber;
  readonly masses: readonly number[];
  readonly ice: number;
}

/** What season and flow give a type on a day, kg, without the day's own effect. */
export function expectedMass(
  debris: DebrisType,
  { day, flow, before }: { readonly day: DayNumber; readonly flow: number; readonly before: number },
): number {
  const distance = day - (dayNumber(yearOf(day), 1, 1) - 1 + debris.seasonPeakDay);
  const bell = Math.exp(-0.5 * (distance / debris.seasonSpread) ** 2);
  return (
    (debris.baseMass + debris.seasonMass * bell) *
    (flow / halvernWeir.meanFlow) ** debris.flowExponent *
    (flow / before) ** debris.riseExponent
  );
}

/** The debris of every day of the flow record; the first day has no yesterday and counts as one of steady flow. */
export function debrisDays(
  truth: DebrisTruth = debrisTruth,
  types: readonly DebrisType[] = debrisTypes,
): DebrisDay[] {
  const flows = dailyFlow();
  const streams = types.map((_, at) => seededDraws(truth.seed + at));
  const ice = iceByDay(truth, seededDraws(truth.seed + types.length), {
    first: yearOf(flows[0].day),
    last: yearOf(flows[flows.length - 1].day),
  });
  // The median that makes the mean 1.
  const median = Math.exp(-(truth.daySpread ** 2) / 2);
  return flows.map(({ day, discharge }, at) => {
    const before = flows[Math.max(at - 1, 0)].discharge;
    return {
      day,
      masses: types.map(
        (debris, which) =>
          expectedMass(debris, { day, flow: discharge, before }) *
          streams[which].lognormal(median, truth.daySpread),
      ),
      ice: ice.get(day) ?? 0,
    };
  });
}

/** Returns `debris.csv` as text. */
export function debrisCsv(
  truth: DebrisTruth = debrisTruth,
  types: readonly DebrisType[] = debrisTypes,
): string {
  const header = ["date", ...types.map(({ type }) => `${type} [kg]`), "ice [kg]"];
  const rows = debrisDays(truth, types).map(({ day, masses, ice }) => [
    isoDate(day),
    ...[...masses, ice].map((mass) => mass.toFixed(1)),
  ]);
  return csvText(header, rows);
}

/** The ice of every day of a cold spell; spells of one winter may run into each other and then add up. */
function iceByDay(
  truth: DebrisTruth,
  draws: Draws,
  { first, last }: { readonly first: number; readonly last: number },
): Map<DayNumber, number> {
  const ice = new Map<DayNumber, number>();
  const median = Math.exp(-(truth.daySpread ** 2) / 2);
  for (let year = first; year <= last + 1; year++) {
    const begin = dayNumber(year - 1, 12, 1);
    const end = dayNumber(year, 3, 0);
    const spells = poisson(draws, truth.spellsPerWinter);
    for (let spell = 0; spell < spells; spell++) {
      const start = draws.integer(begin, end);
      const length = draws.integer(truth.shortestSpell, truth.longestSpell);
      for (let day = start; day < start + length; day++) {
        ice.set(day, (ice.get(day) ?? 0) + truth.iceMass * draws.lognormal(median, truth.daySpread));
      }
    }
  }
  return ice;
}
