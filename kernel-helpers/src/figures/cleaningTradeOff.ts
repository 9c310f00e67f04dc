import { axis, colour, layout, line, seriesName } from "./look";
import { checkCount, checkFinite, checkSome, course, type Numbers, shown } from "./numbers";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** What `cleaningTradeOff` draws. */
export interface CleaningTradeOffInput {
  readonly title?: string;
  /** Head losses at which the machine starts, in metres. */
  readonly thresholds: Numbers;
  /** Energies a year by cause, in joules, one for each threshold. */
  readonly energies: readonly { readonly name: string; readonly values: Numbers }[];
  /** Cleanings a year, one for each threshold. */
  readonly cleanings: Numbers;
  readonly caption?: string;
}

/**
 * Energy lost and number of cleanings against the head loss at which the machine starts.
 *
 * Returns a figure for `figure`: energies in megawatt hours a year on the left axis, cleanings a year on the right. Throws a
 * RangeError where a row has more or fewer values than thresholds.
 *
 * @example
 * cleaningTradeOff({ thresholds: [0.05, 0.1], energies: [{ name: "head loss", values: [1.8e11, 3.6e11] }],
 *   cleanings: [120, 60] }).alt
 * // => "Energy a year and cleanings a year against the head loss at which the machine starts. head loss: rises from 50 MWh at 5 cm to 100 MWh at 10 cm. Cleanings: falls from 120 at 5 cm to 60 at 10 cm."
 */
export function cleaningTradeOff({
  title,
  thresholds,
  energies,
  cleanings,
  caption,
}: CleaningTradeOffInput): FigureSpec {
  checkSome("cleaningTradeOff", "thresholds", thresholds);
  checkSome("cleaningTradeOff", "energies", energies);
  const rows = [...energies, { name: "cleanings", values: cleanings }];
  for (const { name, values } of rows) {
    checkCount("cleaningTradeOff", `"${name}"`, values, thresholds.length);
    checkFinite("cleaningTradeOff", `"${name}"`, values);
  }
  const x = shown(thresholds, "cm");
  const data: PlotlyTrace[] = energies.map(({ name, values }, at) => ({
    ...line(at),
    name: seriesName(name),
    x,
    y: shown(values, "MWh"),
  }));
  const right = colour(energies.length);
  data.push({
    ...line(energies.length),
    name: seriesName("cleanings (right)"),
    yaxis: "y2",
    x,
    y: shown(cleanings, ""),
  });
  const said = energies.map(
    ({ name, values }) => `${name}: ${course({ values: thresholds, unit: "cm" }, { values, unit: "MWh" })}.`,
  );
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Head loss at which the machine starts", "cm"),
      y: axis("Energy a year", "MWh", { rangemode: "tozero" }),
      y2: axis("Cleanings a year", "", {
        // Ticks of its own at round numbers, not beside those of the left axis.
        tickmode: "auto",
        rangemode: "tozero",
        linecolor: right,
        tickcolor: right,
        gridcolor: "rgba(0,0,0,0)",
      }),
    }),
    alt: [
      "Energy a year and cleanings a year against the head loss at which the machine starts.",
      ...said,
      `Cleanings: ${course({ values: thresholds, unit: "cm" }, { values: cleanings, unit: "" })}.`,
    ].join(" "),
    caption,
  };
}
