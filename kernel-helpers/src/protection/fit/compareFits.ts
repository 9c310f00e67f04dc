import { refuse } from "../../statistics/checks";
import { byWidth } from "./trialFish";
import type { ProtectionFit } from "./protectionFit";

/** One fit among others. */
export interface ComparedFit {
  readonly name: string;
  readonly parameters: number;
  readonly logLikelihood: number;
  readonly aic: number;
  /** Akaike's criterion above that of the best fit. */
  readonly difference: number;
  /** The same with the log-likelihoods divided by the largest design effect, for fish that are not independent. */
  readonly quasiDifference: number;
  /** Weight of the evidence among the fits compared, from the quasi difference; all weights together are 1. */
  readonly weight: number;
}

/** Fits to the same fish, the best one first. */
export interface FitComparison {
  readonly fits: readonly ComparedFit[];
  /** The design effect that the log-likelihoods were divided by; 1 where no clusters were named. */
  readonly designEffect: number;
}

/**
 * Compares curves fitted to the same fish by Akaike's criterion.
 *
 * Returns the fits in rising order of the criterion that allows for clusters, with differences and weights. Below a
 * difference of about 2 the data hardly choose; the criterion ranks the curves offered and can't tell whether any is true.
 * Throws a RangeError for fewer than two fits and for fits to different fish.
 *
 * @example
 * protection.compareFits({ ramp: protection.fitRamp({ fish: [{ relativeWidth: 0.4, held: 5, fish: 20 },
 *   { relativeWidth: 0.6, held: 10, fish: 20 }, { relativeWidth: 0.8, held: 15, fish: 20 }] }),
 *   logistic: protection.fitLogistic({ fish: [{ relativeWidth: 0.4, held: 5, fish: 20 },
 *   { relativeWidth: 0.6, held: 10, fish: 20 }, { relativeWidth: 0.8, held: 15, fish: 20 }] }) }).fits.length // => 2
 */
export function compareFits(fits: Readonly<Record<string, ProtectionFit>>): FitComparison {
  const where = "protection.compareFits";
  const named = Object.entries(fits);
  if (named.length < 2) refuse(where, `there is ${named.length} fit; a comparison needs at least 2`);
  const [[firstName, firstFit]] = named;
  for (const [name, fit] of named) {
    if (!sameFish(fit, firstFit))
      refuse(
        where,
        `${name} and ${firstName} were fitted to different fish; only fits to the same can be compared`,
      );
  }
  const designEffect = Math.max(1, ...named.map(([, fit]) => fit.designEffect ?? 1));
  const rows = named.map(([name, { logLikelihood, aic, parameters }]) => {
    const count = Object.keys(parameters).length;
    return {
      name,
      parameters: count,
      logLikelihood,
      aic,
      quasi: 2 * count - (2 * logLikelihood) / designEffect,
    };
  });
  const least = Math.min(...rows.map((row) => row.aic));
  const leastQuasi = Math.min(...rows.map((row) => row.quasi));
  const all = rows.reduce((sum, row) => sum + Math.exp((leastQuasi - row.quasi) / 2), 0);
  return {
    designEffect,
    fits: rows
      .toSorted((a, b) => a.quasi - b.quasi)
      .map(({ quasi, ...row }) => ({
        ...row,
        difference: row.aic - least,
        quasiDifference: quasi - leastQuasi,
        weight: Math.exp((leastQuasi - quasi) / 2) / all,
      })),
  };
}

function sameFish(one: ProtectionFit, other: ProtectionFit): boolean {
  if (one === other) return true;
  return JSON.stringify(byWidth(one.rows)) === JSON.stringify(byWidth(other.rows));
}
