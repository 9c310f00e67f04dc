import { checkLevel, checkNumber, checkWhole, refuse } from "../../statistics/checks";
import { percentile, resampled } from "../../statistics/clustering/clusterBootstrap";
import { checkSeed } from "../../statistics/random";
import type { ProtectionLaw } from "../law";
import { familyNamed } from "./families";
import { type ParameterName, shareAt, type Values } from "./family";
import { lawWith } from "./fittedLaw";
import { fitRows, type ProtectionFit } from "./protectionFit";
import { byCluster, type CountedFish } from "./trialFish";

/** A percentile interval of a parameter over resamples. */
export interface ResampledParameter {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
  /** Standard deviation of the resampled estimates. */
  readonly standardError: number;
}

/** A fitted curve fitted again to resampled clusters. */
export interface BootstrappedFit {
  readonly method: string;
  readonly level: number;
  readonly parameters: Readonly<Partial<Record<ParameterName, ResampledParameter>>>;
  readonly resamples: number;
  readonly seed: number;
  /** Resamples to which no finite curve fits; the intervals are those of the rest. */
  readonly withoutFit: number;
  /** The values of each resample that has a fit. */
  readonly draws: readonly Values[];
  readonly fit: ProtectionFit;
  readonly cautions: readonly string[];
}

/**
 * Fits a curve again to clusters drawn with replacement: what it might have been, had other runs been made.
 *
 * Returns percentile intervals of the parameters and the values of every resample, of which `band` and `laws` make more.
 * Whole clusters are drawn; where none are named, single fish are. The same seed gives the same result. Valid for
 * independent clusters, about 20 or more. Throws a RangeError for a seed or number of resamples that is not whole, fewer
 * than two clusters, and where fewer than half of the resamples have a fit.
 *
 * @example
 * protection.bootstrapFit({ fit: protection.fitLogistic({ fish: [{ relativeWidth: 0.4, held: 5, fish: 20 },
 *   { relativeWidth: 0.6, held: 10, fish: 20 }, { relativeWidth: 0.8, held: 15, fish: 20 }] }),
 *   resamples: 100, seed: 1 }).resamples // => 100
 */
export function bootstrapFit({
  fit,
  seed,
  resamples = 300,
  level = 0.95,
}: {
  readonly fit: ProtectionFit;
  readonly seed: number;
  readonly resamples?: number;
  readonly level?: number;
}): BootstrappedFit {
  const where = "protection.bootstrapFit";
  checkSeed(where, seed);
  checkWhole(where, "resamples", resamples, 50, 10_000);
  checkLevel(where, level);
  const family = familyNamed(fit.family);
  const clusters = byCluster(fit.rows) ?? singleFish(where, fit);
  if (clusters.length < 2)
    refuse(where, `the fish came in ${clusters.length} cluster; drawing needs at least 2`);

  const draws = Array.from(resampled(clusters, seed, resamples), (sample) => {
    const refit = fitRows(family, sample.flat(), fit.lapses, fit.values);
    return refit?.best.values;
  }).filter((values) => values !== undefined);
  if (draws.length < resamples / 2)
    refuse(
      where,
      `only ${draws.length} of ${resamples} resamples have a finite fit; the trial is too small for it`,
    );

  const names = Object.keys(fit.parameters) as ParameterName[]; // the keys of a record of parameters
  return {
    method: `${fit.clusters === undefined ? "fish" : "clusters"} drawn with replacement, percentiles`,
    level,
    parameters: Object.fromEntries(
      names.map((name) => [
        name,
        spreadOf(
          draws.map((one) => one[name] ?? Number.NaN),
          fit.values[name],
          level,
        ),
      ]),
    ),
    resamples,
    seed,
    withoutFit: resamples - draws.length,
    draws,
    fit,
    cautions: [
      ...(fit.clusters === undefined
        ? ["No clusters were named: single fish were drawn, as if they were independent."]
        : []),
      ...(clusters.length < 20
        ? [
            `Only ${clusters.length} clusters were drawn from: with fewer than about 20 intervals are too narrow.`,
          ]
        : []),
      ...(draws.length < resamples
        ? [`${resamples - draws.length} of ${resamples} resamples have no finite fit and are left out.`]
        : []),
    ],
  };
}

/** Fish that are drawn one by one; more would only cost time. */
const mostSingleFish = 100_000;

/** Every fish for itself. */
function singleFish(where: string, { rows, fish }: ProtectionFit): readonly (readonly CountedFish[])[] {
  if (fish > mostSingleFish)
    refuse(
      where,
      `${fish} fish without clusters are more than the ${mostSingleFish} that are drawn one by one; name their clusters`,
    );
  return rows.flatMap((row) =>
    Array.from({ length: row.fish }, (_, at) => [{ ...row, held: at < row.held ? 1 : 0, fish: 1 }]),
  );
}

function spreadOf(values: readonly number[], estimate = Number.NaN, level: number): ResampledParameter {
  const sorted = values.toSorted((a, b) => a - b);
  const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
  const squares = values.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return {
    estimate,
    lower: percentile(sorted, (1 - level) / 2),
    upper: percentile(sorted, (1 + level) / 2),
    standardError: Math.sqrt(squares / (values.length - 1)),
  };
}

/** A curve and the band about it, one entry a relative width. */
export interface CurveBand {
  readonly relativeWidth: readonly number[];
  readonly protection: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  readonly level: number;
  readonly method: string;
}

/**
 * The band of a fitted curve, from its resamples.
 *
 * Returns the curve and, at each relative width, the percentiles of the resampled curves. The band is pointwise: it holds
 * the curve at one width with the level stated, not at all widths at once. Throws a RangeError for a relative width below 0.
 *
 * @example
 * protection.band({ bootstrap: protection.bootstrapFit({ fit: protection.fitLogistic({ fish: [
 *   { relativeWidth: 0.4, held: 5, fish: 20 }, { relativeWidth: 0.6, held: 10, fish: 20 },
 *   { relativeWidth: 0.8, held: 15, fish: 20 }] }), resamples: 100, seed: 1 }), relativeWidth: [0.6] }).protection[0]
 * // => 0.5
 */
export function band({
  bootstrap,
  relativeWidth,
  level = bootstrap.level,
}: {
  readonly bootstrap: BootstrappedFit;
  readonly relativeWidth: readonly number[];
  readonly level?: number;
}): CurveBand {
  const where = "protection.band";
  checkLevel(where, level);
  relativeWidth.forEach((width, at) => checkNumber(where, `relativeWidth[${at}]`, width, { atLeast: 0 }));
  const { fit, draws } = bootstrap;
  const family = familyNamed(fit.family);
  const ends = relativeWidth.map((width) => {
    const shares = draws.map((values) => shareAt(family, values, width)).toSorted((a, b) => a - b);
    return [percentile(shares, (1 - level) / 2), percentile(shares, (1 + level) / 2)] as const;
  });
  return {
    relativeWidth,
    protection: relativeWidth.map(fit.share),
    lower: ends.map(([lower]) => lower),
    upper: ends.map(([, upper]) => upper),
    level,
    method: `pointwise, ${bootstrap.method}`,
  };
}

/**
 * The laws of all resamples of a fitted curve, to carry its uncertainty through a calculation.
 *
 * Returns one protection law for each resample that has a fit; `survival.band` takes them.
 *
 * @example
 * protection.laws(protection.bootstrapFit({ fit: protection.fitLogistic({ fish: [{ relativeWidth: 0.4, held: 5, fish: 20 },
 *   { relativeWidth: 0.6, held: 10, fish: 20 }, { relativeWidth: 0.8, held: 15, fish: 20 }] }),
 *   resamples: 100, seed: 1 })).length // => 100
 */
export const laws = ({ fit, draws }: BootstrappedFit): readonly ProtectionLaw[] =>
  draws.map((values) => lawWith(fit, values, "resampled"));
