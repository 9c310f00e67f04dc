import { chiSquareQuantile } from "../distributions";

/** An interval whose ends may be those of the parameter's range. */
export interface ProfileEnds {
  readonly lower: number;
  readonly upper: number;
  /** Whether an end is that of the range: the data don't bound the parameter on that side. */
  readonly lowerOpen: boolean;
  readonly upperOpen: boolean;
}

/** What to look for the ends of an interval with. */
export interface ProfileSearch {
  /** The greatest log-likelihood with the parameter held at a value, −∞ where nothing explains the data. */
  readonly profile: (value: number) => number;
  readonly estimate: number;
  readonly logLikelihood: number;
  /** The range of the parameter. */
  readonly from: number;
  readonly to: number;
  /** About the width that the interval may have, to step with. */
  readonly reach: number;
  readonly level: number;
  /** Factor by which dependence widens the variance; 1 for independent trials. */
  readonly effect?: number;
}

/**
 * The values of a parameter that the likelihood does not speak against.
 *
 * Returns the ends at which twice the log-likelihood has fallen by the chi-square quantile of one degree of freedom times
 * the effect; the end of the range where it doesn't fall that far.
 */
export function profileEnds(search: ProfileSearch): ProfileEnds {
  const { profile, estimate, logLikelihood, from, to, reach, level, effect = 1 } = search;
  const far = Math.sqrt(effect * chiSquareQuantile(level, { degreesOfFreedom: 1 }));
  // The root of twice the fall is nearly straight in the parameter, so that few steps find the end.
  const beyond = (value: number): number =>
    Math.sqrt(Math.max(0, 2 * (logLikelihood - profile(value)))) - far;
  const end = (limit: number, towards: 1 | -1): readonly [number, boolean] => {
    let inside = estimate;
    let insideBy = -far;
    for (let step = reach; ; step *= 2) {
      const unbounded = estimate + towards * step;
      const outside = towards > 0 ? Math.min(limit, unbounded) : Math.max(limit, unbounded);
      const outsideBy = beyond(outside);
      if (outsideBy > 0) return [crossing(beyond, [inside, insideBy], [outside, outsideBy], reach), false];
      if (outside === limit || step > 1e6 * reach) return [limit, true];
      inside = outside;
      insideBy = outsideBy;
    }
  };
  const [lower, lowerOpen] = end(from, -1);
  const [upper, upperOpen] = end(to, 1);
  return { lower, upper, lowerOpen, upperOpen };
}

type Point = readonly [at: number, value: number];

/** Where a function crosses 0 between two points of different sign: false position, held back from creeping. */
function crossing(f: (at: number) => number, below: Point, above: Point, reach: number): number {
  let [[inside, low], [outside, high]] = [below, above];
  let before = 0;
  for (let step = 0; step < 60; step++) {
    if (Math.abs(outside - inside) <= 1e-6 * reach) break;
    const weight = Number.isFinite(high) ? low / (low - high) : 0.5;
    const at = inside + weight * (outside - inside);
    const value = f(at);
    if (Math.abs(value) <= 1e-6) return at;
    if (value < 0) {
      inside = at;
      low = value;
      if (before < 0) high /= 2;
    } else {
      outside = at;
      high = value;
      if (before > 0) low /= 2;
    }
    before = Math.sign(value);
  }
  return inside + (outside - inside) / 2;
}
