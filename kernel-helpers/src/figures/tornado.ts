import { axis, bar, helpLine, layout, wrapped } from "./look";
import { checkFinite, checkSome, said, shown, type ShownUnit, symbolOf } from "./numbers";
import { lowerFirst } from "./lines";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** What `tornado` draws: a result of `uncertainty.tornado` with names for its inputs. */
export interface TornadoInput {
  readonly title?: string;
  /** What the output is. */
  readonly x: { readonly title: string; readonly unit: ShownUnit };
  /** The output with every input at its middle. */
  readonly middle: number;
  /** The quantiles between which each input was moved. */
  readonly between: readonly [number, number];
  /** The widest first. */
  readonly swings: readonly { readonly input: string; readonly atLower: number; readonly atUpper: number }[];
  /** Names for the inputs where their own are too short to read. */
  readonly names?: Readonly<Record<string, string>>;
  readonly caption?: string;
}

/**
 * One-at-a-time swings as bars to both sides of the middle, the widest at the top.
 *
 * Returns a figure for `figure`: plain bars for an input at its lower quantile, hatched ones at its upper. Throws a
 * RangeError where there is no swing and for numbers that are not finite.
 *
 * @example
 * figures.tornado({ x: { title: "Survival", unit: "%" }, middle: 0.95, between: [0.05, 0.95],
 *   swings: [{ input: "spacing", atLower: 0.97, atUpper: 0.93 }] }).alt
 * // => "Survival when one input moves between its quantiles 5 % and 95 %, the others held; with all at their middles 95 %. spacing: 97 % to 93 %."
 */
export function tornado({
  title,
  x,
  middle,
  between,
  swings,
  names = {},
  caption,
}: TornadoInput): FigureSpec {
  checkSome("tornado", "swings", swings);
  checkFinite("tornado", "middle", [middle]);
  for (const { input, atLower, atUpper } of swings)
    checkFinite("tornado", `the swing of ${input}`, [atLower, atUpper]);
  const nameOf = (input: string): string => names[input] ?? input;
  // Plotly draws from below: the widest goes last.
  const upward = swings.toReversed();
  const [base] = shown([middle], x.unit);
  const quantiles = between.map((share) => said(share, "%"));
  const series = (
    index: number,
    name: string,
    read: (swing: (typeof swings)[number]) => number,
  ): PlotlyTrace => ({
    ...bar(index),
    name,
    orientation: "h",
    base,
    y: upward.map(({ input }) => wrapped(nameOf(input), 22)),
    x: shown(
      upward.map((swing) => read(swing)),
      x.unit,
    ).map((end) => (end ?? 0) - (base ?? 0)),
  });
  const data = [
    series(2, `input at its ${quantiles[0]} quantile`, ({ atLower }) => atLower),
    series(1, `at its ${quantiles[1]} quantile`, ({ atUpper }) => atUpper),
  ];
  const words = swings.map(
    ({ input, atLower, atUpper }) =>
      `${nameOf(input)}: ${said(atLower, x.unit)} to ${said(atUpper, x.unit)}.`,
  );
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(x.title, symbolOf(x.unit)),
      y: axis("Input", "", { type: "category", ticks: "", showgrid: false }),
      shapes: [helpLine("x", base ?? 0)],
      more: { barmode: "overlay", bargap: 0.35, height: Math.max(330, 170 + 46 * swings.length) },
    }),
    alt: [
      `${x.title} when one input moves between its quantiles ${quantiles.join(" and ")}, the others held; with all at ` +
        `their middles ${said(middle, x.unit)}.`,
      ...words,
    ].join(" "),
    caption:
      caption ??
      `Dashed line: ${lowerFirst(x.title)} with every input at its middle, ${said(middle, x.unit)}.`,
  };
}
