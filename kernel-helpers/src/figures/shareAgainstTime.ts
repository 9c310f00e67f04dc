import type { Time } from "../quantity/dimension";
import { percent } from "../quantity/format";
import { u } from "../quantity/u";
import { axis, colour, layout, line, seriesName } from "./look";
import { checkSome, said } from "./numbers";
import { shareAxis } from "./shareAxis";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** The share by one time, as `trial.timeCourse` gives it. */
export interface DrawnShare {
  readonly time: Time;
  readonly atRisk: number;
  readonly share: number;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  readonly otherWaysCensored: number;
}

/** What `shareAgainstTime` draws. */
export interface ShareAgainstTimeInput {
  readonly title?: string;
  /** What the share is: "Share guided (of active fish)". */
  readonly share: string;
  readonly courses: readonly { readonly name: string; readonly shares: readonly DrawnShare[] }[];
  /** Whether to draw 1 − Kaplan–Meier, which takes the other ways out as censored, beside the first course. */
  readonly otherWaysCensored?: boolean;
  readonly caption?: string;
}

/** How many times have a tick with the numbers at risk. */
const ticks = 5;

/**
 * Share of fish with an outcome against the time since the release, with a band and the numbers at risk.
 *
 * Returns a figure for `figure`. Under each tick of the time axis stand the fish still waiting, one line a course in their
 * order. Throws a `RangeError` where there is no course, or one without shares.
 *
 * @example
 * figures.shareAgainstTime({ share: "Share guided", courses: [{ name: "all runs", shares: [
 *   { time: u.min(0), atRisk: 40, share: 0, lower: undefined, upper: undefined, otherWaysCensored: 0 },
 *   { time: u.min(20), atRisk: 12, share: 0.5, lower: 0.4, upper: 0.6, otherWaysCensored: 0.6 }] }] }).alt
 * // => "Share guided against time since the release. all runs: 50 % by 20 min, band 40 % to 60 %, 12 fish still waiting."
 */
export function shareAgainstTime(input: ShareAgainstTimeInput): FigureSpec {
  const { title, share, courses, otherWaysCensored = false, caption } = input;
  checkSome("shareAgainstTime", "courses", courses);
  courses.forEach(({ name, shares }) => checkSome("shareAgainstTime", `course "${name}"`, shares));
  const traces = courses.flatMap(({ name, shares }, at) => [
    ...bandOf(shares, at),
    { ...stepped(line(at)), name: seriesName(name), x: minutesOf(shares), y: shares.map((one) => one.share) },
  ]);
  const [first] = courses;
  const above: PlotlyTrace[] = otherWaysCensored
    ? [
        {
          type: "scatter",
          mode: "lines",
          line: { color: colour(1), dash: "dot", width: 3, shape: "hv" },
          name: seriesName("1 − Kaplan–Meier, other ways out as censored"),
          x: minutesOf(first.shares),
          y: first.shares.map((one) => one.otherWaysCensored),
        },
      ]
    : [];
  const data = [...traces, ...above];
  const last = Math.max(...courses.flatMap(({ shares }) => shares.map(({ time }) => u.to.min(time))));
  const tickvals = Array.from({ length: ticks }, (_, step) => (step * last) / (ticks - 1));
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Time since the release", "min", {
        range: [0, last * 1.02],
        tickvals,
        ticktext: tickvals.map((at) =>
          [said(at, ""), ...courses.map(({ shares }) => atRisk(shares, at))].join("<br>"),
        ),
      }),
      y: shareAxis(share, [0, 1.02]),
      note: `under each time: fish still waiting just before it${courses.length > 1 ? ", one line a curve" : ""}`,
      legendForOne: true,
    }),
    alt: inWords(input),
    caption,
  };
}

const minutesOf = (shares: readonly DrawnShare[]): number[] => shares.map(({ time }) => u.to.min(time));

/** A share stays as it is until the next event. */
const stepped = (trace: PlotlyTrace): PlotlyTrace => ({
  ...trace,
  line: { ...(typeof trace.line === "object" ? trace.line : {}), shape: "hv" },
});

function bandOf(shares: readonly DrawnShare[], at: number): PlotlyTrace[] {
  const known = shares.filter(({ lower, upper }) => lower !== undefined && upper !== undefined);
  if (known.length === 0) return [];
  const edge = { type: "scatter", mode: "lines", showlegend: false, hoverinfo: "skip", x: minutesOf(known) };
  return [
    { ...edge, y: known.map(({ lower }) => lower ?? null), line: { width: 0, shape: "hv" } },
    {
      ...edge,
      y: known.map(({ upper }) => upper ?? null),
      line: { width: 0, shape: "hv" },
      fill: "tonexty",
      fillcolor: `${colour(at)}30`,
    },
  ];
}

/** Fish still waiting just before a time; nobody after a course's last one. */
function atRisk(shares: readonly DrawnShare[], minutes: number): string {
  const next = shares.find(({ time }) => u.to.min(time) >= minutes - 1e-9);
  return next === undefined ? "–" : String(next.atRisk);
}

function inWords({ share, courses, otherWaysCensored }: ShareAgainstTimeInput): string {
  const sentences = courses.map(({ name, shares }) => {
    const { time, share: reached, lower, upper, atRisk: waiting } = shares[shares.length - 1];
    const band =
      lower === undefined || upper === undefined ? "" : `, band ${percent(lower, 2)} to ${percent(upper, 2)}`;
    return `${name}: ${percent(reached, 2)} by ${said(time, "min")}${band}, ${waiting} fish still waiting.`;
  });
  const last = courses[0].shares.at(-1)?.otherWaysCensored;
  const naive =
    otherWaysCensored === true && last !== undefined
      ? [`With the other ways out as censored it would be ${percent(last, 2)}.`]
      : [];
  return [`${share} against time since the release.`, ...sentences, ...naive].join(" ");
}
