import { formatNumber } from "../../../quantity/format";
import { u } from "../../../quantity/u";
import { addCommonErrors, fitLeastSquares, lackOfFit, type LeastSquaresFit } from "../../../statistics";
import { fitted } from "../fitted";
import { type Repeatability, repeatability } from "../flume/repeatability";
import type { FittedLaw, LawPlace, LawRange, LawRun } from "./law";
import type { MeasuredLoss } from "./measuredLoss";

const caller = "rackLoss.fitLaw";

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

const model = (parameters: Readonly<Record<string, number>>, place: LawPlace): number =>
  parameters[scaleOf(place.barShape)] * shapeless(parameters, place);

/** Whether every run has its standard error. */
export const hasErrors = (runs: readonly MeasuredLoss[]): boolean =>
  runs.every(({ standardError }) => standardError !== undefined);

/** The scatter of repeats; undefined where nothing was repeated. */
export function repeatsOf(runs: readonly MeasuredLoss[]): Repeatability | undefined {
  const counts = new Map<string, number>();
  for (const { configuration } of runs) {
    if (configuration !== undefined) counts.set(configuration, (counts.get(configuration) ?? 0) + 1);
  }
  return [...counts.values()].some((count) => count > 1) ? repeatability(runs) : undefined;
}

interface ShapesToFit {
  readonly shapes: readonly string[];
  readonly settingUp: number;
  readonly level: number;
}

/** Fits the law to runs of these shapes, which share their exponents. */
export function fitShapes(
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
  const fitWith = (start: Readonly<Record<string, number>>, weights: readonly number[] | undefined) =>
    named(shapes, () => fitLeastSquares({ x: places, y: measured, model, start, weights, level }));

  const weightsAt = (sizes: readonly number[]) =>
    hasErrors(runs)
      ? runs.map(({ standardError = 0 }, at) => 1 / (standardError ** 2 + (settingUp * sizes[at]) ** 2))
      : undefined;
  // The spread goes with the coefficient as the law has it: weights by the measured one would favour runs that read low.
  const first = fitWith(startAt(shapes, places, measured, overlaid), weightsAt(measured));
  const second = fitWith(first.estimates, weightsAt(first.fitted));
  checkScales(shapes, second.estimates);
  const causes = commonCauses(runs);
  const fit = causes.length > 0 ? addCommonErrors(second, { causes, level }) : second;
  const cautions = overlaid
    ? []
    : [
        `${caller}: no run of ${shapes.join(", ")} has overlays; overlayCoefficient 0 stands for what was not measured.`,
      ];
  return { laws: shapes.map((barShape) => lawOf(barShape, { runs, places, fit, first: second })), cautions };
}

/** A law that gains energy is none. */
function checkScales(shapes: readonly string[], estimates: Readonly<Record<string, number>>): void {
  const lost = shapes.find((shape) => !(estimates[scaleOf(shape)] > 0));
  if (lost === undefined) return;
  throw new RangeError(
    `${caller}, ${lost}: the scale comes out as ${formatNumber(estimates[scaleOf(lost)])}; most loss coefficients lie ` +
      "below 0, where a rack would gain energy; check levels, offset and friction.",
  );
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
