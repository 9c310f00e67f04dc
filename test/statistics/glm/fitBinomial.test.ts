import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitBinomial } from "../../../kernel-helpers/src/statistics/glm/fitBinomial";
import type { LinkName } from "../../../kernel-helpers/src/statistics/glm/link";

const links: readonly LinkName[] = ["logit", "probit", "cloglog"];

const runs = {
  successes: [3, 2, 4, 1, 0, 2, 3, 4],
  trials: [4, 4, 4, 4, 4, 4, 4, 4],
};
const width = [0.3, 0.2, 0.7, 0.2, 0.1, 0.4, 0.5, 0.6];
const species = ["roach", "ide", "roach", "ide", "roach", "ide", "roach", "ide"];

/** Rows in which each has both outcomes: such data are never separated. */
const mixedRows = fc
  .array(
    fc.record({
      trials: fc.integer({ min: 2, max: 40 }),
      part: fc.double({ min: 0, max: 1, noNaN: true }),
      x: fc.integer({ min: -50, max: 50 }),
    }),
    { minLength: 4, maxLength: 12 },
  )
  .filter((rows) => new Set(rows.map(({ x }) => x)).size > 2)
  .map((rows) => ({
    trials: rows.map(({ trials }) => trials),
    successes: rows.map(({ trials, part }) => 1 + Math.round(part * (trials - 2))),
    x: rows.map(({ x }) => x),
  }));

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

const ones = (length: number): number[] => Array.from({ length }, () => 1);

const close = (a: number, b: number, tolerance: number): boolean =>
  Math.abs(a - b) <= tolerance * (1 + Math.abs(a) + Math.abs(b));

describe("fitBinomial", () => {
  test.each(links)("%s: shifting and scaling a covariate shifts and scales its coefficients", (link) => {
    fc.assert(
      fc.property(
        mixedRows,
        fc.integer({ min: -1000, max: 1000 }),
        fc.constantFrom(0.001, 0.1, 7, 1000),
        ({ x, ...counts }, shift, scale) => {
          const plain = fitBinomial({ ...counts, terms: { x }, link });
          const moved = fitBinomial({
            ...counts,
            terms: { x: x.map((value) => scale * (value + shift)) },
            link,
          });
          const [intercept, slope] = plain.coefficients;
          const spread = Math.max(...x) - Math.min(...x);
          expect(close(moved.coefficients[1].estimate * scale * spread, slope.estimate * spread, 1e-6)).toBe(
            true,
          );
          expect(close(moved.coefficients[1].standardError * scale, slope.standardError, 1e-6)).toBe(true);
          expect(
            close(moved.coefficients[0].estimate, intercept.estimate - shift * slope.estimate, 1e-6),
          ).toBe(true);
          expect(close(moved.deviance, plain.deviance, 1e-8)).toBe(true);
        },
      ),
    );
  });

  test("with the logit link fitted totals equal observed totals, over all rows and within each level", () => {
    fc.assert(
      fc.property(mixedRows, ({ x, successes, trials }) => {
        const side = x.map((_, row) => (row % 2 === 0 ? "left" : "right"));
        const fit = fitBinomial({ successes, trials, terms: { side }, link: "logit" });
        for (const level of ["left", "right"]) {
          const rows = side.flatMap((one, row) => (one === level ? [row] : []));
          const observed = rows.reduce((sum, row) => sum + successes[row], 0);
          const fitted = rows.reduce((sum, row) => sum + trials[row] * fit.fitted[row], 0);
          expect(fitted).toBeCloseTo(observed, 8);
        }
        const slope = fitBinomial({ successes, trials, terms: { x }, link: "logit" });
        expect(total(slope.fitted.map((share, row) => share * trials[row]))).toBeCloseTo(total(successes), 7);
      }),
    );
  });

  test.each(links)("%s: no other coefficients near by are more likely", (link) => {
    const fit = fitBinomial({ ...runs, terms: { width, species }, link });
    const inverse = {
      logit: (value: number) => 1 / (1 + Math.exp(-value)),
      // Another route than the fit's: Simpson's rule over the normal density.
      probit: (value: number) =>
        0.5 + integral((at) => Math.exp(-(at ** 2) / 2) / Math.sqrt(2 * Math.PI), value),
      cloglog: (value: number) => 1 - Math.exp(-Math.exp(value)),
    }[link];
    const likelihood = (coefficients: readonly number[]): number =>
      runs.successes.reduce((sum, good, row) => {
        const line =
          coefficients[0] + coefficients[1] * width[row] + coefficients[2] * (species[row] === "ide" ? 1 : 0);
        const share = inverse(line);
        return sum + good * Math.log(share) + (runs.trials[row] - good) * Math.log(1 - share);
      }, 0);
    const best = fit.coefficients.map(({ estimate }) => estimate);
    for (let at = 0; at < best.length; at++) {
      for (const step of [-1e-3, 1e-3]) {
        const other = best.map((value, which) => (which === at ? value + step : value));
        expect(likelihood(other)).toBeLessThan(likelihood(best));
      }
    }
    // The log-likelihood of the fit differs from this one by the number of ways to draw the counts alone.
    const ways = runs.successes.reduce((sum, good) => sum + Math.log([1, 4, 6, 4, 1][good]), 0);
    expect(fit.logLikelihood).toBeCloseTo(likelihood(best) + ways, 8);
  });

  test("a factor's first level is the base, in order of appearance or as levels states", () => {
    const asFound = fitBinomial({ ...runs, terms: { species }, link: "logit" });
    expect(asFound.coefficients.map(({ name }) => name)).toEqual(["intercept", "species: ide"]);
    const stated = fitBinomial({
      ...runs,
      terms: { species },
      levels: { species: ["ide", "roach"] },
      link: "logit",
    });
    expect(stated.coefficients.map(({ name }) => name)).toEqual(["intercept", "species: roach"]);
    expect(stated.coefficients[1].estimate).toBeCloseTo(-asFound.coefficients[1].estimate, 10);
  });

  test("a factor with two levels gives the log odds ratio of the table and its error by hand", () => {
    const fit = fitBinomial({
      successes: [30, 18],
      trials: [40, 45],
      terms: { cue: ["dark", "light"] },
      link: "logit",
    });
    expect(fit.coefficients[1].estimate).toBeCloseTo(Math.log(18 / 27 / (30 / 10)), 10);
    expect(fit.coefficients[1].standardError).toBeCloseTo(Math.sqrt(1 / 18 + 1 / 27 + 1 / 30 + 1 / 10), 10);
    expect(fit.covariance.get(0, 1)).toBeCloseTo(-(1 / 30 + 1 / 10), 10);
    expect(fit.dispersion).toBeUndefined();
    expect(fit.coefficients[1].quasiStandardError).toBeUndefined();
  });

  test("an intercept alone gives the share of all rows, and its deviance is the null deviance", () => {
    const fit = fitBinomial({ ...runs, terms: {}, link: "cloglog" });
    expect(fit.fitted[0]).toBeCloseTo(19 / 32, 12);
    expect(fit.deviance).toBeCloseTo(fit.nullDeviance, 10);
    expect(fit.degreesOfFreedom).toBe(7);
  });

  test("doubling every fish into a pair of the same fate doubles the dispersion and leaves the coefficients", () => {
    const once = fitBinomial({ ...runs, terms: { width }, link: "logit" });
    const twice = fitBinomial({
      successes: runs.successes.map((value) => 2 * value),
      trials: runs.trials.map((value) => 2 * value),
      terms: { width },
      link: "logit",
    });
    expect(twice.coefficients[1].estimate).toBeCloseTo(once.coefficients[1].estimate, 8);
    expect((twice.dispersion ?? NaN) / (once.dispersion ?? NaN)).toBeCloseTo(2, 8);
    expect(twice.coefficients[1].quasiStandardError).toBeCloseTo(
      once.coefficients[1].quasiStandardError ?? NaN,
      8,
    );
  });

  test("rows without trials change nothing but are named", () => {
    const fit = fitBinomial({ ...runs, terms: { width }, link: "logit" });
    const withEmpty = fitBinomial({
      successes: [...runs.successes, 0],
      trials: [...runs.trials, 0],
      terms: { width: [...width, 0.9] },
      link: "logit",
    });
    expect(withEmpty.coefficients).toEqual(fit.coefficients);
    expect(withEmpty.degreesOfFreedom).toBe(fit.degreesOfFreedom);
    expect(withEmpty.cautions).toEqual(["1 row has no trials and carries no information."]);
    expect(fit.cautions).toEqual([]);
  });

  test("a large origin and a small unit cost no digits", () => {
    const fit = fitBinomial({ ...runs, terms: { width }, link: "logit" });
    const far = fitBinomial({
      ...runs,
      terms: { width: width.map((value) => 1e6 + 1e-3 * value) },
      link: "logit",
    });
    expect(far.coefficients[1].estimate / 1000).toBeCloseTo(fit.coefficients[1].estimate, 4);
    expect(far.deviance).toBeCloseTo(fit.deviance, 6);
  });
});

describe("fitBinomial says in a sentence that no finite fit exists", () => {
  test.each(links)("%s: a covariate that tells all rows apart", (link) => {
    expect(() =>
      fitBinomial({
        successes: [0, 0, 0, 1, 1, 1],
        trials: ones(6),
        terms: { width: [1, 2, 3, 4, 5, 6] },
        link,
      }),
    ).toThrow(/tell 6 of 6 rows apart into only successes and only failures \(complete separation\)/);
  });

  test.each(links)("%s: a covariate that tells all rows apart but the ones at one value", (link) => {
    expect(() =>
      fitBinomial({
        successes: [0, 0, 1, 0, 1, 1],
        trials: ones(6),
        terms: { width: [1, 2, 3, 3, 5, 6] },
        link,
      }),
    ).toThrow(
      /tell 4 of 6 rows apart .* \(quasi-complete separation\), so the fit has no finite coefficients; merge/,
    );
  });

  test.each(links)(
    "%s: levels with one outcome alone are named, beside a covariate too, base or not",
    (link) => {
      const three = { trials: [4, 4, 4, 4, 4, 4], link };
      const terms = { species: ["roach", "roach", "eel", "eel", "ide", "ide"], width: [1, 2, 3, 1, 2, 3] };
      expect(() => fitBinomial({ successes: [3, 2, 4, 4, 0, 0], terms, ...three })).toThrow(
        /every row with species "eel" has only successes and every row with species "ide" has only failures \(quasi/,
      );
      expect(() => fitBinomial({ successes: [4, 4, 1, 3, 2, 2], terms, ...three })).toThrow(
        /every row with species "roach" has only successes \(quasi/,
      );
    },
  );

  test.each(links)("%s: a single outcome in all rows", (link) => {
    expect(() => fitBinomial({ successes: [4, 4], trials: [4, 4], terms: {}, link })).toThrow(
      "statistics.fitBinomial: every row has only successes, so there is nothing to fit; add rows with both outcomes.",
    );
    expect(() => fitBinomial({ successes: [0, 0], trials: [4, 4], terms: {}, link })).toThrow(
      /only failures/,
    );
  });

  test("data whose outcomes overlap by one row are fitted, however steep", () => {
    const fit = fitBinomial({
      successes: [0, 0, 1, 0, 1, 1],
      trials: ones(6),
      terms: { width: [1, 2, 3, 3.01, 5, 6] },
      link: "logit",
    });
    expect(fit.converged).toBe(true);
    expect(fit.coefficients[1].estimate).toBeGreaterThan(0);
    expect(fit.coefficients[1].estimate).toBeLessThan(100);
  });

  test("a term that follows from others is named with them", () => {
    const zone = ["a", "b", "a", "b", "a", "b", "a", "b"];
    expect(() =>
      fitBinomial({ ...runs, terms: { width, double: width.map((x) => 2 * x) }, link: "logit" }),
    ).toThrow(
      "statistics.fitBinomial: double follows exactly from width (rank deficiency), so their effects can't be told " +
        "apart; leave one of them out.",
    );
    expect(() => fitBinomial({ ...runs, terms: { width, species, zone }, link: "logit" })).toThrow(
      /zone: b follows exactly from species: ide \(rank deficiency\)/,
    );
    expect(() => fitBinomial({ ...runs, terms: { depth: width.map(() => 3.6) }, link: "logit" })).toThrow(
      /depth has the same value in every row with trials/,
    );
  });

  test("more coefficients than rows", () => {
    expect(() =>
      fitBinomial({ successes: [1, 2], trials: [4, 4], terms: { a: [1, 2], b: [2, 1] }, link: "logit" }),
    ).toThrow(/3 coefficients \(intercept, a, b\) can't be fitted to 2 rows with trials/);
  });
});

describe("fitBinomial refuses counts and terms that don't go together", () => {
  const fit = (over: Partial<Parameters<typeof fitBinomial>[0]>) => () =>
    fitBinomial({ ...runs, terms: { width }, link: "logit", ...over });

  test.each([
    [
      { successes: [5, ...runs.successes.slice(1)] },
      "successes[0] is 5; it must be a whole number from 0 to 4.",
    ],
    [
      { successes: [0.5, ...runs.successes.slice(1)] },
      "successes[0] is 0.5; it must be a whole number from 0 to 4.",
    ],
    [
      { trials: [NaN, ...runs.trials.slice(1)] },
      "trials[0] is NaN; it must be a whole number of at least 0.",
    ],
    [{ trials: [4, 4] }, "successes has 8 values and trials 2; each row needs one of both."],
    [{ successes: [0, 0], trials: [0, 0], terms: {} }, "no row has a trial; there is nothing to fit."],
    [{ terms: { width: [1, 2] } }, "terms.width has 2 values and trials 8; each row needs one of both."],
    [
      { terms: { width: [Infinity, ...width.slice(1)] } },
      "terms.width[0] is Infinity; it must be a finite number.",
    ],
    [{ levels: { species: ["ide"] } }, "levels names species, which is not among the terms."],
    [
      { terms: { species }, levels: { species: ["ide"] } },
      'terms.species has "roach", which levels.species does not list.',
    ],
    [
      { terms: { species }, levels: { species: ["ide", "roach", "eel"] } },
      'levels.species lists "eel", which no row has; leave it out.',
    ],
  ])("%j", (over, sentence) => {
    expect(fit(over)).toThrow(`statistics.fitBinomial: ${sentence}`);
  });

  test("words among numbers, and an unknown link, as a cell without strict types may pass them", () => {
    const mixed = JSON.parse('["roach", 1, 2, 3, 4, 5, 6, 7]') as string[];
    expect(fit({ terms: { mixed } })).toThrow(/terms.mixed mixes numbers and words/);
    const link = JSON.parse('"loglog"') as LinkName;
    expect(fit({ link })).toThrow(/link is "loglog"; it must be "logit", "probit" or "cloglog"/);
  });
});

/** The integral from 0 to a value by Simpson's rule. */
function integral(evaluate: (at: number) => number, to: number): number {
  const steps = 400;
  const stride = to / steps;
  return (
    Array.from({ length: steps + 1 }, (_, at) => {
      const weight = at === 0 || at === steps ? 1 : at % 2 === 1 ? 4 : 2;
      return weight * evaluate(at * stride);
    }).reduce((sum, value) => sum + value, 0) *
    (stride / 3)
  );
}
