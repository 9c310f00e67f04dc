import { checkLevel, refuse } from "../statistics/checks";
import { studentQuantile } from "../statistics/distributions";

/** A mean of samples that follow each other, with the error that their correlation leaves. */
export interface CorrelatedMean {
  readonly method: string;
  readonly level: number;
  readonly mean: number;
  readonly standardDeviation: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
  /** Samples used. */
  readonly samples: number;
  /** How many independent samples they are worth. */
  readonly effectiveSamples: number;
  /** Sum of the correlations times the step, half of the time between independent samples; in s where `step` is. */
  readonly integralTime: number;
  /** Lag in samples up to which correlations were added. */
  readonly lags: number;
}

const method = "autocorrelations added up to their first zero; Student's t";

/**
 * Mean of an evenly spaced record whose samples are correlated, with its sampling error.
 *
 * Returns the mean, its standard error and interval, the number of independent samples that the record is worth, and the
 * integral time scale. The variance of the mean is that of all pairs of samples (Bayley & Hammersley 1946, Suppl. J. R.
 * Stat. Soc. 8), with the correlations of the record up to the first that is not positive. `undefined` stands for a sample
 * that is missing: pairs with it do not count. Valid for steady records of some tens of integral time scales; slow swings
 * that the record holds a few times only are not in the error; a signal that never changes has an error of 0 and says
 * more about the probe than about the water. Throws a RangeError for fewer than 20 samples and a
 * `step` that is not above 0.
 *
 * @example
 * velocity.correlatedMean(Array.from({ length: 100 }, (_, i) => (i % 2 === 0 ? 0.4 : 0.6)), { step: 0.04 }).mean // => 0.5
 */
export function correlatedMean(
  series: readonly (number | undefined)[],
  options: { readonly step: number; readonly level?: number },
): CorrelatedMean {
  const where = "velocity.correlatedMean";
  const { step, level = 0.95 } = options;
  checkLevel(where, level);
  if (!(step > 0) || !Number.isFinite(step)) {
    refuse(where, `step is ${String(step)}; it must be above 0, the time from sample to sample`);
  }
  series.forEach((value, at) => {
    if (value !== undefined && !Number.isFinite(value)) {
      refuse(
        where,
        `sample ${at + 1} is ${String(value)}; it must be a finite number, or undefined where it is missing`,
      );
    }
  });
  const good = series.filter((value) => value !== undefined);
  if (good.length < 20) refuse(where, `the series has ${good.length} samples; it must have at least 20`);

  const mean = good.reduce((sum, value) => sum + value, 0) / good.length;
  // What rounding leaves of a signal that never changes is no fluctuation, and would seem correlated for ever.
  const rounding = 1e-12 * good.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const constant = good.every((value) => Math.abs(value - mean) <= rounding);
  const deviations = series.map((value) => (value === undefined ? undefined : constant ? 0 : value - mean));
  const variance = covarianceAt(deviations, 0).covariance;
  // Each pair counts twice; a lag's covariance is taken from the pairs that are there.
  let [pairsUsed, sum, covariances, lags] = [good.length, good.length * variance, 0, 0];
  for (let lag = 1; lag < series.length; lag++) {
    const { covariance, pairs } = covarianceAt(deviations, lag);
    if (pairs === 0 || covariance <= 0) break;
    pairsUsed += 2 * pairs;
    sum += 2 * pairs * covariance;
    covariances += covariance;
    lags = lag;
  }
  // Deviations from the record's own mean leave each covariance short of the variance of that mean:
  // V = (sum + pairs · V) / n², solved for V.
  const varianceOfMean = sum / (good.length ** 2 - pairsUsed);
  const whole = variance + varianceOfMean;
  const effective = Math.max(2, whole > 0 ? whole / varianceOfMean : good.length);
  const standardError = Math.sqrt(varianceOfMean);
  const reach = studentQuantile((1 + level) / 2, { degreesOfFreedom: effective - 1 }) * standardError;
  return {
    method,
    level,
    mean,
    standardDeviation: Math.sqrt(whole),
    standardError,
    lower: mean - reach,
    upper: mean + reach,
    samples: good.length,
    effectiveSamples: effective,
    integralTime: step * (0.5 + (whole > 0 ? (covariances + lags * varianceOfMean) / whole : 0)),
    lags,
  };
}

function covarianceAt(
  deviations: readonly (number | undefined)[],
  lag: number,
): { readonly covariance: number; readonly pairs: number } {
  let sum = 0;
  let pairs = 0;
  for (let at = 0; at + lag < deviations.length; at++) {
    const one = deviations[at];
    const other = deviations[at + lag];
    if (one === undefined || other === undefined) continue;
    sum += one * other;
    pairs++;
  }
  return { covariance: pairs > 0 ? sum / pairs : 0, pairs };
}
