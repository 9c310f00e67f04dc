import { elementsIn, handedDown, shortColour, type SvgNode, visible } from "./svgNode";

/**
 * Plotly's drawing as one small, self-contained SVG text.
 *
 * Plotly draws on stacked `svg` elements with helpers for the mouse, spells every default and names its
 * elements at random. Here the layers become one, what shows nothing goes, shared properties move to the
 * group, and the ids that are left are counted: the same figure gives the same bytes.
 */

/** The face of every figure; the first that the reader's machine has. */
const fontFamily = "Helvetica Neue, Arial, sans-serif";

/** Moves properties that all children share to their group, and takes groups away that do nothing. */
function grouped(node: SvgNode): SvgNode {
  const children: (SvgNode | string)[] = [];
  for (const child of node.children) {
    const inner = typeof child === "string" ? child : grouped(child);
    const isIdleGroup = typeof inner !== "string" && inner.name === "g" && inner.attributes.size === 0;
    if (isIdleGroup) children.push(...inner.children);
    else children.push(inner);
  }
  const attributes = new Map(node.attributes);
  const result = { name: node.name, attributes, children };
  const elements = elementsIn(result);
  if (node.name !== "g" || elements.length < 2) {
    const [only] = elements;
    const mayMerge = node.name === "g" && elements.length === 1 && !attributes.has("clip-path");
    if (!mayMerge || [...attributes.keys()].some((name) => only.attributes.has(name))) return result;
    for (const [name, value] of attributes) only.attributes.set(name, value);
    return only;
  }
  for (const [name, value] of elements[0].attributes) {
    if (!handedDown.has(name) || !elements.every((child) => child.attributes.get(name) === value)) continue;
    attributes.set(name, value);
    for (const child of elements) child.attributes.delete(name);
  }
  return result;
}

const translation = /^translate\(([-\d.]+)[ ,]([-\d.]+)\)$/;

function isMark(node: SvgNode): boolean {
  return node.name === "path" && translation.test(node.attributes.get("transform") ?? "");
}

/** Draws the marks of a series by one shape that is defined once. */
function withSharedMarks(root: SvgNode): SvgNode {
  const shapesByPath = new Map<string, { count: number; id?: string }>();
  const visit = (node: SvgNode, action: (mark: SvgNode, d: string) => SvgNode): SvgNode => ({
    ...node,
    children: node.children.map((child) => {
      if (typeof child === "string") return child;
      return isMark(child) ? action(child, child.attributes.get("d") ?? "") : visit(child, action);
    }),
  });
  visit(root, (mark, d) => {
    const shape = shapesByPath.get(d) ?? { count: 0 };
    shape.count += 1;
    shapesByPath.set(d, shape);
    return mark;
  });
  const definitions: SvgNode[] = [];
  const drawn = visit(root, (mark, d) => {
    const shape = shapesByPath.get(d);
    if (shape === undefined || shape.count < 4) return mark;
    if (shape.id === undefined) {
      shape.id = `mark${definitions.length}`;
      definitions.push({
        name: "path",
        attributes: new Map([
          ["id", shape.id],
          ["d", d],
        ]),
        children: [],
      });
    }
    const [, x, y] = translation.exec(mark.attributes.get("transform") ?? "") ?? [];
    const attributes = new Map([["href", `#${shape.id}`], ["x", x], ["y", y], ...mark.attributes]);
    attributes.delete("d");
    attributes.delete("transform");
    for (const name of ["x", "y"]) if (attributes.get(name) === "0") attributes.delete(name);
    return { name: "use", attributes, children: [] };
  });
  if (definitions.length === 0) return drawn;
  return {
    ...drawn,
    children: [{ name: "defs", attributes: new Map(), children: definitions }, ...drawn.children],
  };
}

/** Counts the ids that something refers to and drops the others. */
function withCountedIds(root: SvgNode, prefix: string): SvgNode {
  const reference = /url\(["']?#([^"')]+)["']?\)/g;
  const newIds = new Map<string, string>();
  const note = (node: SvgNode): void => {
    for (const [name, value] of node.attributes) {
      const ids = name === "href" && value.startsWith("#") ? [value.slice(1)] : [];
      for (const [, id] of value.matchAll(reference)) ids.push(id);
      for (const id of ids) if (!newIds.has(id)) newIds.set(id, `${prefix}${newIds.size}`);
    }
    for (const child of elementsIn(node)) note(child);
  };
  note(root);
  const rename = (node: SvgNode): SvgNode => {
    const attributes = new Map<string, string>();
    for (const [name, value] of node.attributes) {
      if (name === "id") {
        const id = newIds.get(value);
        if (id !== undefined) attributes.set("id", id);
      } else if (name === "href" && value.startsWith("#")) {
        attributes.set("href", `#${newIds.get(value.slice(1)) ?? ""}`);
      } else {
        attributes.set(
          name,
          value.replace(reference, (_, id: string) => `url(#${newIds.get(id) ?? ""})`),
        );
      }
    }
    const children: (SvgNode | string)[] = [];
    for (const child of node.children) {
      if (typeof child === "string") children.push(child);
      else {
        const renamed = rename(child);
        if (renamed.name !== "clipPath" || renamed.attributes.has("id")) children.push(renamed);
      }
    }
    return { name: node.name, attributes, children };
  };
  const renamed = rename(root);
  return { ...renamed, children: renamed.children.filter((child) => !isEmptyDefinitions(child)) };
}

function isEmptyDefinitions(node: SvgNode | string): boolean {
  return (
    typeof node !== "string" &&
    node.name === "defs" &&
    !elementsIn(node).some((child) => child.name !== "g" || child.children.length > 0)
  );
}

function escaped(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}

function written(node: SvgNode | string): string {
  if (typeof node === "string") return escaped(node);
  const attributes = [...node.attributes].map(([name, value]) => ` ${name}="${escaped(value)}"`).join("");
  if (node.children.length === 0) return `<${node.name}${attributes}/>`;
  return `<${node.name}${attributes}>${node.children.map(written).join("")}</${node.name}>`;
}

/** Makes one SVG text of the layers that Plotly drew into a place. */
export function compactSvg(
  place: Element,
  about: {
    readonly alt: string;
    readonly width: number;
    readonly height: number;
    readonly background: string;
    readonly idPrefix: string;
  },
): string {
  const { alt, width, height, background, idPrefix } = about;
  const layers: SvgNode[] = [];
  for (const svg of place.querySelectorAll(".main-svg")) {
    const layer = visible(svg);
    if (layer !== undefined) layers.push({ ...layer, name: "g", attributes: new Map() });
  }
  const paper: SvgNode = {
    name: "rect",
    attributes: new Map([
      ["width", String(width)],
      ["height", String(height)],
      ["fill", shortColour(background)],
    ]),
    children: [],
  };
  const attributes = new Map([
    ["xmlns", "http://www.w3.org/2000/svg"],
    ["width", String(width)],
    ["height", String(height)],
    ["viewBox", `0 0 ${width} ${height}`],
    ["role", "img"],
    ["aria-label", alt],
    ["font-family", fontFamily],
  ]);
  const whole: SvgNode = { name: "svg", attributes, children: [paper, ...layers] };
  return written(withCountedIds(grouped(withSharedMarks(whole)), idPrefix));
}
