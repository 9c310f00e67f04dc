import { type Factors, type Level, levelOf, type PlannedRun } from "../trial/planning/plannedRun";
import { axis, helpColour, layout, points, seriesName } from "./look";
import type { FigureSpec, PlotlyLayout, PlotlyTrace } from "./spec";

/** What `trialPlan` draws. */
export interface TrialPlanInput<F extends Factors> {
  readonly title?: string;
  readonly plan: { readonly factors: F; readonly runs: readonly PlannedRun<F>[] };
  /** The factor whose level decides the sign; the first where it is not given. */
  readonly by?: keyof F & string;
  /** How a level is named in the legend: `(level) => format(level, "mm")`. */
  readonly named?: (level: Level) => string;
  readonly alt?: string;
  readonly caption?: string;
}

/**
 * A plan of runs as a picture: days from left to right, the order of a day from top to bottom, batches parted by lines.
 *
 * Returns a figure for `figure`, with one sign for each level of a factor and an open circle for controls. Throws a
 * `RangeError` for a plan without runs and a factor that it doesn't have.
 *
 * @example
 * figures.trialPlan({ plan: trial.plan({ factors: { cue: ["none", "light"] }, replicates: 2, fishPerRun: 4, runsPerDay: 4,
 *   batches: [{ name: "roach-1", fish: 16 }], seed: 1 }) }).alt
 * // => "Plan of 4 runs on 1 day in 1 batch, by cue. none: 2 runs; light: 2 runs. Every day holds as many of each level as its number of runs allows."
 */
export function trialPlan<F extends Factors>(input: TrialPlanInput<F>): FigureSpec {
  const { title, plan, named = String, alt, caption } = input;
  const factors = Object.keys(plan.factors);
  const { by = factors[0] } = input;
  if (plan.runs.length === 0) throw new RangeError("trialPlan: plan has no runs; there is nothing to draw.");
  if (!factors.includes(by))
    throw new RangeError(`trialPlan: by is "${by}"; the plan's factors are ${factors.join(", ")}.`);
  const levels: readonly Level[] = plan.factors[by];
  const data: PlotlyTrace[] = levels.map((level, at) => ({
    ...points(at, 15),
    ...placesOf(plan.runs.filter((run) => run.control === undefined && levelOf(run, by) === level)),
    name: seriesName(named(level)),
  }));
  const controls = plan.runs.filter((run) => run.control !== undefined);
  if (controls.length > 0) data.push({ ...controlSign, ...placesOf(controls), name: "control" });
  const { shapes, annotations } = batchLines(plan.runs);
  const days = Math.max(...plan.runs.map((run) => run.day));
  const longest = Math.max(...plan.runs.map((run) => run.place));
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Day of the trial", "", {
        range: [0.4, days + 0.6],
        dtick: Math.ceil(days / 12),
        showgrid: false,
      }),
      y: axis("Place in the order of the day", "", {
        range: [longest + 0.6, 0.1],
        dtick: Math.ceil(longest / 10),
        tick0: 1,
      }),
      shapes,
      annotations,
      legendForOne: true,
    }),
    alt: alt ?? inWords(plan.runs, by, levels, named),
    caption,
  };
}

const controlSign: PlotlyTrace = {
  type: "scatter",
  mode: "markers",
  marker: { color: "#fff", symbol: "circle", size: 13, line: { color: helpColour, width: 2 } },
};

const placesOf = (runs: readonly PlannedRun[]) => ({
  x: runs.map((run) => run.day),
  y: runs.map((run) => run.place),
});

/** A line between two batches, and the name of each above its days. */
function batchLines(runs: readonly PlannedRun[]): {
  readonly shapes: readonly PlotlyLayout[];
  readonly annotations: readonly PlotlyLayout[];
} {
  const batches = [...new Set(runs.map((run) => run.batch))].map((name) => {
    const days = runs.filter((run) => run.batch === name).map((run) => run.day);
    return { name, first: Math.min(...days), last: Math.max(...days) };
  });
  return {
    shapes: batches.slice(1).map(({ first }) => ({
      type: "line",
      layer: "below",
      line: { color: helpColour, width: 2, dash: "dash" },
      x0: first - 0.5,
      x1: first - 0.5,
      y0: 0,
      y1: 1,
      yref: "paper",
    })),
    annotations: batches.map(({ name, first }) => ({
      text: seriesName(name),
      x: first - 0.4,
      xanchor: "left",
      y: 0.12,
      yanchor: "top",
      showarrow: false,
      font: { color: helpColour },
    })),
  };
}

const many = (count: number, one: string, more = `${one}s`): string => `${count} ${count === 1 ? one : more}`;

function inWords(
  runs: readonly PlannedRun[],
  by: string,
  levels: readonly Level[],
  named: (level: Level) => string,
): string {
  const counted = runs.filter((run) => run.control === undefined);
  const days = [...new Set(runs.map((run) => run.day))];
  const ofLevel = (some: readonly PlannedRun[], level: Level): number =>
    some.filter((run) => levelOf(run, by) === level).length;
  const uneven = days.filter((day) => {
    const own = counted.filter((run) => run.day === day);
    const counts = levels.map((level) => ofLevel(own, level));
    return Math.max(...counts) - Math.min(...counts) > (own.length % levels.length === 0 ? 0 : 1);
  });
  const batches = new Set(runs.map((run) => run.batch)).size;
  const controls = runs.length - counted.length;
  const shares = levels.map((level) => `${named(level)}: ${many(ofLevel(counted, level), "run")}`);
  return (
    `Plan of ${many(runs.length, "run")} on ${many(days.length, "day")} in ${many(batches, "batch", "batches")}, by ${by}. ` +
    `${[...shares, ...(controls === 0 ? [] : [`controls: ${many(controls, "run")}`])].join("; ")}. ` +
    (uneven.length === 0
      ? "Every day holds as many of each level as its number of runs allows."
      : `${many(uneven.length, "day")} ${uneven.length === 1 ? "is" : "are"} less even than the number of runs allows.`)
  );
}
