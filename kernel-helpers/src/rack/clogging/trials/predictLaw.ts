import { formatNumber } from "../../../quantity/format";
import type { Area, Length, Mass } from "../../../quantity/dimension";
import { u } from "../../../quantity/u";
import { predictLeastSquares } from "../../../statistics";
import { lossFactor } from "../lossFactor";
import type { CloggingFit } from "./fitLaw";

const caller = "clogging.predictLaw";

/** What a fitted law of clogging says about a rack. */
export interface CloggingPrediction {
  readonly method: string;
  readonly level: number;
  readonly lossFactor: number;
  /** Where the law lies. */
  readonly confidence: readonly [lower: number, upper: number];
  /** Where one more rack with this load lies: its debris happens to lie in its own way. */
  readonly prediction: readonly [lower: number, upper: number];
  readonly withinTestedRange: boolean;
  readonly cautions: readonly string[];
}

/**
 * Loss factor of a rack with debris by a fitted law, with its intervals.
 *
 * Returns the factor, a confidence interval for the law and a prediction interval for one more rack with as much debris, free of
 * reading errors. Valid within the loads and spacings of the trials; outside them a caution says so and the intervals do not
 * hold. Throws a RangeError for a rack that can't be, or one without debris.
 *
 * @example
 * clogging.predictLaw(clogging.fitLaw([12, 18, 25].flatMap((spacing) => [0.2, 0.4, 0.8, 1.6].map((load, at) => ({
 *   clearSpacing: u.mm(spacing), rackArea: u.m2(1), debrisMass: u.kg(load),
 *   lossFactor: clogging.lossFactor({ clearSpacing: u.mm(spacing), rackArea: u.m2(1), debrisMass: u.kg(load), scale: 6,
 *     loadExponent: 1.3, spacingExponent: 0.5 }) * (at % 2 === 0 ? 1.05 : 0.95),
 * })))), { debrisMass: u.kg(80), rackArea: u.m2(100), clearSpacing: u.mm(18) }).lossFactor // => 5.6895
 */
export function predictLaw(
  fit: CloggingFit,
  {
    debrisMass,
    rackArea,
    clearSpacing,
    level = fit.level,
  }: {
    readonly debrisMass: Mass;
    readonly rackArea: Area;
    readonly clearSpacing: Length;
    readonly level?: number;
  },
): CloggingPrediction {
  // The formula checks the rack, and counts as used.
  const factor = lossFactor({ ...fit.coefficients, debrisMass, rackArea, clearSpacing });
  if (debrisMass === 0) {
    throw new RangeError(
      `${caller}: debrisMass is 0 kg; a clean rack has the factor 1 and nothing to predict.`,
    );
  }
  const spread = fit.debrisSpread * (1 - 1 / factor);
  const { confidence, prediction, method } = predictLeastSquares(fit.fit, {
    at: { debrisMass, rackArea, clearSpacing },
    // Without any spread one more rack lies where the law does.
    weight: 1 / Math.max(spread ** 2, Number.MIN_VALUE ** 0.5),
    level,
  });
  const cautions = outsideOf(fit, { load: debrisMass / rackArea, clearSpacing });
  return {
    method,
    level,
    lossFactor: factor,
    confidence: factors(confidence),
    prediction: factors(prediction),
    withinTestedRange: cautions.length === 0,
    cautions,
  };
}

const factors = ([lower, upper]: readonly [number, number]): readonly [number, number] => [
  Math.exp(lower),
  Math.exp(upper),
];

const outside = (value: number, [least, most]: readonly [number, number]): boolean =>
  value < least * (1 - 1e-9) || value > most * (1 + 1e-9);

function outsideOf(
  { range }: CloggingFit,
  { load, clearSpacing }: { readonly load: number; readonly clearSpacing: Length },
): readonly string[] {
  const spacings = range.clearSpacing.map((one) => u.to.mm(one));
  return [
    ...(outside(load, range.load)
      ? [
          `${caller}: the load is ${formatNumber(load)} kg/m²; the trials had ${formatNumber(range.load[0])} to ` +
            `${formatNumber(range.load[1])} kg/m², and the intervals hold no further.`,
        ]
      : []),
    ...(outside(clearSpacing, range.clearSpacing)
      ? [
          `${caller}: clearSpacing is ${formatNumber(u.to.mm(clearSpacing))} mm; the trials had ${formatNumber(spacings[0])} ` +
            `to ${formatNumber(spacings[1])} mm, and the intervals hold no further.`,
        ]
      : []),
  ];
}
