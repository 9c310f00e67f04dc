import type { CoursePoint } from "../chain";
import { percent } from "../quantity/format";
import { u } from "../quantity/u";
import { labelBoard } from "./labels";
import { axis, helpLine, layout, line, seriesName } from "./look";
import { checkSome, said } from "./numbers";
import { shareAxis } from "./shareAxis";
import type { FigureSpec } from "./spec";

/** What `alongRiver` draws. */
export interface AlongRiverInput {
  readonly title?: string;
  /** Courses as `chain.course` gives them, each with its name; all from the same plant. */
  readonly courses: readonly { readonly name: string; readonly points: readonly CoursePoint[] }[];
  /** The share still alive of the fish that start first, or all fish that are there; the share unless told. */
  readonly shows?: "alive" | "fish";
  readonly caption?: string;
}

/**
 * Fish along a river: down at each plant, and a little along each reach.
 *
 * Returns a figure for `figure`. Throws a `RangeError` where there is no course, or one without points.
 *
 * @example
 * figures.alongRiver({ courses: [{ name: "as it is", points: chain.course({ from: "upper", plants: [
 *   { plant: "upper", survival: 0.9, entering: 10, reachLength: u.km(3) }] }) }] }).alt
 * // => "Share still alive against distance from upper. as it is: 90 % reach the sea after 3 km; the deepest step is at upper, 10 % of those that come there."
 */
export function alongRiver({ title, courses, shows = "alive", caption }: AlongRiverInput): FigureSpec {
  checkSome("alongRiver", "courses", courses);
  courses.forEach(({ name, points }) => checkSome("alongRiver", `course "${name}"`, points));
  const rows = courses.map(({ points }) => ({
    x: points.map(({ distance }) => u.to.km(distance)),
    y: points.map((point) => point[shows]),
  }));
  const data = rows.map((row, at) => ({ ...line(at), ...row, name: seriesName(courses[at].name) }));
  const plants = courses[0].points.filter(({ place }) => place === "above");
  const last = Math.max(...rows.flatMap(({ x }) => x));
  const highest = Math.max(...rows.flatMap(({ y }) => y));
  const across: [number, number] = [-0.01 * last, last * 1.02];
  const up: [number, number] = [0, shows === "alive" ? 1.02 : highest * 1.08];
  const board = labelBoard({ x: across, y: up, busy: rows });
  const from = plants[0].plant;
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(`Distance from ${from}`, "km", { range: across }),
      y: shows === "alive" ? shareAxis("Share still alive", up) : axis("Fish", "", { range: up }),
      shapes: plants.map(({ distance }) => helpLine("x", u.to.km(distance))),
      annotations: plants.map(({ distance, plant }) =>
        board.verticalLine({ x: u.to.km(distance), text: plant }),
      ),
    }),
    alt: inWords(courses, shows, from),
    caption,
  };
}

function inWords(courses: AlongRiverInput["courses"], shows: "alive" | "fish", from: string): string {
  const opening = `${shows === "alive" ? "Share still alive" : "Fish"} against distance from ${from}.`;
  const sentences = courses.map(({ name, points }) => {
    const end = points[points.length - 1];
    const reached = shows === "alive" ? percent(end.alive) : `${said(end.fish, "")} fish`;
    const { plant, lost } = deepestStep(points);
    return `${name}: ${reached} reach the sea after ${said(end.distance, "km")}; the deepest step is at ${plant}, ${percent(lost)} of those that come there.`;
  });
  return [opening, ...sentences].join(" ");
}

/** The plant that takes the largest share of the fish that come to it. */
function deepestStep(points: readonly CoursePoint[]): { readonly plant: string; readonly lost: number } {
  const steps = points.flatMap((point, at) => {
    const above = points[at - 1];
    return point.place === "below"
      ? [{ plant: point.plant, lost: above.alive === 0 ? 0 : 1 - point.alive / above.alive }]
      : [];
  });
  return steps.reduce((deepest, step) => (step.lost > deepest.lost ? step : deepest));
}
