import { axis } from "./look";
import type { PlotlyLayout } from "./spec";
import type { Numbers } from "./numbers";

/** The range of an axis for shares from 0 to 1; it starts above 0 only where all values lie high. */
export function shareRange(rows: readonly Numbers[]): [number, number] {
  const values = rows.flatMap((row) => Array.from(row)).filter(Number.isFinite);
  const lowest = values.reduce((least, value) => Math.min(least, value), 1);
  const highest = values.reduce((most, value) => Math.max(most, value), 1);
  // An estimate may exceed 1, and then the axis shows it.
  return [lowest < 0.4 ? 0 : Math.floor(10 * lowest - 0.2) / 10, highest > 1 ? highest * 1.05 : 1.02];
}

/** An axis for shares from 0 to 1: protection, survival. */
export function shareAxis(title: string, range: readonly [number, number]): PlotlyLayout {
  const span = range[1] - range[0];
  const dtick = span > 0.7 ? 0.2 : span > 0.25 ? 0.1 : 0.05;
  return axis(title, "", { range: [...range], dtick, tickformat: dtick < 0.1 ? ".2f" : ".1f" });
}
