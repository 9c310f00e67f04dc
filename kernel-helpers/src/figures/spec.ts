import type { Drawing } from "../host/drawing";

export type { PlotlyLayout, PlotlyTrace } from "../host/drawing";

/** A figure before it is drawn. */
export interface FigureSpec extends Drawing {
  /** A sentence shown under the figure. */
  readonly caption?: string;
}
