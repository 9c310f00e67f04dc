import type { Shown } from "./curves";
import { colour } from "./look";
import { checkCount, type Numbers, said, shown } from "./numbers";
import type { PlotlyTrace } from "./spec";

/** A band about a curve: shares, one entry for each place on the x axis. */
export interface Band {
  readonly lower: Numbers;
  readonly upper: Numbers;
}

/** Refuses a band that has more or fewer entries than there are places. */
export function checkBand(figure: string, name: string, band: Band | undefined, expected: number): void {
  if (band === undefined) return;
  checkCount(figure, `the lower end of the band of "${name}"`, band.lower, expected);
  checkCount(figure, `the upper end of the band of "${name}"`, band.upper, expected);
}

/** The pale area of a band, in the colour of the curve with this place in the figure. */
export function bandTraces(x: Shown, band: Band | undefined, index: number): PlotlyTrace[] {
  if (band === undefined) return [];
  const edge = {
    type: "scatter",
    mode: "lines",
    showlegend: false,
    hoverinfo: "skip",
    line: { width: 0 },
    x,
  };
  return [
    { ...edge, y: shown(band.lower, "") },
    { ...edge, y: shown(band.upper, ""), fill: "tonexty", fillcolor: `${colour(index)}30` },
  ];
}

/** Where a band is widest, for the words of a figure; nothing without a band. */
export function bandInWords(band: Band | undefined): string {
  if (band === undefined) return "";
  const widths = Array.from(band.upper, (upper, at) => upper - band.lower[at]);
  const at = widths.indexOf(Math.max(...widths.filter(Number.isFinite)));
  return at < 0 ? "" : `; its band is up to ${said(widths[at], "", 2)} wide`;
}
