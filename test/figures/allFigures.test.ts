import { describe, expect, test } from "vitest";
import { drawSvg } from "../../kernel-helpers/src/host/node/drawFigure";
import { plotlyInNode } from "../../kernel-helpers/src/host/node/plotlyInNode";
import { allFigures } from "./allFigures";
import { drawnTexts, outside, overlaps } from "./drawnTexts";

function titleOf(axis: unknown): string {
  const title: unknown = Reflect.get(Object(axis), "title");
  return String(Reflect.get(Object(title), "text"));
}

describe.each(Object.entries(allFigures))("%s", (_, spec) => {
  test("uses attributes that Plotly knows, with values that it takes", async () => {
    const { plotly } = await plotlyInNode();
    const validate: unknown = Reflect.get(plotly, "validate");
    if (typeof validate !== "function") throw new TypeError("plotly.js has no validate function.");
    const data: unknown = structuredClone(spec.data);
    const findings: { code: string; msg: string }[] = validate(data, structuredClone(spec.layout)) ?? [];
    // "unused": an attribute of the common look that has nothing to do here, such as the colour of absent ticks.
    expect(findings.filter(({ code }) => code !== "unused").map(({ msg }) => msg)).toEqual([]);
  });

  test("has axis titles, and an alt text that is a sentence with numbers", () => {
    expect(titleOf(spec.layout.xaxis).length).toBeGreaterThan(3);
    expect(titleOf(spec.layout.yaxis).length).toBeGreaterThan(3);
    expect(spec.alt).toMatch(/^[A-Z].*\d.*\.$/);
    expect(spec.alt).not.toMatch(/NaN|undefined|null|e-\d|10⁻/);
  });

  test("is plain data: the same after a way through JSON", () => {
    expect(JSON.parse(JSON.stringify(spec))).toEqual(spec);
  });

  test("is drawn with room for every text, and in at most 25 kB", async () => {
    const svg = await drawSvg(spec);
    expect(drawnTexts(svg).length).toBeGreaterThan(6);
    expect(overlaps(svg)).toEqual([]);
    expect(outside(svg)).toEqual([]);
    expect(svg.length).toBeLessThan(25_000);
  });

  test("keeps its legend above the plot", async () => {
    const texts = drawnTexts(await drawSvg(spec));
    const names = spec.data.flatMap(({ name, showlegend }) =>
      typeof name === "string" && showlegend !== false ? [name.replaceAll("<br>", "")] : [],
    );
    const tops = texts.filter(({ text }) => names.includes(text)).map(({ box }) => box.bottom);
    expect(tops).toHaveLength(spec.layout.showlegend === true ? names.length : 0);
    expect(spec.layout.showlegend === true || names.length < 2).toBe(true);
    // The highest tick of the vertical axis stands beside the top of the plot.
    const ticks = texts.filter(({ text, box }) => /^−?[\d.\u2009]+$/.test(text) && box.right < 110);
    const highest = Math.min(...ticks.map(({ box }) => box.top));
    expect(Math.max(0, ...tops)).toBeLessThan(highest + 12);
  });
});
