export type Point = readonly [x: number, y: number];

/** The numbers of an attribute, in order. */
export function numbersIn(text: string): number[] {
  return (text.match(/[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/gi) ?? []).map(Number);
}

/** How many straight pieces stand for a curve. */
const piecesOfCurve = 16;

/** A point of the curve with the given control points, by repeated division of its legs. */
function onCurve(controls: readonly Point[], t: number): Point {
  if (controls.length === 1) return controls[0];
  const legs = controls
    .slice(1)
    .map(([x, y], i): Point => [
      controls[i][0] + t * (x - controls[i][0]),
      controls[i][1] + t * (y - controls[i][1]),
    ]);
  return onCurve(legs, t);
}

/** The points of a circular arc between two points; `sweep` says on which side it bulges. */
function onArc(from: Point, to: Point, radius: number, large: boolean, sweep: boolean): Point[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const chord = Math.hypot(dx, dy);
  if (chord === 0 || radius === 0) return [to];
  const r = Math.max(radius, chord / 2);
  const height = Math.sqrt(r * r - (chord * chord) / 4) * (large === sweep ? -1 : 1);
  const centre: Point = [
    (from[0] + to[0]) / 2 - (height * dy) / chord,
    (from[1] + to[1]) / 2 + (height * dx) / chord,
  ];
  const start = Math.atan2(from[1] - centre[1], from[0] - centre[0]);
  let turn = Math.atan2(to[1] - centre[1], to[0] - centre[0]) - start;
  if (sweep && turn < 0) turn += 2 * Math.PI;
  if (!sweep && turn > 0) turn -= 2 * Math.PI;
  return Array.from({ length: piecesOfCurve }, (_, i): Point => {
    const angle = start + (turn * (i + 1)) / piecesOfCurve;
    return [centre[0] + r * Math.cos(angle), centre[1] + r * Math.sin(angle)];
  });
}

/** The lines of a path, one list of points for each stretch; curves and circular arcs become short pieces. */
export function pathLines(d: string): Point[][] {
  const lines: Point[][] = [];
  let at: Point = [0, 0];
  let control: Point = at;
  for (const [, letter, list] of d.matchAll(/([a-zA-Z])([^a-zA-Z]*)/g)) {
    const v = numbersIn(list);
    const kind = letter.toUpperCase();
    const line = lines.at(-1) ?? [];
    if (kind === "Z" && line.length > 0) {
      [at] = line;
      line.push(at);
      continue;
    }
    const step = { H: 1, V: 1, A: 7, C: 6, S: 4, Q: 4 }[kind] ?? 2;
    for (let i = 0; i + step <= v.length; i += step) {
      const [baseX, baseY] = letter === kind ? [0, 0] : at;
      const point = (offset: number): Point => [baseX + v[i + offset], baseY + v[i + offset + 1]];
      if (kind === "M" && i === 0) {
        at = point(0);
        lines.push([at]);
        continue;
      }
      const current = lines.at(-1) ?? [];
      const from = at;
      if (kind === "H") at = [baseX + v[i], at[1]];
      else if (kind === "V") at = [at[0], baseY + v[i]];
      else at = point(step - 2);
      if (kind === "A") {
        current.push(...onArc(from, at, v[i], v[i + 3] !== 0, v[i + 4] !== 0));
      } else if (step >= 4) {
        // A smooth curve goes on in the direction in which the one before arrived.
        const mirrored: Point = [2 * from[0] - control[0], 2 * from[1] - control[1]];
        const middle = kind === "C" ? [point(0), point(2)] : kind === "S" ? [mirrored, point(0)] : [point(0)];
        control = middle[middle.length - 1];
        for (let k = 1; k <= piecesOfCurve; k++) {
          current.push(onCurve([from, ...middle, at], k / piecesOfCurve));
        }
        continue;
      } else current.push(at);
      control = at;
    }
  }
  return lines;
}

/** The length of a path, in the units of its numbers. */
export function pathLength(d: string): number {
  let sum = 0;
  for (const line of pathLines(d)) {
    for (let i = 1; i < line.length; i++)
      sum += Math.hypot(line[i][0] - line[i - 1][0], line[i][1] - line[i - 1][1]);
  }
  return sum;
}

/** The point at a distance along a path; the nearest end where the distance lies outside. */
export function pointAlong(d: string, distance: number): Point {
  let left = Math.max(0, distance);
  let last: Point = [0, 0];
  for (const line of pathLines(d)) {
    last = line[0];
    for (let i = 1; i < line.length; i++) {
      const [dx, dy] = [line[i][0] - line[i - 1][0], line[i][1] - line[i - 1][1]];
      const piece = Math.hypot(dx, dy);
      if (piece > 0 && left <= piece) {
        return [line[i - 1][0] + (dx * left) / piece, line[i - 1][1] + (dy * left) / piece];
      }
      left -= piece;
      last = line[i];
    }
  }
  return last;
}
