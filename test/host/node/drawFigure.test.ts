import { describe, expect, test, vi } from "vitest";
import type { FigureSpec } from "../../../kernel-helpers/src/figures/spec";
import { drawSvg } from "../../../kernel-helpers/src/host/node/drawFigure";
import { drawnTexts, outside, overlaps, parseSvg } from "../../figures/drawnTexts";

const x = Array.from({ length: 40 }, (_, i) => i / 4);
const titled = (text: string) => ({ title: { text }, automargin: true });

const figures: Record<string, FigureSpec> = {
  lines: {
    alt: "Two waves",
    data: [
      { x, y: x.map(Math.sin), name: "sine", mode: "lines" },
      { x, y: x.map(Math.cos), name: "a cosine with a long name", mode: "lines", line: { dash: "dash" } },
    ],
    layout: {
      title: { text: "Waves of v<sub>n</sub> & others" },
      xaxis: titled("Time (s)"),
      yaxis: titled("v (m/s)"),
    },
  },
  "a legend below": {
    alt: "Two waves",
    data: [
      { x, y: x.map(Math.sin), name: "sine" },
      { x, y: x.map(Math.cos), name: "cosine" },
    ],
    layout: { legend: { orientation: "h", y: -0.3 }, xaxis: titled("Time (s)"), yaxis: titled("v (m/s)") },
  },
  "bars and a second axis": {
    alt: "Bars",
    data: [
      { type: "bar", name: "roach", x: ["a", "b", "c"], y: [1, 2, 3], marker: { pattern: { shape: "/" } } },
      { type: "bar", name: "perch", x: ["a", "b", "c"], y: [2, 1, 2] },
      { x: ["a", "b", "c"], y: [0.9, 0.8, 0.85], name: "survival", yaxis: "y2" },
    ],
    layout: {
      barmode: "stack",
      legend: { orientation: "h", y: 1.15 },
      yaxis: titled("Number"),
      yaxis2: { ...titled("Survival"), overlaying: "y", side: "right" },
    },
  },
  "logarithmic axes": {
    alt: "A power law",
    data: [{ x: [0.001, 0.1, 10, 1000], y: [1e-6, 1e-3, 1, 1e5] }],
    layout: {
      xaxis: { ...titled("Length (m)"), type: "log", exponentformat: "power" },
      yaxis: { ...titled("Mass (kg)"), type: "log", exponentformat: "power" },
    },
  },
  "shapes and notes": {
    alt: "A wave with a shaded region",
    data: [{ x, y: x.map(Math.sin) }],
    layout: {
      shapes: [{ type: "rect", x0: 2, x1: 4, y0: 0, y1: 1, yref: "paper", fillcolor: "#888", opacity: 0.2 }],
      annotations: [{ x: 3, y: 0.2, text: "tested<br>range", showarrow: true, ax: 40, ay: -40 }],
    },
  },
  "two plots side by side": {
    alt: "Two waves",
    data: [
      { x, y: x.map(Math.sin) },
      { x, y: x.map(Math.cos), xaxis: "x2", yaxis: "y2" },
    ],
    layout: { grid: { rows: 1, columns: 2, pattern: "independent" }, yaxis2: titled("v (m/s)") },
  },
  "filled levels": {
    alt: "Velocity over a section",
    data: [
      {
        type: "contour",
        x: [0, 1, 2],
        y: [0, 1],
        z: [
          [1, 2, 3],
          [2, 3, 5],
        ],
        colorbar: { title: { text: "m/s" } },
      },
    ],
    layout: {},
  },
  "boxes and violins": {
    alt: "Two samples",
    data: [
      { type: "box", y: [1, 2, 3, 4, 9], name: "first" },
      { type: "violin", y: [1, 2, 3, 4, 9], name: "second" },
    ],
    layout: {},
  },
};

function idsIn(svg: string): string[] {
  return [...svg.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
}

describe.each(Object.entries(figures))("a figure with %s", (_, spec) => {
  test("is drawn with the same bytes by a newly loaded Plotly, whose ids are drawn anew", async () => {
    const first = await drawSvg(spec);
    vi.resetModules();
    const again = await import("../../../kernel-helpers/src/host/node/drawFigure");
    expect(await again.drawSvg(spec)).toBe(first);
  });

  test("is well-formed XML of moderate size that refers to nothing outside itself", async () => {
    const svg = await drawSvg(spec);
    const root = parseSvg(svg);
    expect(root.getAttribute("viewBox")).toBe("0 0 760 430");
    expect(root.getAttribute("aria-label")).toBe(spec.alt);
    expect(svg.length).toBeGreaterThan(1_000);
    expect(svg.length).toBeLessThan(25_000);
    expect(svg.replace("http://www.w3.org/2000/svg", "")).not.toMatch(/https?:|xlink|<script|<style/);
  });

  test("has no id without a reference and no reference without an id", async () => {
    const svg = await drawSvg(spec);
    const ids = idsIn(svg);
    const references = [...svg.matchAll(/(?:url\(#|href="#)([^")]+)/g)].map(([, id]) => id);
    expect(new Set(ids)).toEqual(new Set(references));
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.every((id) => /^f[0-9a-f]{8}-\d+$/.test(id))).toBe(true);
  });

  test("has room for its texts", async () => {
    const svg = await drawSvg(spec);
    expect(drawnTexts(svg).length).toBeGreaterThan(4);
    expect(overlaps(svg)).toEqual([]);
    expect(outside(svg)).toEqual([]);
  });
});

describe("drawSvg", () => {
  test("gives two figures different ids, so that both can stand in one page", async () => {
    const [one, other] = await Promise.all([drawSvg(figures.lines), drawSvg(figures["shapes and notes"])]);
    expect(idsIn(one).length).toBeGreaterThan(0);
    expect(idsIn(one).filter((id) => idsIn(other).includes(id))).toEqual([]);
  });

  test("leaves the specification as it was", async () => {
    const spec = structuredClone(figures.lines);
    await drawSvg(spec);
    expect(spec).toEqual(figures.lines);
  });

  test("draws typed arrays as it draws lists, and a gap for NaN", async () => {
    const list = { ...figures.lines, data: [{ x: [1, 2, 3, 4], y: [1, 2, 4, 3] }] };
    const typed = { ...list, data: [{ x: Float64Array.of(1, 2, 3, 4), y: Float64Array.of(1, 2, 4, 3) }] };
    expect(await drawSvg(typed)).toBe(await drawSvg(list));
    const gap = { ...list, data: [{ x: [1, 2, 3, 4, 5], y: [1, 2, Number.NaN, 3, 4], mode: "lines" }] };
    const pieces = parseSvg(await drawSvg(gap)).querySelectorAll('[stroke="#1f77b4"] path');
    expect([...pieces].map((piece) => piece.getAttribute("d")?.match(/[ML]/g)?.join(""))).toEqual([
      "ML",
      "ML",
    ]);
  });

  test("shows markup in data as text", async () => {
    const name = '<script>alert(1)</script> & "quoted"';
    const svg = await drawSvg({
      ...figures.lines,
      alt: name,
      data: [{ x: [1, 2], y: [1, 2], name, showlegend: true }],
    });
    expect(svg).not.toContain("<script");
    expect(parseSvg(svg).getAttribute("aria-label")).toBe(name);
  });

  test("takes width and height from the layout", async () => {
    const root = parseSvg(await drawSvg({ ...figures.lines, layout: { width: 400, height: 300 } }));
    expect([root.getAttribute("width"), root.getAttribute("height")]).toEqual(["400", "300"]);
  });

  test("takes less than a second of the processor for a later figure", async () => {
    await drawSvg(figures.lines);
    // The processor's time, not the clock's: other work on the machine does not count.
    const start = process.cpuUsage();
    await drawSvg(figures["a legend below"]);
    const { user, system } = process.cpuUsage(start);
    expect((user + system) / 1e6).toBeLessThan(1);
  });

  test.each<[string, FigureSpec, RegExp]>([
    [
      "needs a canvas",
      { ...figures.lines, data: [{ type: "heatmap", z: [[1]] }] },
      /series 1 has type "heatmap".*contour/,
    ],
    [
      "needs a graphics card",
      { ...figures.lines, data: [{}, { type: "scattergl" }] },
      /series 2 has type "scattergl"/,
    ],
    ["has no alt text", { ...figures.lines, alt: " " }, /alt is empty/],
    [
      "is too wide",
      { ...figures.lines, layout: { width: 1e6 } },
      /layout\.width is 1000000; it must be 10 to 10000/,
    ],
    [
      "takes a picture from elsewhere",
      { ...figures.lines, layout: { images: [{ source: "https://example.org/fish.png" }] } },
      /layout\.images has source "https:\/\/example\.org\/fish\.png"/,
    ],
  ])("refuses a figure that %s, in a sentence", async (_, spec, message) => {
    await expect(drawSvg(spec)).rejects.toThrow(message);
  });
});
