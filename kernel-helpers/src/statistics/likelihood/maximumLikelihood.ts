import { checkLevel, checkNumber, refuse } from "../checks";
import { maximumNear } from "./maximum";
import { profileEnds } from "./profile";

const where = "statistics.maximumLikelihood";

/** On a logarithm or logit an error beyond this says nothing: the search has gone towards an end of the range. */
const hopeless = 30;

/** A parameter to be fitted: where to start, and the open ends of its range. */
export interface LikelihoodParameter {
  readonly name: string;
  readonly start: number;
  readonly above?: number;
  readonly below?: number;
}

/** A fitted parameter with its profile-likelihood interval. */
export interface LikelihoodEstimate {
  readonly name: string;
  readonly estimate: number;
  /** From the inverse of the observed information. */
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
  /** Whether an end of the interval is that of the range: the data don't bound the parameter on that side. */
  readonly lowerOpen: boolean;
  readonly upperOpen: boolean;
}

export interface MaximumLikelihood {
  readonly method: string;
  readonly level: number;
  readonly parameters: readonly LikelihoodEstimate[];
  /** Covariance of the parameters, in their order: the inverse of the observed information. */
  readonly covariance: readonly (readonly number[])[];
  readonly logLikelihood: number;
  /** Akaike's criterion: 2 × parameters − 2 × log-likelihood. */
  readonly aic: number;
  /** What one more step would gain in log-likelihood: a fit is refused where this is not about 0. */
  readonly gainLeft: number;
}

/** A parameter on a scale without bounds. */
interface Scale {
  readonly toFree: (value: number) => number;
  readonly toValue: (free: number) => number;
  /** Slope of the value by the free number. */
  readonly slope: (free: number) => number;
}

const share = (free: number): number => 1 / (1 + Math.exp(-free));

function scaleOf({ above, below }: LikelihoodParameter): Scale {
  if (above !== undefined && below !== undefined) {
    const span = below - above;
    return {
      toFree: (value) => Math.log((value - above) / (below - value)),
      toValue: (free) => above + span * share(free),
      slope: (free) => span * share(free) * share(-free),
    };
  }
  if (above !== undefined)
    return {
      toFree: (value) => Math.log(value - above),
      toValue: (free) => above + Math.exp(free),
      slope: Math.exp,
    };
  if (below !== undefined)
    return {
      toFree: (value) => Math.log(below - value),
      toValue: (free) => below - Math.exp(free),
      slope: (free) => -Math.exp(free),
    };
  return { toFree: (value) => value, toValue: (free) => free, slope: () => 1 };
}

/**
 * Fits any smooth likelihood: the parameters that make the data most likely, with profile-likelihood intervals.
 *
 * Returns estimates with standard errors and covariance from the observed information, profile intervals, the
 * log-likelihood and Akaike's criterion. `logLikelihood` gets the parameters in the order given and returns a number, −∞
 * where the data are impossible. Powell's search of a library comes near the top and Newton's steps sharpen it. Valid for
 * independent observations and a top inside the ranges. Throws a RangeError for a start outside its range or at which the
 * data are impossible, and where no top is found: a place where the slope doesn't vanish is not called a fit.
 *
 * @example
 * statistics.maximumLikelihood({ parameters: [{ name: "share", start: 0.5, above: 0, below: 1 }],
 *   logLikelihood: ([share]) => 15 * Math.log(share) + 5 * Math.log(1 - share) }).parameters[0].estimate // => 0.75
 */
export function maximumLikelihood({
  logLikelihood,
  parameters,
  level = 0.95,
}: {
  readonly logLikelihood: (values: readonly number[]) => number;
  readonly parameters: readonly LikelihoodParameter[];
  readonly level?: number;
}): MaximumLikelihood {
  checkLevel(where, level);
  if (parameters.length === 0) refuse(where, "parameters is empty; there is nothing to fit");
  parameters.forEach(({ name, start, above, below }) =>
    checkNumber(where, `the start of ${name}`, start, { above, below }),
  );
  const scales = parameters.map(scaleOf);
  const valuesOf = (free: readonly number[]): number[] =>
    free.map((one, place) => scales[place].toValue(one));
  const f = (free: readonly number[]): number => {
    const value = logLikelihood(valuesOf(free));
    return Number.isNaN(value) ? -Infinity : value;
  };
  const start = parameters.map((one, place) => scales[place].toFree(one.start));
  if (!Number.isFinite(f(start)))
    refuse(where, "the data are impossible with the parameters at their starts; start elsewhere");

  const top = maximumNear(f, start);
  const lost = parameters.some(
    ({ above, below }, place) =>
      (above !== undefined || below !== undefined) &&
      top !== undefined &&
      Math.sqrt(top.covariance.get(place, place)) > hopeless,
  );
  if (top === undefined || lost)
    refuse(
      where,
      "the search found no place where the slope vanishes and the likelihood falls on all sides; the data may leave a " +
        "parameter undecided, or drive it to an end of its range",
    );
  const errors = top.at.map((_, place) => Math.sqrt(top.covariance.get(place, place)));
  const slopes = top.at.map((free, place) => scales[place].slope(free));
  const estimates = parameters.map(({ name, above = -Infinity, below = Infinity }, place) => {
    const { toValue } = scales[place];
    const free = profileEnds({
      profile: profileOf(f, top.at, place),
      estimate: top.at[place],
      logLikelihood: top.value,
      from: -Infinity,
      to: Infinity,
      reach: 2 * errors[place],
      level,
    });
    const falling = slopes[place] < 0;
    const [low, high] = falling ? [free.upper, free.lower] : [free.lower, free.upper];
    const [lowerOpen, upperOpen] = falling
      ? [free.upperOpen, free.lowerOpen]
      : [free.lowerOpen, free.upperOpen];
    return {
      name,
      estimate: toValue(top.at[place]),
      standardError: Math.abs(slopes[place]) * errors[place],
      lower: lowerOpen ? above : toValue(low),
      upper: upperOpen ? below : toValue(high),
      lowerOpen,
      upperOpen,
    };
  });
  return {
    method: "maximum likelihood (Powell's search, Newton's steps); profile-likelihood intervals",
    level,
    parameters: estimates,
    covariance: slopes.map((one, row) =>
      slopes.map((other, column) => one * other * top.covariance.get(row, column)),
    ),
    logLikelihood: top.value,
    aic: 2 * parameters.length - 2 * top.value,
    gainLeft: top.gainLeft,
  };
}

/** The greatest log-likelihood with one parameter held; each search starts from the last one's place. */
function profileOf(
  f: (free: readonly number[]) => number,
  top: readonly number[],
  held: number,
): (value: number) => number {
  const without = (all: readonly number[]): number[] => all.filter((_, place) => place !== held);
  let near = without(top);
  return (value) => {
    const whole = (others: readonly number[]): number[] => others.toSpliced(held, 0, value);
    const found = maximumNear((others) => f(whole(others)), near, { near: true });
    if (found === undefined) return -Infinity;
    near = [...found.at];
    return found.value;
  };
}
