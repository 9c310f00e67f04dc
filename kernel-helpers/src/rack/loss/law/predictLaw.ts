import { printValue } from "../../../formula/input";
import type { Angle, PlainNumber } from "../../../quantity/dimension";
import { predictLeastSquares } from "../../../statistics";
import { fitted } from "../fitted";
import type { FittedLaw, LawFit } from "./law";

const caller = "rackLoss.predictLaw";

/** What a fitted law says about a rack. */
export interface LawPrediction {
  readonly method: string;
  readonly level: number;
  readonly lossCoefficient: number;
  /** Of the law at this rack. */
  readonly standardError: number;
  /** Where the law lies. */
  readonly confidence: readonly [lower: number, upper: number];
  /** Where one more rack lies, set up anew and measured like the others. */
  readonly prediction: readonly [lower: number, upper: number];
  readonly withinTestedRange: boolean;
  readonly cautions: readonly string[];
}

/**
 * Loss coefficient of a rack by a fitted law, with its intervals.
 *
 * Returns the coefficient, a confidence interval for the law and a prediction interval for one more rack, set up anew and
 * measured with the median error of the fitted runs. Valid for the flume and the range of the runs; outside it a caution says
 * so and the intervals do not hold. Throws a RangeError for a bar shape that was not fitted and a rack that can't be.
 *
 * @example
 * rackLoss.predictLaw(rackLoss.fitLaw([30, 60, 90].flatMap((angle) => [0.3, 0.4, 0.5].map((blockage) => ({
 *   barShape: "foil", blockage, rackAngle: u.deg(angle),
 *   lossCoefficient: rackLoss.fitted({ scale: 1.4, blockageExponent: 1.5, angleExponent: 1.2, overlayCoefficient: 0,
 *     blockage, rackAngle: u.deg(angle), overlayShare: 0 }) + (angle === 60 ? 0.01 : -0.01),
 * })))), { barShape: "foil", blockage: 0.35, rackAngle: u.deg(38) }).lossCoefficient // => 0.3058
 */
export function predictLaw(
  fit: LawFit,
  {
    barShape,
    blockage,
    rackAngle,
    overlayShare = 0,
    level = fit.level,
  }: {
    readonly barShape: string;
    readonly blockage: PlainNumber;
    readonly rackAngle: Angle;
    readonly overlayShare?: PlainNumber;
    readonly level?: number;
  },
): LawPrediction {
  const law = fit.laws.find((one) => one.barShape === barShape);
  if (law === undefined) {
    throw new RangeError(
      `${caller}: barShape is ${JSON.stringify(barShape)}; the fit knows ${fit.laws.map((one) => one.barShape).join(", ")}.`,
    );
  }
  const place = { barShape, blockage, rackAngle, overlayShare };
  // The formula checks the rack, and counts as used.
  const lossCoefficient = fitted({ ...law.coefficients, blockage, rackAngle, overlayShare });
  const variance =
    fit.medianError === undefined ? 1 : fit.medianError ** 2 + (fit.settingUp * lossCoefficient) ** 2;
  const { standardError, confidence, prediction, method } = predictLeastSquares(law.fit, {
    at: place,
    weight: 1 / variance,
    level,
  });
  const outside = outsideOf(law, { blockage, rackAngle, overlayShare });
  return {
    method,
    level,
    lossCoefficient,
    standardError,
    confidence,
    prediction,
    withinTestedRange: outside.length === 0,
    cautions: outside,
  };
}

function outsideOf(
  { barShape, range }: FittedLaw,
  place: { readonly blockage: number; readonly rackAngle: Angle; readonly overlayShare: number },
): readonly string[] {
  const names = [
    ["blockage", "ratio"],
    ["rackAngle", "angle"],
    ["overlayShare", "ratio"],
  ] as const;
  return names.flatMap(([name, kind]) => {
    const [least, most] = range[name];
    const value = place[name];
    if (value >= least - 1e-9 && value <= most + 1e-9) return [];
    const say = (one: number) => printValue(one, kind);
    return [
      `${caller}: ${name} is ${say(value)}; the runs with ${barShape} bars had ${say(least)} to ${say(most)}, and ` +
        "the intervals hold no further.",
    ];
  });
}
