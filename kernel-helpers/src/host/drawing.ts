/** One series of a figure in Plotly's own attributes: numbers, texts, lists and plain objects of these. */
export type PlotlyTrace = Readonly<Record<string, unknown>>;

/** The frame around the series in Plotly's own attributes: axes, title, legend, shapes, annotations. */
export type PlotlyLayout = Readonly<Record<string, unknown>>;

/**
 * What can be drawn: a Plotly specification with the sentence that a reader who cannot see it hears.
 *
 * The types are our own and as narrow as plain data, so that a notebook's kernel reads them without Plotly's type
 * package.
 */
export interface Drawing {
  readonly data: readonly PlotlyTrace[];
  readonly layout: PlotlyLayout;
  /** What the figure shows, in words and numbers, for a reader who cannot see it. */
  readonly alt: string;
}
