import type { Angle, PlainNumber } from "../../../quantity/dimension";
import type { CurveParameter, LackOfFit, LeastSquaresFit } from "../../../statistics";
import type { Repeatability } from "../flume/repeatability";
import type { MeasuredLoss } from "./measuredLoss";

/** The coefficients of `rackLoss.fitted`. */
export interface LawCoefficients {
  readonly scale: PlainNumber;
  readonly blockageExponent: PlainNumber;
  readonly angleExponent: PlainNumber;
  readonly overlayCoefficient: PlainNumber;
}

/** What was measured, from the least to the most. */
export interface LawRange {
  readonly blockage: readonly [number, number];
  readonly rackAngle: readonly [Angle, Angle];
  readonly overlayShare: readonly [number, number];
}

/** One measured run beside the fitted law. */
export interface LawRun extends MeasuredLoss {
  readonly overlayShare: PlainNumber;
  readonly predicted: number;
  /** Measured minus predicted. */
  readonly residual: number;
  /** The residual as a share of the prediction. */
  readonly relativeResidual: number;
  /** The residual over its standard deviation by the fit: within ±2 for 19 of 20 runs. */
  readonly standardizedResidual: number;
}

/** The law of one bar shape. */
export interface FittedLaw {
  readonly barShape: string;
  /** To hand to `rackLoss.fitted` as they are. */
  readonly coefficients: LawCoefficients;
  /** The same with standard errors and intervals; without those that no run can tell. */
  readonly parameters: readonly CurveParameter[];
  readonly range: LawRange;
  readonly runs: readonly LawRun[];
  readonly residualStandardError: number;
  readonly degreesOfFreedom: number;
  /** Against the scatter of repeats; undefined where nothing was repeated. */
  readonly lackOfFit: LackOfFit | undefined;
  readonly fit: LeastSquaresFit<LawPlace>;
}

/** A law fitted to measured runs. */
export interface LawFit {
  readonly method: string;
  readonly level: number;
  readonly laws: readonly FittedLaw[];
  /** All runs, in the order of the laws. */
  readonly runs: readonly LawRun[];
  /** Undefined where nothing was repeated. */
  readonly repeatability: Repeatability | undefined;
  /** The repeats' standard deviation beyond the instruments as a share of the coefficient, as the weights hold it. */
  readonly settingUp: number;
  /** The median of the runs' own errors; undefined where they have none. */
  readonly medianError: number | undefined;
  readonly cautions: readonly string[];
}

/** What the law reads of a run. */
export interface LawPlace {
  readonly barShape: string;
  readonly blockage: number;
  readonly rackAngle: number;
  readonly overlayShare: number;
}
