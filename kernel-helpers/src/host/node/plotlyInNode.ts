import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { compileFunction } from "node:vm";
import type { PlotlyLayout, PlotlyTrace } from "../drawing";
import { pathLength, pointAlong } from "./svgPaths";
import { boxInRoot, ownBox, textLength } from "./svgBoxes";

/** What this module uses of Plotly.js. */
interface PlotlyLibrary {
  newPlot(
    place: Element,
    data: readonly PlotlyTrace[],
    layout: PlotlyLayout,
    config: Readonly<Record<string, unknown>>,
  ): Promise<unknown>;
  purge(place: Element): void;
}

/** Plotly.js and the page without a screen that it draws into. */
export interface PlotlyInNode {
  readonly plotly: PlotlyLibrary;
  readonly document: Document;
}

let loaded: Promise<PlotlyInNode> | undefined;

/** Plotly.js in Node, loaded on the first call (about a second) and kept. */
export function plotlyInNode(): Promise<PlotlyInNode> {
  loaded ??= load();
  return loaded;
}

async function load(): Promise<PlotlyInNode> {
  const { JSDOM } = await import("jsdom");
  const { window } = new JSDOM("<!doctype html><html><body></body></html>");
  giveSizes(window);

  // The bundle is one function of its surroundings. It gets the page's names as parameters, so that
  // nothing of the page leaks into Node's globals, and arrays are of the same realm on both sides.
  const path = createRequire(__filename).resolve("plotly.js-dist");
  const surroundings = pageNames(window);
  const module: { exports: unknown } = { exports: {} };
  const bundle = compileFunction(
    await readFile(path, "utf8"),
    ["module", "exports", ...Object.keys(surroundings)],
    { filename: path },
  );
  bundle(module, module.exports, ...Object.values(surroundings));
  // The boundary to a library without types of its own for this use.
  return { plotly: module.exports as PlotlyLibrary, document: window.document };
}

/** Gives the page's SVG elements the sizes that jsdom does not know. */
function giveSizes(window: Pick<typeof globalThis, "SVGElement" | "HTMLCanvasElement">): void {
  const define = (name: string, value: (this: SVGElement, distance: number) => unknown): void => {
    Object.defineProperty(window.SVGElement.prototype, name, { value, configurable: true });
  };
  define("getBBox", function () {
    return ownBox(this);
  });
  define("getBoundingClientRect", function () {
    return boxInRoot(this);
  });
  define("getComputedTextLength", function () {
    return textLength(this);
  });
  define("getTotalLength", function () {
    return pathLength(this.getAttribute("d") ?? "");
  });
  define("getPointAtLength", function (distance) {
    const [x, y] = pointAlong(this.getAttribute("d") ?? "", distance);
    return { x, y };
  });
  // jsdom would print that it has no canvas; the answer that means so is null.
  Object.defineProperty(window.HTMLCanvasElement.prototype, "getContext", {
    value: () => null,
    configurable: true,
  });
}

/** Stands for the workers that map traces would start; no figure of ours has a map. */
function NoWorker(): never {
  throw new Error("A drawing without a browser has no workers.");
}

/** The page's global names that Node does not have, and those that must be the page's own. */
function pageNames(window: object): Record<string, unknown> {
  const names: Record<string, unknown> = {};
  for (const name of Object.getOwnPropertyNames(window)) {
    // Storage refuses to be read on a page without an address.
    if (name in globalThis || name.endsWith("Storage") || !/^[A-Za-z_$][\w$]*$/.test(name)) continue;
    const value: unknown = Reflect.get(window, name);
    const isPlainFunction = typeof value === "function" && value.prototype === undefined;
    names[name] = isPlainFunction ? value.bind(window) : value;
  }
  const pageUrl: unknown = Reflect.get(window, "URL");
  if (typeof pageUrl !== "function") throw new TypeError("jsdom: the page has no URL class.");
  Object.defineProperty(pageUrl, "createObjectURL", { value: () => "blob:none", configurable: true });
  return {
    ...names,
    self: window,
    URL: pageUrl,
    navigator: Reflect.get(window, "navigator"),
    Event: Reflect.get(window, "Event"),
    Blob: Reflect.get(window, "Blob"),
    TextDecoder,
    TextEncoder,
    Worker: NoWorker,
  };
}
