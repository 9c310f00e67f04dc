import { Matrix } from "ml-matrix";
import { checkWhole, refuse } from "../checks";
import { normalCdf } from "../distributions";
import { type Design, designOf, type Term, type Terms } from "./design";
import { iterate } from "./iterate";
import { type Counts, devianceOf, fullLogLikelihood, pearsonChiSquare } from "./likelihood";
import { type LinkName, linkOf } from "./link";
import { checkRank } from "./rank";
import { scaledDesign } from "./scaled";
import { separationSentence } from "./separation";

const where = "statistics.fitBinomial";

/** One coefficient of a fit, on the scale of the link. */
export interface Coefficient {
  /** "intercept", a covariate's name, or "factor: level" for the difference from the factor's first level. */
  readonly name: string;
  readonly estimate: number;
  readonly standardError: number;
  /** The standard error times the root of the dispersion; undefined where no degrees of freedom are left. */
  readonly quasiStandardError: number | undefined;
  /** Two-sided p-value of a coefficient of 0, from the standard error and the normal distribution. */
  readonly pValue: number;
}

/** A binomial regression: what it was fitted to and what came out. */
export interface BinomialFit {
  readonly method: string;
  readonly link: LinkName;
  readonly coefficients: readonly Coefficient[];
  /** Covariance of the coefficients, in their order. */
  readonly covariance: Matrix;
  readonly deviance: number;
  /** Deviance of the fit that has nothing but an intercept. */
  readonly nullDeviance: number;
  readonly degreesOfFreedom: number;
  readonly nullDegreesOfFreedom: number;
  readonly logLikelihood: number;
  /** Akaike's criterion: 2 × coefficients − 2 × log-likelihood. */
  readonly aic: number;
  readonly pearsonChiSquare: number;
  /** Pearson's chi-square over the degrees of freedom, about 1 for independent fish; undefined where none are left. */
  readonly dispersion: number | undefined;
  /** The fitted share of successes in each row. */
  readonly fitted: readonly number[];
  readonly iterations: number;
  readonly converged: boolean;
  readonly cautions: readonly string[];
  readonly successes: readonly number[];
  readonly trials: readonly number[];
  readonly terms: readonly Term[];
  /** How many clusters the errors rest on, where `clusterRobust` made them; undefined for independent trials. */
  readonly clusters?: number;
  /** The columns that the coefficients belong to, one row for each row of the data. */
  readonly design: Matrix;
}

/**
 * Binomial regression of a share on covariates and factors, by iteratively reweighted least squares.
 *
 * Returns coefficients with standard errors and covariance, deviance, dispersion, log-likelihood and fitted shares. A term
 * of numbers is a covariate; a term of words is a factor whose first level, in order of appearance or as `levels` states,
 * is the base of comparison. An intercept is always fitted. Valid for independent trials: where the trials of one row
 * hang together, the dispersion exceeds 1 and the quasi-likelihood errors are the honest ones. Rows without trials carry
 * no information and are named in a caution. Throws a RangeError where counts or terms don't go together, where one term
 * follows from others (rank deficiency), and where the data are separated, since no finite coefficients exist then.
 *
 * @example
 * statistics.fitBinomial({
 *   successes: [2, 8, 15, 23, 27],
 *   trials: [30, 30, 30, 30, 30],
 *   terms: { concentration: [0, 1, 2, 3, 4] },
 *   link: "logit",
 * }).coefficients[1].estimate // => 1.161895
 */
export function fitBinomial({
  successes,
  trials,
  terms,
  link: linkName,
  levels,
}: {
  readonly successes: readonly number[];
  readonly trials: readonly number[];
  readonly terms: Terms;
  readonly link: LinkName;
  readonly levels?: Readonly<Record<string, readonly string[]>>;
}): BinomialFit {
  const link = linkOf(where, linkName);
  checkCounts({ successes, trials });
  const used = trials.flatMap((all, row) => (all > 0 ? [row] : []));
  const counts: Counts = {
    successes: used.map((row) => successes[row]),
    trials: used.map((row) => trials[row]),
  };
  const design = designOf(where, terms, trials, levels);
  const scaled = scaledDesign(design.matrix.selection(used, allColumns(design)));
  checkRank(where, design.names, scaled.matrix);

  const found = iterate(scaled.matrix, counts, link);
  if (found.kind === "separated") refuse(where, separationSentence(found.moved, rowsOf(terms, used)));

  const estimates = scaled.back.mmul(found.coefficients).getColumn(0);
  const covariance = scaled.back.mmul(found.covariance).mmul(scaled.back.transpose());
  const degreesOfFreedom = used.length - design.names.length;
  const pearson = pearsonChiSquare(counts, found.shares);
  const dispersion = degreesOfFreedom > 0 ? pearson / degreesOfFreedom : undefined;
  const logLikelihood = fullLogLikelihood(counts) - found.deviance / 2;
  return {
    method: `binomial regression, ${linkName} link, iteratively reweighted least squares`,
    link: linkName,
    coefficients: design.names.map((name, at) =>
      coefficient(name, estimates[at], Math.sqrt(covariance.get(at, at)), dispersion),
    ),
    covariance,
    deviance: found.deviance,
    nullDeviance: nullDeviance(counts),
    degreesOfFreedom,
    nullDegreesOfFreedom: used.length - 1,
    logLikelihood,
    aic: 2 * design.names.length - 2 * logLikelihood,
    pearsonChiSquare: pearson,
    dispersion,
    fitted: design.matrix
      .mmul(Matrix.columnVector(estimates))
      .getColumn(0)
      .map((value) => link.at(value).share),
    iterations: found.iterations,
    converged: found.converged,
    cautions: cautionsOf(trials.length - used.length, found.converged, found.iterations),
    successes,
    trials,
    terms: design.terms,
    design: design.matrix,
  };
}

function checkCounts({ successes, trials }: Counts): void {
  if (successes.length !== trials.length) {
    refuse(
      where,
      `successes has ${successes.length} values and trials ${trials.length}; each row needs one of both`,
    );
  }
  trials.forEach((all, row) => {
    checkWhole(where, `trials[${row}]`, all, 0);
    checkWhole(where, `successes[${row}]`, successes[row], 0, all);
  });
  if (trials.every((all) => all === 0)) refuse(where, "no row has a trial; there is nothing to fit");
}

const allColumns = ({ names }: Design): number[] => names.map((_, at) => at);

const rowsOf = (terms: Terms, used: readonly number[]): Terms =>
  Object.fromEntries(
    Object.entries(terms).map(([name, values]) => [name, used.map((row) => values[row])]),
    // Rows taken out of a list of numbers are numbers, out of a list of words words.
  ) as Terms;

function coefficient(
  name: string,
  estimate: number,
  standardError: number,
  dispersion: number | undefined,
): Coefficient {
  return {
    name,
    estimate,
    standardError,
    quasiStandardError: dispersion === undefined ? undefined : standardError * Math.sqrt(dispersion),
    pValue: 2 * normalCdf(-Math.abs(estimate / standardError)),
  };
}

/** With an intercept alone every row has the share of all rows together. */
function nullDeviance(counts: Counts): number {
  const good = counts.successes.reduce((sum, value) => sum + value, 0);
  const all = counts.trials.reduce((sum, value) => sum + value, 0);
  const common = { share: good / all, rest: (all - good) / all, slope: 1 };
  return devianceOf(
    counts,
    counts.trials.map(() => common),
  );
}

function cautionsOf(without: number, converged: boolean, iterations: number): readonly string[] {
  return [
    ...(without === 0 ? [] : [withoutTrials(without)]),
    ...(converged ? [] : [`The fit did not settle within ${iterations} iterations; don't use its numbers.`]),
  ];
}

const withoutTrials = (rows: number): string =>
  rows === 1
    ? "1 row has no trials and carries no information."
    : `${rows} rows have no trials and carry no information.`;
