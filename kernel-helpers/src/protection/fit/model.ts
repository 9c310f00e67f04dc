import { maximumNear } from "../../statistics/likelihood/maximum";
import {
  type Family,
  lapse,
  type ParameterName,
  rampFamily,
  type SmoothParameter,
  type Values,
} from "./family";
import { overThresholds } from "./thresholds";
import type { WidthCounts } from "./trialFish";

/** The most likely values, and how likely they make the data. */
export interface Best {
  readonly logLikelihood: number;
  readonly values: Values;
  /** Standard errors where the likelihood is smooth in every parameter and none stands at an end. */
  readonly errors: Values | undefined;
}

/** A family and the counts it is fitted to. */
export interface Model {
  readonly parameters: readonly ParameterName[];
  /**
   * The most likely values with some parameters held. Undefined where no maximum is found; `near` is where to look first.
   */
  readonly best: (held: Values, near?: Values) => Best | undefined;
}

/** Which shares of fish that go against the curve are fitted. */
export interface Lapses {
  /** Whether a share of the fish counts as held however slim they are. */
  readonly heldAnyway: boolean;
  /** Whether a share of the fish passes however wide they are. */
  readonly passedAnyway: boolean;
}

/** A share that is tried for whether the data gain by any. */
const smallShare = 1e-5;

export function modelOf(family: Family, counts: WidthCounts, lapses: Lapses): Model {
  const lapseNames = (["heldAnyway", "passedAnyway"] as const).filter((name) => lapses[name]);
  const smooth = smoothModel(family, counts, lapseNames.map(lapse));
  const shape = family.smooth.map(({ name }) => name);
  if (family !== rampFamily) return { parameters: [...shape, ...lapseNames], best: smooth };
  return {
    parameters: ["threshold", ...shape, ...lapseNames],
    best: (held, near) =>
      held.threshold === undefined ? overThresholds(counts, lapses, smooth, held, near) : smooth(held, near),
  };
}

/** Log-likelihood of the counts without its constant, which no parameter moves. */
function likelihoodOf(family: Family, counts: WidthCounts): (values: Values) => number {
  const sharesOf = family.sharesOf(counts);
  return (values) => {
    const { held, passed } = sharesOf(values);
    const { heldAnyway = 0, passedAnyway = 0 } = values;
    let sum = 0;
    for (let row = 0; row < held.length; row++) {
      const good = counts.held[row];
      const bad = counts.fish[row] - good;
      if (good > 0) sum += good * Math.log((1 - passedAnyway) * held[row] + heldAnyway * passed[row]);
      if (bad > 0) sum += bad * Math.log(passedAnyway * held[row] + (1 - heldAnyway) * passed[row]);
    }
    return Number.isNaN(sum) ? -Infinity : sum;
  };
}

/** The model with everything smooth: a threshold, where there is one, must be among the parameters held. */
function smoothModel(family: Family, counts: WidthCounts, lapses: readonly SmoothParameter[]): Model["best"] {
  const likelihood = likelihoodOf(family, counts);
  return (held, near = {}) => {
    const shape = family.smooth.filter(({ name }) => held[name] === undefined);
    const free = lapses.filter(({ name }) => held[name] === undefined);
    const fitWith = (some: readonly SmoothParameter[], from: Values): Best | undefined => {
      const none = Object.fromEntries(free.filter((one) => !some.includes(one)).map(({ name }) => [name, 0]));
      const found = top(likelihood, [...shape, ...some], { ...held, ...none }, from);
      return found === undefined || some.length === free.length ? found : { ...found, errors: undefined };
    };
    // A share of 0 is an end of its range, where the slope need not vanish: a share is fitted only where the data gain by
    // some of it, or are impossible without.
    let [some, best]: [readonly SmoothParameter[], Best | undefined] = [[], fitWith([], near)];
    if (best === undefined) {
      for (const others of subsets(free).slice(1)) {
        best = fitWith(others, near);
        some = others;
        if (best !== undefined) break;
      }
    }
    while (best !== undefined && some.length < free.length) {
      const { values, logLikelihood }: Best = best;
      const gains = (one: SmoothParameter): number =>
        likelihood({ ...values, [one.name]: smallShare }) - logLikelihood;
      const asked = free
        .filter((one) => !some.includes(one) && gains(one) > 0)
        .toSorted((a, b) => gains(b) - gains(a))
        .at(0);
      if (asked === undefined) break;
      const more = fitWith([...some, asked], {
        ...values,
        [asked.name]: near[asked.name] || asked.starts[0],
      });
      if (more === undefined || !(more.logLikelihood > logLikelihood)) break;
      some = [...some, asked];
      best = more;
    }
    const cold = shape.some(({ name }) => near[name] === undefined);
    const others = cold
      ? subsets(free)
          .slice(1)
          .map((list) => fitWith(list, {}))
      : [];
    return others.reduce((likeliest, one) => (likelier(one, likeliest) ? one : likeliest), best);
  };
}

/** Whether one is likelier than another, rounding aside: where equal, the simpler one stays. */
const likelier = (one: Best | undefined, other: Best | undefined): boolean =>
  (one?.logLikelihood ?? -Infinity) > (other?.logLikelihood ?? -Infinity) + 1e-7;

/** All lists of some of these, shorter ones first. */
const subsets = <T>(all: readonly T[]): readonly (readonly T[])[] =>
  all
    .reduce<readonly (readonly T[])[]>(
      (lists, one) => [...lists, ...lists.map((list) => [...list, one])],
      [[]],
    )
    .toSorted((a, b) => a.length - b.length);

function top(
  likelihood: (values: Values) => number,
  free: readonly SmoothParameter[],
  held: Values,
  near: Values,
): Best | undefined {
  const valuesOf = (at: readonly number[]): Values => {
    const values: Partial<Record<ParameterName, number>> = { ...held };
    free.forEach(({ name, toValue }, place) => (values[name] = toValue(at[place])));
    return values;
  };
  const f = (at: readonly number[]): number => {
    const values = valuesOf(at);
    const inside = free.every(({ name, from, to }) => {
      const value = values[name] ?? Number.NaN;
      return value >= from && value <= to;
    });
    return inside ? likelihood(values) : -Infinity;
  };
  const known = free.every(({ name, from, to }) => {
    const value = near[name];
    return value !== undefined && value > from && value < to;
  });
  const starts = known
    ? [free.map(({ name, toFree }) => toFree(near[name] ?? Number.NaN))]
    : combinations(free.map(({ starts: values, toFree }) => values.map(toFree)));
  const start = starts.reduce((best, one) => (f(one) > f(best) ? one : best));
  if (!Number.isFinite(f(start))) return undefined;
  const found = maximumNear(f, start, { near: known });
  if (found === undefined) return undefined;
  const values = valuesOf(found.at);
  return {
    logLikelihood: found.value,
    values,
    errors: Object.fromEntries(
      free.map(({ name, slope }, place) => [
        name,
        Math.abs(slope(values[name] ?? Number.NaN)) * Math.sqrt(found.covariance.get(place, place)),
      ]),
    ),
  };
}

const combinations = (lists: readonly (readonly number[])[]): readonly number[][] =>
  lists.reduce<readonly number[][]>(
    (some, list) => some.flatMap((one) => list.map((value) => [...one, value])),
    [[]],
  );
