/** Properties that a group hands down to its children. */
export const handedDown = new Set([
  "fill",
  "fill-opacity",
  "stroke",
  "stroke-opacity",
  "stroke-width",
  "stroke-dasharray",
  "stroke-miterlimit",
  "font-size",
  "font-weight",
  "font-style",
  "text-anchor",
  "shape-rendering",
]);

/** Values that a property has anyway. */
const defaults: Readonly<Record<string, string>> = {
  opacity: "1",
  "fill-opacity": "1",
  "stroke-opacity": "1",
  "stroke-dasharray": "none",
  "stroke-miterlimit": "4",
  "font-weight": "normal",
  "font-style": "normal",
  "font-variant": "normal",
  "vector-effect": "none",
  "text-anchor": "start",
  dy: "0em",
};

const attributesKept = new Set([
  ...handedDown,
  ..."opacity visibility display transform clip-path href id".split(" "),
  ..."d x y dx dy width height rx ry cx cy r x1 x2 y1 y2 preserveAspectRatio".split(" "),
  ..."offset stop-color stop-opacity gradientUnits patternUnits patternTransform".split(" "),
]);

/** Groups for the mouse. */
const forTheMouse = new Set(["draglayer", "legendtoggle", "scrollbar", "hoverlayer", "zoomlayer"]);

/** Elements that show something of their own. */
const shapes = new Set(["path", "rect", "circle", "text", "image", "use", "line"]);

/** An element of the drawing as plain data. */
export interface SvgNode {
  readonly name: string;
  readonly attributes: Map<string, string>;
  readonly children: (SvgNode | string)[];
}

/** A colour as Plotly writes it, in hexadecimal digits. */
export function shortColour(value: string): string {
  const rgb = /^rgb\(\s*(\d+),\s*(\d+),\s*(\d+)\s*\)$/.exec(value);
  if (rgb === null) return value;
  const hex = rgb.slice(1).map((part) => Number(part).toString(16).padStart(2, "0"));
  const short = hex.every(([first, second]) => first === second);
  return `#${hex.map((pair) => (short ? pair[0] : pair)).join("")}`;
}

/** Numbers to a hundredth of a pixel. */
function rounded(value: string): string {
  return value.replace(/-?\d+\.\d{3,}(?:e-?\d+)?/g, (digits) =>
    String(Math.round(Number(digits) * 100) / 100),
  );
}

const holdsNumbers =
  /^(?:d|x|y|dx|dy|width|height|transform|r|cx|cy|x[12]|y[12]|stroke-width|font-size|offset)$/;

/** An element's attributes and style declarations as one list, without those that say nothing. */
function attributesOf(element: Element): Map<string, string> {
  const all = new Map<string, string>();
  for (const { name, value } of element.attributes) all.set(name === "xlink:href" ? "href" : name, value);
  for (const declaration of (element.getAttribute("style") ?? "").split(";")) {
    const colon = declaration.indexOf(":");
    if (colon > 0) all.set(declaration.slice(0, colon).trim(), declaration.slice(colon + 1).trim());
  }
  if (element.classList.contains("crisp")) all.set("shape-rendering", "crispEdges");
  // A line without width is not drawn at all.
  if (/^0(?:px)?$/.test(all.get("stroke-width") ?? "") || all.get("stroke-opacity") === "0") {
    for (const name of ["stroke", "stroke-opacity", "stroke-width"]) all.delete(name);
  }
  if (all.get("fill-opacity") === "0" || all.get("fill") === "transparent") {
    all.delete("fill-opacity");
    all.set("fill", "none");
  }
  const kept = new Map<string, string>();
  for (const [name, text] of all) {
    let value = /^(?:fill|stroke|stop-color)$/.test(name) ? shortColour(text) : text;
    if (holdsNumbers.test(name)) value = rounded(value).replace(/px\b/g, "");
    if (name === "stroke-dasharray") value = value.replace(/px/g, "").replace(/,\s*/g, " ");
    if (!attributesKept.has(name) || value === "" || defaults[name] === value) continue;
    kept.set(name, value);
  }
  if (kept.get("stroke") === undefined) {
    for (const name of ["stroke-width", "stroke-dasharray", "stroke-miterlimit"]) kept.delete(name);
  }
  return kept;
}

/** The part of the drawing that shows something, or nothing. */
export function visible(element: Element): SvgNode | undefined {
  for (const name of element.classList) if (forTheMouse.has(name)) return undefined;
  const attributes = attributesOf(element);
  // A link in a text shows as text: the image stands alone.
  const name = element.tagName === "a" ? "tspan" : element.tagName;
  if (attributes.get("display") === "none" || attributes.get("visibility") === "hidden") return undefined;
  const children: (SvgNode | string)[] = [];
  for (const child of element.childNodes) {
    if (child.nodeType === 3) children.push(child.nodeValue ?? "");
    if (child.nodeType !== 1) continue;
    const node = visible(child as Element); // an element, as its node type says
    if (node !== undefined) children.push(node);
  }
  const drawsPath = name !== "path" || !/^(?:|M0,0Z?)$/.test(attributes.get("d") ?? "");
  const drawsArea = name !== "rect" || (attributes.get("width") !== "0" && attributes.get("height") !== "0");
  const drawsInk = name !== "rect" || attributes.get("fill") !== "none" || attributes.has("stroke");
  const inClip = element.closest("clipPath") !== null;
  const isEmpty = children.length === 0 && (!shapes.has(name) || name === "text");
  if (!inClip && (isEmpty || !drawsPath || !drawsArea || !drawsInk)) return undefined;
  return { name, attributes, children };
}

export function elementsIn(node: SvgNode): SvgNode[] {
  return node.children.filter((child): child is SvgNode => typeof child !== "string");
}
