import { noteUse } from "../../../formula/usage";
import type { Angle, PlainNumber } from "../../../quantity/dimension";
import { u } from "../../../quantity/u";
import {
  addCommonErrors,
  type CurveParameter,
  fitLeastSquares,
  lackOfFit,
  type LackOfFit,
  type LeastSquaresFit,
} from "../../../statistics";
import { fitted } from "../fitted";
import { type Repeatability, repeatability } from "../flume/repeatability";
import { checkLosses, type MeasuredLoss } from "./measuredLoss";

const caller = "rackLoss.fitLaw";

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

/** Whether each bar shape has a law of its own, or all share the exponents and differ by their scale. */
export type LawSharing = "each shape its own law" | "a factor by shape";

const scaleOf = (barShape: string): string => `scale: ${barShape}`;

/** The law without its scale. */
function shapeless(parameters: Readonly<Record<string, number>>, place: LawPlace): number {
  const { blockageExponent, angleExponent, overlayCoefficient = 0 } = parameters;
  const { blockage, rackAngle, overlayShare } = place;
  return fitted.evaluate({
    scale: 1,
    blockageExponent,
    angleExponent,
    overlayCoefficient,
    blockage,
    rackAngle,
    overlayShare,
  });
}

/**
 * Fits the law ξ = C (P/(1 − P))^a (sin α)^c (1 + oΩ) to measured loss coefficients, by weighted nonlinear least squares.
 *
 * Takes reduced flume runs, or plain records of bar shape, blockage, angle, overlay share and loss coefficient. Where every run
 * has its standard error, weights follow from it and from the spread between settings-up that the repeats show; otherwise all
 * runs weigh the same. Errors that all runs share are added to those of the coefficients. Returns the law of each bar shape
 * with errors, intervals, residuals, tested range and a test of lack of fit against repeats. Valid where the runs were, no further.
 * Throws a RangeError for runs that can't be, too few of them, and coefficients that the runs can't tell apart.
 *
 * @example
 * rackLoss.fitLaw([30, 60, 90].flatMap((angle) => [0.3, 0.4, 0.5].map((blockage, at) => ({
 *   barShape: "rectangular", blockage, rackAngle: u.deg(angle), overlayShare: 0.1 * at,
 *   lossCoefficient: rackLoss.fitted({ scale: 2.6, blockageExponent: 1.5, angleExponent: 1.3, overlayCoefficient: 2,
 *     blockage, rackAngle: u.deg(angle), overlayShare: 0.1 * at }) + (angle === 60 ? 0.01 : -0.01),
 * })))).laws[0].coefficients.angleExponent // => 1.324
 */
export function fitLaw(
  runs: readonly MeasuredLoss[],
  {
    sharing = "each shape its own law",
    level = 0.95,
  }: { readonly sharing?: LawSharing; readonly level?: number } = {},
): LawFit {
  checkLosses(caller, runs);
  if (sharing !== "each shape its own law" && sharing !== "a factor by shape") {
    throw new RangeError(
      `${caller}: sharing is ${JSON.stringify(sharing)}; it must be "each shape its own law" or "a factor by shape".`,
    );
  }
  noteUse(fitted.id);
  const repeats = repeatsOf(runs);
  const settingUp = repeats?.settingUp ?? 0;
  const shapes = [...new Set(runs.map(({ barShape }) => barShape))];
  const groups = sharing === "a factor by shape" ? [shapes] : shapes.map((shape) => [shape]);
  const found = groups.map((members) =>
    fitShapes(
      runs.filter(({ barShape }) => members.includes(barShape)),
      { shapes: members, settingUp, level },
    ),
  );
  const laws = found.flatMap((one) => one.laws);
  const errors = runs.flatMap(({ standardError }) => (standardError === undefined ? [] : [standardError]));
  return {
    method: `${found[0].laws[0].fit.method}; ${sharing}; ${weightsInWords(runs, repeats)}`,
    level,
    laws,
    runs: laws.flatMap((law) => law.runs),
    repeatability: repeats,
    settingUp,
    medianError: errors.length === runs.length ? median(errors) : undefined,
    cautions: [...new Set(found.flatMap((one) => one.cautions))],
  };
}

function repeatsOf(runs: readonly MeasuredLoss[]): Repeatability | undefined {
  const counts = new Map<string, number>();
  for (const { configuration } of runs) {
    if (configuration !== undefined) counts.set(configuration, (counts.get(configuration) ?? 0) + 1);
  }
  return [...counts.values()].some((count) => count > 1) ? repeatability(runs) : undefined;
}

const hasErrors = (runs: readonly MeasuredLoss[]): boolean =>
  runs.every(({ standardError }) => standardError !== undefined);

function weightsInWords(runs: readonly MeasuredLoss[], repeats: Repeatability | undefined): string {
  if (!hasErrors(runs)) return "all runs weigh the same";
  return repeats === undefined
    ? "weights from the runs' own errors"
    : "weights from the runs' own errors and the spread between settings-up";
}

function median(values: readonly number[]): number {
  const ordered = values.toSorted((one, other) => one - other);
  const middle = (ordered.length - 1) / 2;
  return (ordered[Math.floor(middle)] + ordered[Math.ceil(middle)]) / 2;
}

interface ShapesToFit {
  readonly shapes: readonly string[];
  readonly settingUp: number;
  readonly level: number;
}

function fitShapes(
  runs: readonly MeasuredLoss[],
  { shapes, settingUp, level }: ShapesToFit,
): { readonly laws: readonly FittedLaw[]; readonly cautions: readonly string[] } {
  const places = runs.map((run): LawPlace => ({
    barShape: run.barShape,
    blockage: run.blockage,
    rackAngle: run.rackAngle,
    overlayShare: run.overlayShare ?? 0,
  }));
  const measured = runs.map(({ lossCoefficient }) => lossCoefficient);
  const overlaid = places.some(({ overlayShare }) => overlayShare > 0);
  const model = (parameters: Readonly<Record<string, number>>, place: LawPlace): number =>
    parameters[scaleOf(place.barShape)] * shapeless(parameters, place);
  const fitWith = (start: Readonly<Record<string, number>>, weights: readonly number[] | undefined) =>
    named(shapes, () => fitLeastSquares({ x: places, y: measured, model, start, weights, level }));

  const weightsAt = (sizes: readonly number[]) =>
    hasErrors(runs)
      ? runs.map(({ standardError = 0 }, at) => 1 / (standardError ** 2 + (settingUp * sizes[at]) ** 2))
      : undefined;
  // The spread goes with the coefficient as the law has it: weights by the measured one would favour runs that read low.
  const first = fitWith(startAt(shapes, places, measured, overlaid), weightsAt(measured));
  const second = fitWith(first.estimates, weightsAt(first.fitted));
  const causes = commonCauses(runs);
  const fit = causes.length > 0 ? addCommonErrors(second, { causes, level }) : second;
  const cautions = overlaid
    ? []
    : [
        `${caller}: no run of ${shapes.join(", ")} has overlays; overlayCoefficient 0 stands for what was not measured.`,
      ];
  return { laws: shapes.map((barShape) => lawOf(barShape, { runs, places, fit, first: second })), cautions };
}

/** Says which shapes a refusal of the fit is about. */
function named<T>(shapes: readonly string[], fit: () => T): T {
  try {
    return fit();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new RangeError(`${caller}, ${shapes.join(", ")}: ${error.message}`, { cause: error });
  }
}

/** Exponents of about what racks have, and the scales that fit them best. */
function startAt(
  shapes: readonly string[],
  places: readonly LawPlace[],
  measured: readonly number[],
  overlaid: boolean,
): Readonly<Record<string, number>> {
  const start = {
    blockageExponent: 1.5,
    angleExponent: 1.5,
    ...(overlaid ? { overlayCoefficient: 2 } : {}),
  };
  const scales = shapes.map((shape) => {
    const own = places.flatMap((place, at) =>
      place.barShape === shape ? [[shapeless(start, place), measured[at]] as const] : [],
    );
    const products = own.reduce((sum, [value, loss]) => sum + value * loss, 0);
    return [scaleOf(shape), products / own.reduce((sum, [value]) => sum + value ** 2, 0)] as const;
  });
  return { ...Object.fromEntries(scales), ...start };
}

/** What each shared cause moves, one row a run; nothing where not every run says so. */
function commonCauses(runs: readonly MeasuredLoss[]): readonly (readonly number[])[] {
  const moves = runs.map(({ commonMoves }) => commonMoves ?? []);
  const count = Math.min(...moves.map((own) => own.length));
  return Array.from({ length: count }, (_, cause) => moves.map((own) => own[cause]));
}

function lawOf(
  barShape: string,
  {
    runs,
    places,
    fit,
    first,
  }: {
    readonly runs: readonly MeasuredLoss[];
    readonly places: readonly LawPlace[];
    readonly fit: LeastSquaresFit<LawPlace>;
    readonly first: LeastSquaresFit<LawPlace>;
  },
): FittedLaw {
  const own = runs.flatMap((run, at) => {
    if (run.barShape !== barShape) return [];
    const predicted = fit.fitted[at];
    const residual = run.lossCoefficient - predicted;
    return [
      {
        ...run,
        overlayShare: places[at].overlayShare,
        predicted,
        residual,
        relativeResidual: residual / predicted,
        standardizedResidual: fit.standardizedResiduals[at],
      },
    ];
  });
  const { estimates } = fit;
  return {
    barShape,
    coefficients: {
      scale: estimates[scaleOf(barShape)],
      blockageExponent: estimates.blockageExponent,
      angleExponent: estimates.angleExponent,
      overlayCoefficient: estimates.overlayCoefficient ?? 0,
    },
    parameters: fit.parameters
      .filter(({ name }) => !name.startsWith("scale: ") || name === scaleOf(barShape))
      .map((parameter) => ({ ...parameter, name: parameter.name.replace(scaleOf(barShape), "scale") })),
    range: rangeOf(own),
    runs: own,
    residualStandardError: fit.residualStandardError,
    degreesOfFreedom: fit.degreesOfFreedom,
    lackOfFit: repeatsOf(runs) && lackOfFit(first, groupsOf(runs)),
    fit,
  };
}

/** A word for each run, the same for runs that repeat each other. */
const groupsOf = (runs: readonly MeasuredLoss[]): readonly string[] =>
  runs.map(({ configuration }, at) => configuration ?? `run ${at}`);

function rangeOf(runs: readonly LawRun[]): LawRange {
  const range = (read: (run: LawRun) => number) =>
    [Math.min(...runs.map(read)), Math.max(...runs.map(read))] as const;
  const [least, most] = range(({ rackAngle }) => rackAngle);
  return {
    blockage: range(({ blockage }) => blockage),
    rackAngle: [u.rad(least), u.rad(most)],
    overlayShare: range(({ overlayShare }) => overlayShare),
  };
}
