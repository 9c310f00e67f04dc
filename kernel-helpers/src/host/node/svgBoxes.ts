import { numbersIn, pathLines, type Point } from "./svgPaths";
import { ascent, descent, textWidth } from "./textMetrics";

/**
 * Boxes of SVG elements where no browser lays them out.
 *
 * jsdom knows the elements but not their places. Plotly asks for boxes of texts above all (tick labels,
 * titles, legend entries) and makes its margins from them.
 */
interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The affine map x' = a x + c y + e, y' = b x + d y + f. */
type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

const identity: Matrix = [1, 0, 0, 1, 0, 0];

function multiply(m: Matrix, n: Matrix): Matrix {
  return [
    m[0] * n[0] + m[2] * n[1],
    m[1] * n[0] + m[3] * n[1],
    m[0] * n[2] + m[2] * n[3],
    m[1] * n[2] + m[3] * n[3],
    m[0] * n[4] + m[2] * n[5] + m[4],
    m[1] * n[4] + m[3] * n[5] + m[5],
  ];
}

/** The map that a `transform` attribute describes. */
function matrixOf(transform: string): Matrix {
  let matrix = identity;
  for (const [, name, list] of transform.matchAll(/(\w+)\s*\(([^)]*)\)/g)) {
    const v = numbersIn(list);
    if (name === "translate") matrix = multiply(matrix, [1, 0, 0, 1, v[0] ?? 0, v[1] ?? 0]);
    else if (name === "scale") matrix = multiply(matrix, [v[0] ?? 1, 0, 0, v[1] ?? v[0] ?? 1, 0, 0]);
    else if (name === "rotate") {
      const angle = ((v[0] ?? 0) * Math.PI) / 180;
      const [x, y] = [v[1] ?? 0, v[2] ?? 0];
      const turn: Matrix = [Math.cos(angle), Math.sin(angle), -Math.sin(angle), Math.cos(angle), 0, 0];
      matrix = multiply(multiply(multiply(matrix, [1, 0, 0, 1, x, y]), turn), [1, 0, 0, 1, -x, -y]);
    } else if (name === "matrix" && v.length === 6) {
      matrix = multiply(matrix, [v[0], v[1], v[2], v[3], v[4], v[5]]);
    }
  }
  return matrix;
}

function boxAround(points: Iterable<Point>): Box | undefined {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  return left <= right ? { left, top, right, bottom } : undefined;
}

function* corners(box: Box): Generator<Point> {
  yield [box.left, box.top];
  yield [box.right, box.top];
  yield [box.right, box.bottom];
  yield [box.left, box.bottom];
}

function moved(box: Box | undefined, matrix: Matrix): Box | undefined {
  if (box === undefined) return undefined;
  const [a, b, c, d, e, f] = matrix;
  return boxAround([...corners(box)].map(([x, y]): Point => [a * x + c * y + e, b * x + d * y + f]));
}

function union(boxes: Iterable<Box | undefined>): Box | undefined {
  const points: Point[] = [];
  for (const box of boxes) if (box !== undefined) points.push(...corners(box));
  return boxAround(points);
}

/** The value of a style property: its own declaration, else the attribute of the same name. */
function styled(element: Element, property: string): string {
  const declared = new RegExp(`(?:^|;)\\s*${property}\\s*:\\s*([^;]+)`).exec(
    element.getAttribute("style") ?? "",
  );
  return declared?.[1].trim() ?? element.getAttribute(property) ?? "";
}

function fontSize(element: Element | null): number {
  if (element === null) return 16;
  const size = styled(element, "font-size");
  if (size === "") return fontSize(element.parentElement);
  const value = Number.parseFloat(size);
  if (size.endsWith("%")) return (value / 100) * fontSize(element.parentElement);
  if (size.endsWith("em")) return value * fontSize(element.parentElement);
  return value;
}

function isBold(element: Element | null): boolean {
  if (element === null) return false;
  const weight = styled(element, "font-weight");
  return weight === "" ? isBold(element.parentElement) : weight === "bold" || Number(weight) >= 600;
}

function inherited(element: Element | null, property: string): string {
  if (element === null) return "";
  return styled(element, property) || inherited(element.parentElement, property);
}

function length(text: string | null, size: number): number | undefined {
  if (text === null || text === "") return undefined;
  const value = Number.parseFloat(text);
  return text.endsWith("em") ? value * size : value;
}

/** A stretch of text that starts at a place of its own and is anchored there as a whole. */
interface Chunk {
  readonly x: number;
  readonly anchor: string;
  readonly runs: {
    readonly start: number;
    readonly end: number;
    readonly top: number;
    readonly bottom: number;
  }[];
  width: number;
}

function textChunks(text: Element): Chunk[] {
  const chunks: Chunk[] = [{ x: 0, anchor: inherited(text, "text-anchor"), runs: [], width: 0 }];
  let y = 0;
  const walk = (element: Element): void => {
    const size = fontSize(element);
    const x = length(element.getAttribute("x"), size);
    const ownY = length(element.getAttribute("y"), size);
    if (x !== undefined || ownY !== undefined) {
      chunks.push({
        x: x ?? chunks[chunks.length - 1].x,
        anchor: inherited(element, "text-anchor"),
        runs: [],
        width: 0,
      });
    }
    const chunk = chunks[chunks.length - 1];
    y = (ownY ?? y) + (length(element.getAttribute("dy"), size) ?? 0);
    chunk.width += length(element.getAttribute("dx"), size) ?? 0;
    for (const child of element.childNodes) {
      if (child.nodeType === 1)
        walk(child as Element); // an element, as its node type says
      else if (child.nodeType === 3 && child.nodeValue) {
        const current = chunks[chunks.length - 1];
        const start = current.width;
        current.width += textWidth(child.nodeValue, { size, bold: isBold(element) });
        current.runs.push({ start, end: current.width, top: y - ascent(size), bottom: y + descent(size) });
      }
    }
  };
  walk(text);
  return chunks;
}

function textBox(text: Element): Box | undefined {
  const points: Point[] = [];
  for (const { x, anchor, runs, width } of textChunks(text)) {
    const shift = anchor === "middle" ? -width / 2 : anchor === "end" ? -width : 0;
    for (const run of runs) {
      points.push([x + shift + run.start, run.top], [x + shift + run.end, run.bottom]);
    }
  }
  return boxAround(points);
}

const drawsNothing = new Set(["defs", "clipPath", "style", "title", "desc", "pattern", "linearGradient"]);

/** The box of an element's own geometry and that of its children, in its own coordinates. */
function localBox(element: Element): Box | undefined {
  if (drawsNothing.has(element.tagName) || styled(element, "display") === "none") return undefined;
  const number = (name: string): number => Number(element.getAttribute(name) ?? 0);
  switch (element.tagName) {
    case "text":
    case "tspan":
      return textBox(element);
    case "rect":
    case "image": {
      const [x, y, width, height] = [number("x"), number("y"), number("width"), number("height")];
      return { left: x, top: y, right: x + width, bottom: y + height };
    }
    case "circle": {
      const [x, y, r] = [number("cx"), number("cy"), number("r")];
      return { left: x - r, top: y - r, right: x + r, bottom: y + r };
    }
    case "path":
      return boxAround(pathLines(element.getAttribute("d") ?? "").flat());
    default:
      return union(
        [...element.children].map((child) =>
          moved(localBox(child), matrixOf(child.getAttribute("transform") ?? "")),
        ),
      );
  }
}

/** The map from an element's own coordinates to those of its outermost `svg`. */
function matrixToRoot(element: Element): Matrix {
  const own = matrixOf(element.getAttribute("transform") ?? "");
  const parent = element.parentElement;
  return parent === null || element.tagName === "svg" ? own : multiply(matrixToRoot(parent), own);
}

function rectangle(box: Box | undefined): DOMRect {
  const { left, top, right, bottom } = box ?? { left: 0, top: 0, right: 0, bottom: 0 };
  const [width, height] = [right - left, bottom - top];
  const values = { x: left, y: top, left, top, right, bottom, width, height };
  return { ...values, toJSON: () => values };
}

/** The box in an element's own coordinates, as `getBBox` gives it. */
export function ownBox(element: Element): DOMRect {
  return rectangle(localBox(element));
}

/** The box in the coordinates of the outermost `svg`, as `getBoundingClientRect` gives it. */
export function boxInRoot(element: Element): DOMRect {
  return rectangle(moved(localBox(element), matrixToRoot(element)));
}

/** The advance width of a text element. */
export function textLength(element: Element): number {
  return textChunks(element).reduce((sum, chunk) => sum + chunk.width, 0);
}
