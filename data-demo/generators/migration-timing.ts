import { type DayNumber, dayNumber, isoDate, yearOf } from "./calendar";
import { poisson } from "./counts";
import { csvText } from "./csv";
import { dailyFlow } from "./daily-flow";
import { plantFacts } from "./plant";
import { seededDraws } from "./random";
import { demoSpecies } from "./species";

/** What the days of the migrants are made from, beside the species' own parameters. */
export interface MigrationTimingTruth {
  readonly seed: number;
  /** Standard deviation of ln(migrants of a year). */
  readonly yearSpread: number;
  /** Standard deviation of a day's own effect on ln(migrants): no curve and no flow explains it. */
  readonly daySpread: number;
}

/** The true parameters of `migration-timing.csv` that belong to no species. */
export const migrationTimingTruth: MigrationTimingTruth = { seed: 5401, yearSpread: 0.25, daySpread: 0.5 };

/** When one species moves. Days are days of the year; the shares of the seasons add up to 1. */
export interface SpeciesTiming {
  readonly species: string;
  /** Median number of migrants of a year. */
  readonly migrants: number;
  readonly springShare: number;
  readonly springPeakDay: number;
  readonly autumnPeakDay: number;
  /** Standard deviation of the season's bell, days. */
  readonly seasonSpread: number;
  readonly nightShare: number;
  /** Migrants are proportional to flow to this power. */
  readonly flowExponent: number;
  /** And to the flow over yesterday's flow to this power. */
  readonly riseExponent: number;
}

/** The true timing of each species, in the order of `species.csv`. */
export const speciesTimings: readonly SpeciesTiming[] = [
  timing("roach", [5200, 0.7, 125, 280], [18, 0.6], [0.3, 0.4]),
  timing("grayling", [900, 1, 110, 280], [14, 0.7], [0.4, 0.5]),
  timing("ide", [1100, 1, 115, 280], [14, 0.65], [0.4, 0.5]),
  timing("perch", [2300, 0.6, 130, 275], [20, 0.35], [0.1, 0.2]),
  timing("bleak", [6400, 0.55, 132, 270], [18, 0.45], [0.2, 0.3]),
  timing("burbot", [420, 0, 120, 315], [22, 0.85], [0.6, 0.6]),
  timing("silver eel", [760, 0, 120, 290], [24, 0.92], [0.8, 1.5]),
];

function timing(
  species: string,
  [migrants, springShare, springPeakDay, autumnPeakDay]: readonly [number, number, number, number],
  [seasonSpread, nightShare]: readonly [number, number],
  [flowExponent, riseExponent]: readonly [number, number],
): SpeciesTiming {
  return {
    species,
    migrants,
    springShare,
    springPeakDay,
    autumnPeakDay,
    seasonSpread,
    nightShare,
    flowExponent,
    riseExponent,
  };
}

/** The fish of one species that come to the plant on one day. */
export interface MigrationDay {
  readonly day: DayNumber;
  readonly species: string;
  readonly byDay: number;
  readonly byNight: number;
}

/** One season of one year: its days with the flow, and that of the day before. */
export interface SeasonDays {
  readonly season: "spring" | "autumn";
  readonly year: number;
  readonly days: readonly { readonly day: DayNumber; readonly flow: number; readonly before: number }[];
}

/** The migration seasons of every year of the flow record, by the months in `plant.csv`. */
export function migrationSeasons(): SeasonDays[] {
  const flows = new Map(dailyFlow().map(({ day, discharge }) => [day, discharge]));
  const years = [...new Set([...flows.keys()].map(yearOf))];
  return years.flatMap((year) =>
    (["spring", "autumn"] as const).map((season) => {
      const first = dayNumber(year, month(`${season}MigrationFirstMonth`), 1);
      const last = dayNumber(year, month(`${season}MigrationLastMonth`) + 1, 0);
      const days = Array.from({ length: last - first + 1 }, (_, at) => ({
        day: first + at,
        flow: flows.get(first + at) ?? Number.NaN,
        before: flows.get(first + at - 1) ?? Number.NaN,
      }));
      return { season, year, days };
    }),
  );
}

/** How many fish each day of a season draws, in proportion: a bell over the season, flow and its rise. */
export function dayWeights(fish: SpeciesTiming, { season, year, days }: SeasonDays): number[] {
  const peak = dayNumber(year, 1, 1) - 1 + (season === "spring" ? fish.springPeakDay : fish.autumnPeakDay);
  return days.map(
    ({ day, flow, before }) =>
      Math.exp(-0.5 * ((day - peak) / fish.seasonSpread) ** 2) *
      flow ** fish.flowExponent *
      (flow / before) ** fish.riseExponent,
  );
}

/**
 * The fish that come to the plant, day by day, in order of date and species.
 *
 * Returns one entry for each species and day of its seasons, days without fish included.
 */
export function migrationDays(
  truth: MigrationTimingTruth = migrationTimingTruth,
  list: readonly SpeciesTiming[] = speciesTimings,
): MigrationDay[] {
  const seasons = migrationSeasons();
  // One stream a species: a change to one leaves the days of the others as they were.
  const days = list.flatMap((fish, index) => {
    const draws = seededDraws(truth.seed + index);
    const moves = new Set(demoSpecies.find(({ species }) => species === fish.species)?.seasons);
    const yearSize = new Map<number, number>();
    return seasons
      .filter(({ season }) => moves.has(season))
      .flatMap((one) => {
        const size = yearSize.get(one.year) ?? fish.migrants * draws.lognormal(1, truth.yearSpread);
        yearSize.set(one.year, size);
        const share = one.season === "spring" ? fish.springShare : 1 - fish.springShare;
        const weights = dayWeights(fish, one);
        const sum = weights.reduce((total, weight) => total + weight, 0);
        return one.days.map(({ day }, at) => {
          // The mean of a lognormal lies above its median: taken off, so that the size stays the mean.
          const effect = draws.lognormal(Math.exp(-0.5 * truth.daySpread ** 2), truth.daySpread);
          const expected = (size * share * effect * weights[at]) / sum;
          const byNight = poisson(draws, expected * fish.nightShare);
          return {
            day,
            species: fish.species,
            byDay: poisson(draws, expected * (1 - fish.nightShare)),
            byNight,
          };
        });
      });
  });
  // The sort is stable: species of one day stay in the order of the list.
  return days.toSorted((one, other) => one.day - other.day);
}

/** Returns `migration-timing.csv` as text. */
export function migrationTimingCsv(): string {
  return csvText(
    ["date", "species", "byDay", "byNight"],
    migrationDays().map(({ day, species, byDay, byNight }) => [
      isoDate(day),
      species,
      String(byDay),
      String(byNight),
    ]),
  );
}

function month(key: string): number {
  const fact = plantFacts.find((candidate) => candidate.key === key);
  if (fact === undefined) throw new Error(`migration-timing: plant.csv has no fact "${key}".`);
  return fact.value;
}
