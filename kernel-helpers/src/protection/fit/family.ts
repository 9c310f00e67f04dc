import { logistic } from "../logistic";
import { ramp } from "../ramp";
import type { WidthCounts } from "./trialFish";

/** Every parameter that a fit may have. */
export type ParameterName =
  "threshold" | "exponent" | "midpoint" | "steepness" | "heldAnyway" | "passedAnyway";

export type Values = Readonly<Partial<Record<ParameterName, number>>>;

export type FamilyName = "ramp" | "logistic";

/** The shares held and passed of each row of counts. */
export interface Shares {
  readonly held: Float64Array;
  readonly passed: Float64Array;
}

/** A shape of curve, as a fit needs it. */
export interface Family {
  readonly name: FamilyName;
  /** Parameters in which the likelihood is smooth, with a start and the way to a scale without bounds. */
  readonly smooth: readonly SmoothParameter[];
  /** Relative widths from here on are all alike to the curve. */
  readonly alikeFrom: number;
  /** The curve at one relative width. */
  readonly share: (values: Values, relativeWidth: number) => number;
  /** Shares of the curve for the rows; the arrays are used again at the next call. */
  readonly sharesOf: (counts: WidthCounts) => (values: Values) => Shares;
}

/** A parameter on a scale without bounds. */
export interface SmoothParameter {
  readonly name: ParameterName;
  readonly starts: readonly number[];
  readonly from: number;
  readonly to: number;
  readonly toFree: (value: number) => number;
  readonly toValue: (free: number) => number;
  /** Slope of the value by the free number, at a value. */
  readonly slope: (value: number) => number;
}

const onLogarithm = (name: ParameterName, starts: readonly number[]): SmoothParameter => ({
  name,
  starts,
  // Beyond these a curve is a step or a flat line: the data have no finite fit.
  from: Math.exp(-7),
  to: Math.exp(7),
  toFree: Math.log,
  toValue: Math.exp,
  slope: (value) => value,
});

/** A share of fish that go against the curve. */
export const lapse = (name: "heldAnyway" | "passedAnyway"): SmoothParameter => ({
  name,
  starts: [0.05, 0.2, 0.4],
  from: 1e-6,
  to: 1 - 1e-6,
  toFree: (value) => Math.log(value / (1 - value)),
  toValue: (free) => 1 / (1 + Math.exp(-free)),
  slope: (value) => value * (1 - value),
});

const emptyShares = ({ widths }: WidthCounts): Shares => ({
  held: new Float64Array(widths.length),
  passed: new Float64Array(widths.length),
});

/** The ramp: 0 up to the threshold, 1 from relative width 1 on, a power between. The threshold is searched for apart. */
export const rampFamily: Family = {
  name: "ramp",
  alikeFrom: 1,
  share: ({ threshold = Number.NaN, exponent = Number.NaN }, relativeWidth) =>
    ramp.evaluate({ relativeWidth, threshold, exponent }),
  smooth: [onLogarithm("exponent", [1])],
  sharesOf: (counts) => {
    const shares = emptyShares(counts);
    const logarithms = new Float64Array(counts.widths.length);
    let prepared = Number.NaN;
    return ({ threshold = Number.NaN, exponent = Number.NaN }) => {
      if (threshold !== prepared) {
        counts.widths.forEach((width, row) => {
          logarithms[row] =
            width >= 1 ? 0 : width <= threshold ? -Infinity : Math.log((width - threshold) / (1 - threshold));
        });
        prepared = threshold;
      }
      for (let row = 0; row < logarithms.length; row++) {
        const logarithm = exponent * logarithms[row];
        const less = Math.expm1(logarithm);
        shares.passed[row] = -less;
        // The sum would lose the digits of a very small share.
        shares.held[row] = logarithm < -20 ? Math.exp(logarithm) : 1 + less;
      }
      return shares;
    };
  },
};

/** The S-shaped curve: an identity scale for the midpoint, whose sign is judged after the fit. */
export const logisticFamily: Family = {
  name: "logistic",
  alikeFrom: Infinity,
  share: ({ midpoint = Number.NaN, steepness = Number.NaN }, relativeWidth) =>
    logistic.evaluate({ relativeWidth, midpoint, steepness }),
  smooth: [
    {
      name: "midpoint",
      starts: [0.25, 0.5, 0.75, 1],
      from: -Infinity,
      to: Infinity,
      toFree: (value) => value,
      toValue: (free) => free,
      slope: () => 1,
    },
    onLogarithm("steepness", [1, 3, 10, 30]),
  ],
  sharesOf: (counts) => {
    const shares = emptyShares(counts);
    return ({ midpoint = Number.NaN, steepness = Number.NaN }) => {
      counts.widths.forEach((width, row) => {
        const line = steepness * (width - midpoint);
        shares.held[row] = 1 / (1 + Math.exp(-line));
        shares.passed[row] = 1 / (1 + Math.exp(line));
      });
      return shares;
    };
  },
};

/** The share held at one relative width, with the fish that go against the curve. */
export function shareAt(family: Family, values: Values, relativeWidth: number): number {
  const { heldAnyway = 0, passedAnyway = 0 } = values;
  const held = family.share(values, relativeWidth);
  return (1 - passedAnyway) * held + heldAnyway * (1 - held);
}
