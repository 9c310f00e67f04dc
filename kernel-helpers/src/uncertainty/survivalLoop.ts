/** Drawn inputs of total survival, one entry a draw. */
export interface SurvivalColumns {
  readonly clearSpacing: Float64Array;
  readonly bodyRatio: Float64Array;
  readonly threshold: Float64Array;
  readonly exponent: Float64Array;
  readonly mortalityFactor: Float64Array;
  readonly protectedSurvival: Float64Array;
}

/**
 * Total survival of fish of one length under every draw, into a row: the ramp of `protection.ramp` and the sum of
 * `survival.total`, written out for typed arrays.
 *
 * Returns a function of length and turbine mortality that fills the row. What doesn't depend on length is worked out once:
 * the ramp's argument (w − w₀)/(1 − w₀) is a straight line in length, and a power is an exponential of a logarithm, which
 * takes half the time of a general power.
 */
export function survivalLoop(
  columns: SurvivalColumns,
): (length: number, mortality: number, row: Float64Array) => void {
  const { clearSpacing, bodyRatio, threshold, exponent, mortalityFactor, protectedSurvival } = columns;
  const draws = clearSpacing.length;
  const slope = new Float64Array(draws);
  const start = new Float64Array(draws);
  for (let at = 0; at < draws; at++) {
    const scale = 1 / (1 - threshold[at]);
    slope[at] = (bodyRatio[at] / clearSpacing[at]) * scale;
    start[at] = threshold[at] * scale;
  }
  return (length, mortality, row) => {
    for (let at = 0; at < draws; at++) {
      const upTheRamp = slope[at] * length - start[at];
      const share = upTheRamp <= 0 ? 0 : upTheRamp >= 1 ? 1 : Math.exp(exponent[at] * Math.log(upTheRamp));
      const killed = mortalityFactor[at] * mortality;
      const turbineSurvival = killed > 1 ? 0 : 1 - killed;
      row[at] = turbineSurvival + share * (protectedSurvival[at] - turbineSurvival);
    }
  };
}
