/** Drawn inputs of total survival, one entry a draw. */
export interface SurvivalColumns {
  readonly clearSpacing: Float64Array;
  readonly bodyRatio: Float64Array;
  readonly threshold: Float64Array;
  readonly exponent: Float64Array;
  readonly mortalityFactor: Float64Array;
  readonly protectedSurvival: Float64Array;
}

/** Total survival of fish of one length under every draw. The row is one and filled anew at each call. */
export type SurvivalRow = (length: number, mortality: number) => Float64Array;

/**
 * The ramp's argument (w − w₀)/(1 − w₀) under every draw, which is a straight line in length: slope × length − start. It is
 * at most 0 up to the threshold and at least 1 from the barrier length on.
 */
export function rampLines({ clearSpacing, bodyRatio, threshold }: SurvivalColumns): {
  readonly slope: Float64Array;
  readonly start: Float64Array;
} {
  const slope = new Float64Array(clearSpacing.length);
  const start = new Float64Array(clearSpacing.length);
  for (let at = 0; at < slope.length; at++) {
    const scale = 1 / (1 - threshold[at]);
    slope[at] = (bodyRatio[at] / clearSpacing[at]) * scale;
    start[at] = threshold[at] * scale;
  }
  return { slope, start };
}

/**
 * `protection.ramp` and `survival.total` written out for typed arrays: what doesn't depend on length is worked out once, and a
 * power is an exponential of a logarithm, which takes half the time of a general power.
 */
export function survivalLoop(columns: SurvivalColumns): SurvivalRow {
  const { exponent, mortalityFactor, protectedSurvival } = columns;
  const { slope, start } = rampLines(columns);
  const row = new Float64Array(slope.length);
  return (length, mortality) => {
    for (let at = 0; at < row.length; at++) {
      const upTheRamp = slope[at] * length - start[at];
      const share = upTheRamp <= 0 ? 0 : upTheRamp >= 1 ? 1 : Math.exp(exponent[at] * Math.log(upTheRamp));
      const killed = mortalityFactor[at] * mortality;
      const turbineSurvival = killed > 1 ? 0 : 1 - killed;
      row[at] = turbineSurvival + share * (protectedSurvival[at] - turbineSurvival);
    }
    return row;
  };
}
