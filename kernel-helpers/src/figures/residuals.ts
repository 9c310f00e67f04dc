import { axis, helpLine, layout, points, seriesName } from "./look";
import { lowerFirst, type AxisText } from "./lines";
import { checkCount, checkFinite, checkSome, type Numbers, said, shown, symbolOf } from "./numbers";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** Residuals of one group of observations. */
export interface ResidualGroup {
  readonly name: string;
  /** What they are drawn against, such as the fitted value. */
  readonly x: Numbers;
  readonly residuals: Numbers;
}

/** What `residuals` draws. */
export interface ResidualsInput {
  readonly title?: string;
  readonly x: AxisText;
  /** What a residual is; "Standardised residual" without unit unless told. */
  readonly y?: AxisText;
  readonly groups: readonly ResidualGroup[];
  /** Lines at plus and minus this value: 2 holds 19 of 20 standardised residuals. */
  readonly limit?: number;
  readonly caption?: string;
}

/**
 * Residuals of a fit, by group: a cloud about 0 says that nothing is left, a bend or a fan that something is.
 *
 * Returns a figure for `figure`. Values are in SI units. Throws a RangeError where a group has more or fewer residuals than
 * places, or a number is not finite.
 *
 * @example
 * figures.residuals({ x: { title: "Fitted coefficient", unit: "" }, limit: 2,
 *   groups: [{ name: "foil", x: [0.2, 0.4], residuals: [1, -3] }] }).alt
 * // => "Standardised residual against fitted coefficient. foil: 2 residuals from -3 to 1, mean -1; 1 beyond plus or minus 2."
 */
export function residuals(input: ResidualsInput): FigureSpec {
  const { title, x, groups, limit, caption } = input;
  const y = input.y ?? { title: "Standardised residual", unit: "" };
  checkSome("residuals", "groups", groups);
  for (const { name, x: places, residuals: values } of groups) {
    checkSome("residuals", `group "${name}"`, values);
    checkCount("residuals", `group "${name}"`, values, places.length);
    checkFinite("residuals", `group "${name}", x,`, places);
    checkFinite("residuals", `group "${name}", residuals,`, values);
  }
  const data = groups.map(({ name, x: places, residuals: values }, index): PlotlyTrace => ({
    ...points(index, 8),
    name: seriesName(name),
    x: shown(places, x.unit),
    y: shown(values, y.unit),
  }));
  const lines = [0, ...(limit === undefined ? [] : [limit, -limit])].flatMap((at) => shown([at], y.unit));
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(x.title, symbolOf(x.unit)),
      y: axis(y.title, symbolOf(y.unit)),
      shapes: lines.map((at) => helpLine("y", at ?? 0)),
    }),
    alt: inWords({ x, y, groups, limit }),
    caption,
  };
}

function inWords({ x, y, groups, limit }: ResidualsInput & { readonly y: AxisText }): string {
  const sentences = groups.map(({ name, residuals: own }) => {
    const values = Array.from(own);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const [least, most] = [Math.min(...values), Math.max(...values)].map((value) => said(value, y.unit, 2));
    const beyond =
      limit === undefined
        ? ""
        : `; ${values.filter((value) => Math.abs(value) > limit).length} beyond plus or minus ${said(limit, y.unit, 2)}`;
    const count = `${values.length} residual${values.length === 1 ? "" : "s"}`;
    return `${name}: ${count} from ${least} to ${most}, mean ${said(Math.abs(mean) < 1e-6 ? 0 : mean, y.unit, 1)}${beyond}.`;
  });
  return [`${y.title} against ${lowerFirst(x.title)}.`, ...sentences].join(" ");
}
