import { relativeWidth } from "../fish/body";
import { noteUse } from "../formula/usage";
import { ramp } from "../protection/ramp";
import type { Length, PlainNumber } from "../quantity/dimension";
import { format } from "../quantity/format";
import { checkLevel, checkNumber, refuse } from "../statistics/checks";
import { total } from "../survival/total";
import { type Distribution, type Limits, within } from "./distribution";
import {
  cutOffs,
  fillings,
  isJoint,
  type Placed,
  placedInputs,
  type UncertainInput,
  valueColumns,
} from "./inputs";
import type { Joint } from "./joint";
import { checkDraws, type DrawOptions, methodOf, shiftsOfDraws } from "./monteCarlo";
import { momentsOf, quantilesOf } from "./quantiles";
import { survivalKernel } from "./survivalKernel";
import { survivalLoop } from "./survivalLoop";

/** The uncertain inputs of total survival. */
export interface SurvivalInputs {
  readonly clearSpacing: Length | Distribution<Length>;
  /** What of its length a fish meets the gap with. */
  readonly bodyRatio: PlainNumber | Distribution;
  /** Threshold and exponent of the ramp: each on its own, or both together from a fit. */
  readonly curve:
    { readonly threshold: PlainNumber | Distribution; readonly exponent: PlainNumber | Distribution } | Joint;
  /** Times the mortality of the turbine's law; 1 where the law is taken as it is. Mortality stops at 1. */
  readonly mortalityFactor?: PlainNumber | Distribution;
  readonly protectedSurvival: PlainNumber | Distribution;
}

/** Total survival of each length under the uncertainty of its inputs; one entry a length in every list. */
export interface UncertainSurvival {
  readonly method: string;
  readonly totalLength: readonly Length[];
  readonly mean: readonly number[];
  readonly standardDeviation: readonly number[];
  /** The ends between which `level` of the draws lie at that length, and the middle. */
  readonly lower: readonly number[];
  readonly median: readonly number[];
  readonly upper: readonly number[];
  readonly level: number;
  readonly draws: number;
  readonly seed: number;
  readonly cautions: readonly string[];
}

const limits = {
  clearSpacing: { above: 0, unit: "mm" },
  bodyRatio: { above: 0, atMost: 1 },
  threshold: { atLeast: 0, below: 1 },
  exponent: { above: 0 },
  mortalityFactor: { atLeast: 0 },
  protectedSurvival: { atLeast: 0, atMost: 1 },
} as const satisfies Readonly<Record<string, Limits>>;

type Name = keyof typeof limits;

/**
 * The band of total survival over length that the uncertainty of all inputs leaves.
 *
 * Returns mean, standard deviation and quantiles of total survival at each length. The protection curve is the ramp; for
 * another, draw with `uncertainty.band`. The turbine's law is taken as it is but for a factor on its mortality, whose
 * spread stands for how far the law may be off. The band is pointwise. Inputs that reach what can't be (a spacing below 0,
 * a share above 1) are refused unless they are truncated, which `cautions` then report. Throws a RangeError for those, for
 * lengths that are not above 0, and for a law that gives no share.
 *
 * @example
 * uncertainty.survivalByLength({ lengths: [u.mm(120)], clearSpacing: u.mm(18), bodyRatio: 0.1,
 *   curve: { threshold: 0.2, exponent: 1 }, turbineSurvival: () => 0.9,
 *   protectedSurvival: uncertainty.uniform({ from: 0.96, to: 1 }), seed: 1 }).median[0] // => 0.9467
 */
export function survivalByLength({
  lengths,
  turbineSurvival,
  seed,
  draws = 2 ** 14,
  sequence = "sobol",
  level = 0.95,
  ...given
}: SurvivalInputs & {
  readonly lengths: readonly Length[];
  readonly turbineSurvival: (totalLength: Length) => number;
} & DrawOptions): UncertainSurvival {
  const where = "uncertainty.survivalByLength";
  checkDraws(where, draws);
  checkLevel(where, level);
  const mortality = mortalities(where, lengths, turbineSurvival);
  const { placed, dimensions } = placedInputs(where, checkedInputs(where, given));
  const points = draws / shiftsOfDraws;
  const drawn = fillings(where, { dimensions, points, shifts: shiftsOfDraws, seed, sequence }).map(
    (uniforms) => valueColumns(placed, uniforms),
  );
  const columns = joined(drawn, points);
  const column = (name: Name): Float64Array => columns[placeOf(placed, name)];
  const named = {
    clearSpacing: column("clearSpacing"),
    bodyRatio: column("bodyRatio"),
    threshold: column("threshold"),
    exponent: column("exponent"),
    mortalityFactor: column("mortalityFactor"),
    protectedSurvival: column("protectedSurvival"),
  };
  checkCurve(where, named);
  noteUse(relativeWidth.id);
  noteUse(ramp.id);
  noteUse(total.id);
  const rowOf = survivalKernel(named) ?? survivalLoop(named);
  const shares = [(1 - level) / 2, 0.5, (1 + level) / 2];
  const results = lengths.map((length, at) => {
    const row = rowOf(length, mortality[at]);
    return { ...momentsOf(row), ends: quantilesOf(row, shares) };
  });
  return {
    method: `${methodOf(sequence)}, percentiles at each length`,
    totalLength: [...lengths],
    mean: results.map(({ mean }) => mean),
    standardDeviation: results.map(({ standardDeviation }) => standardDeviation),
    lower: results.map(({ ends }) => ends[0]),
    median: results.map(({ ends }) => ends[1]),
    upper: results.map(({ ends }) => ends[2]),
    level,
    draws,
    seed,
    cautions: [...cutOffs(placed), ...mortalityCautions(named.mortalityFactor, mortality)],
  };
}

/** All inputs under their limits. The curve's two numbers come apart unless a fit holds them together. */
function checkedInputs(
  where: string,
  { clearSpacing, bodyRatio, curve, mortalityFactor = 1, protectedSurvival }: SurvivalInputs,
): Readonly<Record<string, UncertainInput>> {
  const checked = (name: Name, input: number | Distribution): number | Distribution => {
    if (typeof input !== "number") return within(where, input, limits[name]);
    checkNumber(where, name, input, limits[name]);
    return input;
  };
  if ("draw" in curve) {
    const odd = curve.names.filter((name: string) => name === "passedAnyway");
    if (odd.length > 0)
      refuse(
        where,
        "the curve has a share that passes anyway; draw it with uncertainty.band and protection.laws",
      );
    for (const name of ["threshold", "exponent"] as const)
      if (!curve.names.includes(name))
        refuse(where, `the curve has no ${name}; its numbers are ${curve.names.join(", ")}`);
  }
  return {
    clearSpacing: checked("clearSpacing", clearSpacing),
    bodyRatio: checked("bodyRatio", bodyRatio),
    ...("draw" in curve
      ? { curve }
      : { threshold: checked("threshold", curve.threshold), exponent: checked("exponent", curve.exponent) }),
    mortalityFactor: checked("mortalityFactor", mortalityFactor),
    protectedSurvival: checked("protectedSurvival", protectedSurvival),
  };
}

function mortalities(
  where: string,
  lengths: readonly Length[],
  turbineSurvival: (totalLength: Length) => number,
): readonly number[] {
  if (lengths.length === 0) refuse(where, "lengths is empty; give at least one");
  return lengths.map((length, at) => {
    checkNumber(where, `lengths[${at}]`, length, { above: 0 });
    const share = turbineSurvival(length);
    if (!(share >= 0 && share <= 1))
      refuse(
        where,
        `turbineSurvival gives ${String(share)} at ${format(length, "mm")}; it must be a share from 0 to 1`,
      );
    return 1 - share;
  });
}

/** The shifts one behind the other. */
const joined = (drawn: readonly (readonly Float64Array[])[], points: number): readonly Float64Array[] =>
  drawn[0].map((_, column) => {
    const whole = new Float64Array(points * drawn.length);
    drawn.forEach((one, shift) => whole.set(one[column], shift * points));
    return whole;
  });

function placeOf(placed: readonly Placed[], name: Name): number {
  for (const { name: own, input, place } of placed) {
    if (own === name) return place;
    const at = isJoint(input) ? input.names.indexOf(name) : -1;
    if (at >= 0) return place + at;
  }
  return refuse("uncertainty.survivalByLength", `${name} is missing`);
}

const outside = (values: Float64Array, isInside: (value: number) => boolean): number =>
  values.reduce((count, value) => (isInside(value) ? count : count + 1), 0);

/** A fit's draws know no limits of their own. */
function checkCurve(
  where: string,
  { threshold, exponent }: Readonly<Record<"threshold" | "exponent", Float64Array>>,
): void {
  const wrong = [
    {
      name: "threshold",
      count: outside(threshold, (one) => one >= 0 && one < 1),
      allowed: "at least 0 and below 1",
    },
    { name: "exponent", count: outside(exponent, (one) => one > 0), allowed: "above 0" },
  ].find(({ count }) => count > 0);
  if (wrong !== undefined)
    refuse(
      where,
      `${wrong.count} of ${threshold.length} draws of the curve have a ${wrong.name} that is not ${wrong.allowed}; take ` +
        "resampled fits (uncertainty.resampled), or name it in logarithms",
    );
}

function mortalityCautions(factors: Float64Array, mortality: readonly number[]): readonly string[] {
  const most = mortality.reduce((highest, one) => Math.max(highest, one), 0);
  const beyond = factors.reduce((count, factor) => (factor * most > 1 ? count + 1 : count), 0);
  return beyond === 0
    ? []
    : [
        `mortalityFactor: in ${beyond} of ${factors.length} draws the mortality at the hardest-hit length would exceed 1 and is taken as 1.`,
      ];
}
