import { describe, expect, it } from "vitest";
import { efficiencyPoints } from "../../data-demo/generators/efficiency";
import {
  dayWeights,
  migrationSeasons,
  migrationTimingTruth,
  type SpeciesTiming,
  speciesTimings,
} from "../../data-demo/generators/migration-timing";
import { demoSpecies } from "../../data-demo/generators/species";
import { demoRows } from "./files";

const rows = demoRows("migration-timing.csv").map((row) => ({
  date: row.date,
  species: row.species,
  byDay: Number(row.byDay),
  byNight: Number(row.byNight),
}));
const flowDates = new Set(demoRows("daily-flow.csv").map(({ date }) => date));
const facts = new Map(demoRows("plant.csv").map((row) => [row.key, Number(row.value)]));
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const isoDate = (day: number): string => new Date(day * 86_400_000).toISOString().slice(0, 10);

describe("migration-timing.csv", () => {
  it("has every species on every day of its seasons, once, and on no other day", () => {
    const keys = rows.map(({ date, species }) => `${date} ${species}`);
    expect(new Set(keys).size).toBe(9120);
    expect(keys).toHaveLength(9120);
    for (const { species, seasons } of demoSpecies) {
      const months = seasons.flatMap((season) => {
        const first = facts.get(`${season}MigrationFirstMonth`) ?? Number.NaN;
        const last = facts.get(`${season}MigrationLastMonth`) ?? Number.NaN;
        return Array.from({ length: last - first + 1 }, (_, index) => first + index);
      });
      const own = rows.filter((row) => row.species === species);
      const seen = [...new Set(own.map(({ date }) => Number(date.slice(5, 7))))].toSorted((a, b) => a - b);
      expect({ species, seen }).toEqual({ species, seen: months });
    }
  });

  it("has no day that the flow record lacks", () => {
    expect(rows.filter(({ date }) => !flowDates.has(date))).toEqual([]);
  });

  it("is in order of date", () => {
    const dates = rows.map(({ date }) => date);
    expect(dates).toEqual(dates.toSorted());
  });

  it("has timings whose species are those of species.csv, in its order", () => {
    expect(speciesTimings.map(({ species }) => species)).toEqual(demoSpecies.map(({ species }) => species));
  });
});

describe.each(speciesTimings)("a look at the days of the $species gives back the truth:", (truth) => {
  const own = new Map(rows.filter((row) => row.species === truth.species).map((row) => [row.date, row]));
  const counts = [...own.values()];
  const all = sum(counts.map(({ byDay, byNight }) => byDay + byNight));

  it("the share of the nights", () => {
    const night = sum(counts.map(({ byNight }) => byNight)) / all;
    // Night and day of one date share its effect, so their split is binomial.
    const error = Math.sqrt((truth.nightShare * (1 - truth.nightShare)) / all);
    expect(Math.abs(night - truth.nightShare)).toBeLessThan(3.5 * error);
  });

  it("the mean number of migrants of a year", () => {
    const { yearSpread } = migrationTimingTruth;
    const years = 12;
    const mean = truth.migrants * Math.exp(yearSpread ** 2 / 2);
    expect(Math.abs(all / years / mean - 1)).toBeLessThan((3.5 * yearSpread * 1.1) / Math.sqrt(years));
  });

  it("the exponents of flow and of its rise", () => {
    const fit = fitExponents(truth);
    expect(Math.abs(fit.flow - truth.flowExponent)).toBeLessThan(3.5 * fit.flowError);
    expect(Math.abs(fit.rise - truth.riseExponent)).toBeLessThan(3.5 * fit.riseError);
    expect(fit.flowError).toBeLessThan(0.25);
  });

  /** Multinomial likelihood within each season, by Newton's method; errors widened by the scatter that is there. */
  function fitExponents(start: SpeciesTiming) {
    const seasons = migrationSeasons().map((season) => ({
      season,
      counts: season.days.map(({ day }) => {
        const row = own.get(isoDate(day));
        return row === undefined ? 0 : row.byDay + row.byNight;
      }),
    }));
    let flow = 0;
    let rise = 0;
    for (let step = 0; ; step++) {
      const score = [0, 0];
      const information = [0, 0, 0];
      let scatter = 0;
      let days = 0;
      for (const { season, counts: seen } of seasons) {
        const total = sum(seen);
        if (total === 0) continue;
        const weights = dayWeights({ ...start, flowExponent: flow, riseExponent: rise }, season);
        const shares = weights.map((weight) => weight / sum(weights));
        const x = season.days.map((one) => Math.log(one.flow));
        const z = season.days.map((one) => Math.log(one.flow / one.before));
        const mx = sum(shares.map((share, i) => share * x[i]));
        const mz = sum(shares.map((share, i) => share * z[i]));
        for (const [i, share] of shares.entries()) {
          score[0] += (seen[i] - total * share) * x[i];
          score[1] += (seen[i] - total * share) * z[i];
          information[0] += total * share * (x[i] - mx) ** 2;
          information[1] += total * share * (x[i] - mx) * (z[i] - mz);
          information[2] += total * share * (z[i] - mz) ** 2;
          if (total * share > 1) {
            scatter += (seen[i] - total * share) ** 2 / (total * share);
            days++;
          }
        }
      }
      const [a, b, d] = information;
      const det = a * d - b * b;
      const move = [(d * score[0] - b * score[1]) / det, (a * score[1] - b * score[0]) / det];
      // A full step from far away may overshoot: half a unit at most.
      const shorter = Math.min(1, 0.5 / Math.hypot(...move));
      flow += shorter * move[0];
      rise += shorter * move[1];
      if (step > 30 || Math.abs(move[0]) + Math.abs(move[1]) < 1e-8) {
        const wide = scatter / days;
        return {
          flow,
          rise,
          flowError: Math.sqrt((wide * d) / det),
          riseError: Math.sqrt((wide * a) / det),
        };
      }
    }
  }
});

describe("efficiency.csv", () => {
  it("begins at the technical minimum, ends at full discharge and is best where plant.csv says", () => {
    const points = demoRows("efficiency.csv").map((row) => ({
      discharge: Number(row["discharge [m3/s]"]),
      efficiency: Number(row.efficiency),
    }));
    expect(points).toEqual(efficiencyPoints);
    expect(points[0].discharge).toBe(facts.get("technicalMinimum"));
    expect(points.at(-1)?.discharge).toBe(facts.get("dischargePerUnit"));
    const best = points.toSorted((one, other) => other.efficiency - one.efficiency)[0];
    expect(best).toEqual({ discharge: facts.get("bestDischarge"), efficiency: facts.get("efficiency") });
  });
});
