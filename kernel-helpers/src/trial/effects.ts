import { type BinomialFit, clusterRobust, fitBinomial, type LinkName, studentQuantile } from "../statistics";
import { checkLevel } from "../statistics/checks";
import type { EfficiencyName } from "./efficiency";
import type { TrialFish } from "./fish";
import { type FishTerms, regressionRows } from "./regressionRows";

/** The effect of one term, on the scale of the link, with the errors of runs and those of independent fish. */
export interface Effect {
  readonly term: string;
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
  readonly pValue: number;
  /** For the logit link: by how much the odds of a success are multiplied. */
  readonly oddsRatio: number | undefined;
  /** As if all fish were independent. */
  readonly naiveStandardError: number;
  readonly naivePValue: number;
}

/** Effects of conditions on an efficiency. */
export interface FittedEffects {
  readonly definition: string;
  readonly method: string;
  readonly fish: number;
  readonly runs: number;
  readonly fishLeftOut: number;
  readonly effects: readonly Effect[];
  /** The fit with errors that respect the runs: for `predict`, `dose` and `waldTest`. */
  readonly fit: BinomialFit;
  /** The same with errors for independent fish: for `likelihoodRatio`, with the reserve that they are not. */
  readonly naiveFit: BinomialFit;
  readonly cautions: readonly string[];
}

/** Fewer clusters give errors that are too small. */
const fewRuns = 40;

/**
 * Fits how an efficiency depends on conditions, fish by fish, with errors that take runs as clusters.
 *
 * Returns the effect of each term on the scale of the link, with cluster-robust errors, Student's t intervals and p-values,
 * and the errors for independent fish beside them. A term of words is a factor whose first level (in order of appearance,
 * or as `levels` states) is the base. Valid for independent runs, about 40 or more. Throws a RangeError where the terms
 * don't fit the fish and where the fit has no finite coefficients: a level in which every fish succeeded, or none, must be
 * merged with another or left out.
 *
 * @example
 * trial.fitEffects([["bypassed", 4], ["refused", 4], ["bypassed", 6], ["refused", 2]].flatMap(([outcome, many], at) =>
 *   Array.from({ length: many }, (_, i) => ({ outcome, runId: `R${i % 2}${at > 1}`, cue: at > 1 ? "light" : "none" }))),
 *   { efficiency: "guidance", terms: { cue: "cue" } }).effects[1].oddsRatio // => 3.000
 */
export function fitEffects<Fish extends TrialFish>(
  fish: readonly Fish[],
  {
    efficiency,
    terms,
    levels,
    link = "logit",
    level = 0.95,
  }: {
    readonly efficiency: EfficiencyName;
    readonly terms: FishTerms<Fish>;
    readonly levels?: Readonly<Record<string, readonly string[]>>;
    readonly link?: LinkName;
    readonly level?: number;
  },
): FittedEffects {
  checkLevel("trial.fitEffects", level);
  const rows = regressionRows(fish, { efficiency, terms });
  const naiveFit = fitBinomial({ ...rows, link, ...(levels === undefined ? {} : { levels }) });
  const fit = clusterRobust(naiveFit, rows.runs);
  const runs = new Set(rows.runs).size;
  const reach = studentQuantile((1 + level) / 2, { degreesOfFreedom: runs - 1 });
  return {
    definition: rows.definition,
    method: fit.method,
    fish: rows.runs.length,
    runs,
    fishLeftOut: rows.fishLeftOut,
    effects: fit.coefficients.map(({ name, estimate, standardError, pValue }, at) => ({
      term: name,
      estimate,
      standardError,
      lower: estimate - reach * standardError,
      upper: estimate + reach * standardError,
      pValue,
      oddsRatio: link === "logit" && at > 0 ? Math.exp(estimate) : undefined,
      naiveStandardError: naiveFit.coefficients[at].standardError,
      naivePValue: naiveFit.coefficients[at].pValue,
    })),
    fit,
    naiveFit,
    cautions: [
      ...fit.cautions,
      ...Object.entries(rows.terms).flatMap(([name, values]) =>
        new Set<number | string>(values).size === 1
          ? [`${name} is ${values[0]} for every fish: it has no effect that could be seen.`]
          : [],
      ),
      ...(runs < fewRuns
        ? [`${runs} runs: errors from fewer than about ${fewRuns} come out too small.`]
        : []),
    ],
  };
}
