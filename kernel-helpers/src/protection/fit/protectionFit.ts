import { checkLevel, refuse } from "../../statistics/checks";
import { library } from "../../statistics/library";
import { profileEnds } from "../../statistics/likelihood/profile";
import { checkFits, checkNoJump } from "./checks";
import { type Family, type FamilyName, type ParameterName, shareAt, type Values } from "./family";
import { type Best, type Lapses, type Model, modelOf } from "./model";
import { highestThreshold } from "./thresholds";
import {
  byCluster,
  byWidth,
  type CountedFish,
  countedFish,
  type TrialFish,
  type WidthCounts,
} from "./trialFish";

/** A parameter of a fitted curve with its interval. */
export interface FittedCurveParameter {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
  /** Whether an end of the interval is that of the parameter's range: the data don't bound it on that side. */
  readonly lowerOpen: boolean;
  readonly upperOpen: boolean;
  /** The interval that would hold were all fish independent. */
  readonly ifIndependent: { readonly lower: number; readonly upper: number };
  /** Of independent fish; undefined where the likelihood has corners or an estimate stands at an end of its range. */
  readonly standardError: number | undefined;
}

/** How a curve is fitted. */
export interface FitOptions extends Partial<Lapses> {
  readonly level?: number;
}

/** A curve of protection fitted to the fish of a trial. */
export interface ProtectionFit {
  readonly family: FamilyName;
  readonly method: string;
  /** What the curve gives. */
  readonly meaning: string;
  readonly parameters: Readonly<Partial<Record<ParameterName, FittedCurveParameter>>>;
  /** The estimates alone. */
  readonly values: Values;
  readonly level: number;
  readonly logLikelihood: number;
  /** Akaike's criterion: 2 × parameters − 2 × log-likelihood. Lower is better among fits to the same fish. */
  readonly aic: number;
  readonly fish: number;
  readonly held: number;
  /** How many clusters the fish came in; undefined where none were named. */
  readonly clusters: number | undefined;
  /** By how much the departures of the clusters from the curve exceed those of independent fish. */
  readonly designEffect: number | undefined;
  readonly cautions: readonly string[];
  /** The share held at a relative width, with the fish that go against the curve. */
  readonly share: (relativeWidth: number) => number;
  /** What was fitted, for resampling. */
  readonly rows: readonly CountedFish[];
  readonly lapses: Lapses;
}

/** A fit in the making, for refits and profiles. */
export interface Fitting {
  readonly counts: WidthCounts;
  readonly model: Model;
  readonly best: Best;
}

/** Fits a family to rows that are already checked. Undefined where there is no finite fit. */
export function fitRows(
  family: Family,
  rows: readonly CountedFish[],
  lapses: Lapses,
  near?: Values,
): Fitting | undefined {
  const counts = byWidth(rows, family.alikeFrom);
  const model = modelOf(family, counts, lapses);
  const best = model.best({}, near);
  return best === undefined ? undefined : { counts, model, best };
}

export function fitProtection(
  where: string,
  family: Family,
  fish: readonly TrialFish[],
  { level = 0.95, heldAnyway = false, passedAnyway = false }: FitOptions,
): ProtectionFit {
  checkLevel(where, level);
  const rows = countedFish(where, fish);
  const lapses = { heldAnyway, passedAnyway };
  checkFits(where, family.name, byWidth(rows), lapses);
  const fitting = fitRows(family, rows, lapses);
  if (fitting === undefined)
    refuse(
      where,
      "no curve of the family is the most likely: the search ended where the likelihood still rises. The fish may be too " +
        "few, or all of nearly one relative width",
    );
  const { best, model, counts } = fitting;
  if (heldAnyway || passedAnyway) checkNoJump(where, counts, lapses, best.logLikelihood);
  const share = (relativeWidth: number): number => shareAt(family, best.values, relativeWidth);
  const clusters = byCluster(rows);
  const designEffect =
    // One cluster tells nothing about how clusters differ.
    clusters === undefined || clusters.length < 2
      ? undefined
      : effectOf(clusters, share, model.parameters.length);
  const logLikelihood = best.logLikelihood + orders(rows);
  return {
    family: family.name,
    method: methodOf(family.name, designEffect),
    meaning: "share of the fish that meet the rack and don't pass through it",
    parameters: Object.fromEntries(
      model.parameters.map((name) => [name, intervalOf(name, fitting, lapses, level, designEffect)]),
    ),
    values: best.values,
    level,
    logLikelihood,
    aic: 2 * model.parameters.length - 2 * logLikelihood,
    fish: total(counts.fish),
    held: total(counts.held),
    clusters: clusters?.length,
    designEffect,
    cautions: cautionsOf(best.values, clusters?.length, lapses),
    share,
    rows,
    lapses,
  };
}

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

/** Ways in which the fish of a row can be held or not: the constant of the likelihood, 0 for rows of one fish. */
const orders = (rows: readonly CountedFish[]): number =>
  rows.reduce(
    (sum, { held, fish }) =>
      held === 0 || held === fish
        ? sum
        : sum - Math.log(fish + 1) - library.logBeta(held + 1, fish - held + 1),
    0,
  );

/** Squared departures of whole clusters over those of independent fish, for the parameters fitted. */
function effectOf(
  clusters: readonly (readonly CountedFish[])[],
  share: (relativeWidth: number) => number,
  parameters: number,
): number {
  let [departures, independent] = [0, 0];
  for (const rows of clusters) {
    let departure = 0;
    for (const { relativeWidth, held, fish } of rows) {
      const expected = share(relativeWidth);
      departure += held - fish * expected;
      independent += fish * expected * (1 - expected);
    }
    departures += departure ** 2;
  }
  return ((clusters.length / Math.max(1, clusters.length - parameters)) * departures) / independent;
}

function intervalOf(
  name: ParameterName,
  { best, model, counts }: Fitting,
  lapses: Lapses,
  level: number,
  designEffect: number | undefined,
): FittedCurveParameter {
  const estimate = best.values[name] ?? Number.NaN;
  const standardError = best.errors?.[name];
  const scale = scaleOf(name, counts, lapses);
  let near = best.values;
  const search = {
    profile: (at: number): number => {
      const found = model.best({ [name]: scale.toValue(at) }, near);
      if (found !== undefined) near = found.values;
      return found?.logLikelihood ?? -Infinity;
    },
    estimate: scale.toScale(estimate),
    logLikelihood: best.logLikelihood,
    from: scale.from,
    to: scale.to,
    reach: scale.reach,
    level,
  };
  const endsWith = (effect: number) => {
    near = best.values;
    const ends = profileEnds({ ...search, effect });
    return { ...ends, lower: scale.toValue(ends.lower), upper: scale.toValue(ends.upper) };
  };
  const independent = endsWith(1);
  const widened = designEffect === undefined || designEffect <= 1 ? independent : endsWith(designEffect);
  const { lower, upper } = independent;
  return { estimate, ...widened, ifIndependent: { lower, upper }, standardError };
}

const same = (value: number): number => value;

/** The scale on which an interval is searched for: logarithms for what is above 0. */
function scaleOf(name: ParameterName, counts: WidthCounts, lapses: Lapses) {
  if (name === "threshold")
    return {
      toScale: same,
      toValue: same,
      from: 0,
      to: highestThreshold(counts, lapses.heldAnyway),
      reach: 0.05,
    };
  if (name === "midpoint")
    return { toScale: same, toValue: same, from: -Infinity, to: Infinity, reach: 0.05 };
  if (name === "heldAnyway" || name === "passedAnyway")
    return { toScale: same, toValue: same, from: 0, to: 1 - 1e-6, reach: 0.02 };
  return { toScale: Math.log, toValue: Math.exp, from: -6.9, to: 6.9, reach: 0.2 };
}

function methodOf(family: FamilyName, designEffect: number | undefined): string {
  const search =
    family === "ramp"
      ? "Powell's search and Newton's steps at each of many thresholds"
      : "Powell's search, Newton's steps";
  const interval =
    designEffect === undefined
      ? "profile-likelihood intervals of independent fish"
      : "profile-likelihood intervals, widened by the design effect of the clusters where it exceeds 1";
  return `binomial maximum likelihood (${search}); ${interval}`;
}

function cautionsOf(values: Values, clusters: number | undefined, lapses: Lapses): readonly string[] {
  return [
    ...(clusters === undefined
      ? [
          "No clusters were named: the intervals take every fish for independent, and are too narrow where fish swam in groups.",
        ]
      : clusters < 2
        ? [
            "All fish are of one cluster, which tells nothing about how clusters differ: the intervals take every fish for " +
              "independent, and are too narrow.",
          ]
        : clusters < 20
          ? [`Only ${clusters} clusters: with fewer than about 20 their design effect is uncertain.`]
          : []),
    ...(lapses.heldAnyway && values.heldAnyway === 0
      ? ["The share held however slim is 0, an end of its range: the data don't ask for it."]
      : []),
    ...(lapses.passedAnyway && values.passedAnyway === 0
      ? ["The share that passes however wide is 0, an end of its range: the data don't ask for it."]
      : []),
  ];
}
