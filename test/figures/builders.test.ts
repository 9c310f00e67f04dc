import { describe, expect, test } from "vitest";
import { protection, rackLoss, survival, turbine, u } from "kernel-helpers";
import * as figures from "../../kernel-helpers/src/figures";
import { kaplanUnit } from "../turbine/units";
import { survivalCurve, totalLength } from "./allFigures";

const x = { title: "Rack angle", unit: "deg", values: [0, Math.PI / 4, Math.PI / 2] } as const;
const y = { title: "Velocity", unit: "cmps" } as const;

function run(values: number[]): string {
  return figures.lines({ x, y, curves: [{ name: "v", values }] }).alt;
}

function pictureHeight(count: number): number {
  const curves = Array.from({ length: count }, (_, i) => ({
    name: `a curve with quite a long name ${i}`,
    values: [1, 2, 3],
  }));
  return Number(figures.lines({ x, y, curves }).layout.height);
}

/** The texts of a figure's notes. */
function notes({ layout }: figures.FigureSpec): string[] {
  return (layout.annotations as { text: string }[]).map(({ text }) => text);
}

describe("lines", () => {
  test("turns SI numbers into the units of its axes and names them", () => {
    const { data, layout } = figures.lines({ x, y, curves: [{ name: "normal", values: [0, 0.3, 0.5] }] });
    expect(data[0]).toMatchObject({ name: "normal", y: [0, 30, 50] });
    expect((data[0].x as number[]).map((angle) => Math.round(angle))).toEqual([0, 45, 90]);
    expect(layout).toMatchObject({
      xaxis: { title: { text: "Rack angle [°]" } },
      yaxis: { title: { text: "Velocity [cm/s]" } },
    });
  });

  test("shows a unit that is none of the course's as it is, without turning numbers", () => {
    const { data, layout } = figures.lines({
      x,
      y: { title: "Debris", unit: "kg/m²" },
      curves: [{ name: "autumn", values: [1, 2, 3] }],
    });
    expect(data[0].y).toEqual([1, 2, 3]);
    expect(layout).toMatchObject({ yaxis: { title: { text: "Debris [kg/m²]" } } });
  });

  test("shows ratios in per cent, on either axis, in words and in bars", () => {
    const { data, layout, alt } = figures.lines({
      x: { title: "Clogged share", unit: "%", values: [0, 0.25] },
      y: { title: "Survival", unit: "%" },
      curves: [{ name: "roach", values: [0.9, 0.8] }],
    });
    expect(data[0]).toMatchObject({ x: [0, 25], y: [90, 80] });
    expect(layout).toMatchObject({ xaxis: { title: { text: "Clogged share [%]" } } });
    expect(alt).toContain("roach: falls from 90 % at 0 % to 80 % at 25 %.");
    const series = [{ name: "survival", values: [0.5] }];
    const bars = figures.bars({
      x: { title: "Species", categories: ["ide"] },
      y: { title: "Share", unit: "%" },
      series,
    });
    expect(bars.data[0].y).toEqual([50]);
  });

  test("marks values of both axes with a line and a text in the axis' unit, inside its range, and says so", () => {
    const { layout, alt } = figures.lines({
      x,
      y,
      curves: [{ name: "normal", values: [0.1, 0.3, 0.5] }],
      marks: [
        { axis: "x", at: Math.PI / 4, text: "rack" },
        { axis: "y", at: 0.8, text: "limit" },
      ],
    });
    expect(layout.shapes).toMatchObject([
      { x0: expect.closeTo(45, 9), yref: "paper" },
      { y0: 80, y1: 80, xref: "paper" },
    ]);
    expect(layout.annotations).toMatchObject([{ text: "rack" }, { text: "limit", y: 80 }]);
    expect((layout.yaxis as { range: number[] }).range[1]).toBeGreaterThan(80);
    expect(alt).toMatch(/to 50 cm\/s at 90°\. Marked: rack at 45° and limit at 80 cm\/s\.$/);
  });

  test("leaves its axes to find their own range where nothing is marked", () => {
    const { layout } = figures.lines({ x, y, curves: [{ name: "v", values: [1, 2, 3] }] });
    expect(layout.xaxis).not.toHaveProperty("range");
    expect(layout).not.toHaveProperty("shapes");
  });

  test("marks a level even where no curve has a value, and refuses a mark that is no number", () => {
    const none = { x, y, curves: [{ name: "v", values: [Number.NaN, Number.NaN, Number.NaN] }] };
    expect(
      figures.lines({ ...none, marks: [{ axis: "x", at: 0.1, text: "here" }] }).layout.yaxis,
    ).toMatchObject({
      range: [0, 1],
    });
    expect(() => figures.lines({ ...none, marks: [{ axis: "y", at: Number.NaN, text: "limit" }] })).toThrow(
      'figures.lines: mark "limit" is at NaN; it must be a finite number.',
    );
  });

  test("draws what lies outside a tested range apart, joined to the rest, and names it in the legend", () => {
    const { data, alt } = figures.lines({
      x,
      y,
      curves: [{ name: "normal", values: [0.1, 0.3, 0.5], tested: [true, true, false] }],
    });
    expect(data.map(({ y: values }) => values)).toEqual([[10, 30, null], [null, 30, 50], [null]]);
    expect(data[1]).toMatchObject({ showlegend: false, line: { dash: "dot" } });
    expect(data[2]).toMatchObject({ name: "outside tested range" });
    expect(alt).toMatch(/partly outside its tested range\.$/);
  });

  test("draws points outside a tested range with open markers, not joined", () => {
    const { data } = figures.lines({
      x,
      y,
      curves: [{ name: "normal", values: [0.1, 0.3, 0.5], tested: [true, true, false] }],
      drawn: "points",
    });
    expect(data[1]).toMatchObject({ y: [null, null, 50], marker: { symbol: "circle-open" } });
  });

  test("says in its alt text how each curve runs", () => {
    expect(run([0.1, 0.2, 0.5])).toContain("v: rises from 10 cm/s at 0° to 50 cm/s at 90°.");
    expect(run([0.5, 0.2, 0.1])).toContain("v: falls from 50 cm/s at 0° to 10 cm/s at 90°.");
    expect(run([0.5, 0.2, 0.4])).toContain("is lowest with 20 cm/s at 45°");
    expect(run([0.1, 0.6, 0.4])).toContain("is highest with 60 cm/s at 45°");
    expect(run([0.3, 0.3, 0.3])).toContain("v: stays at 30 cm/s.");
    expect(run([Number.NaN, 0.3, Number.NaN])).toContain("v: is 30 cm/s at 45°.");
    expect(run([Number.NaN, Number.NaN, Number.NaN])).toContain("v: has no value.");
  });

  test("makes a gap of a number that is not finite", () => {
    const { data } = figures.lines({ x, y, curves: [{ name: "v", values: [0.1, Number.NaN, 0.3] }] });
    expect(data[0].y).toEqual([10, null, 30]);
  });

  test("takes typed arrays and gives lists", () => {
    const { data } = figures.lines({ x, y, curves: [{ name: "v", values: Float64Array.of(0.25, 0.5, 1) }] });
    expect(data[0].y).toEqual([25, 50, 100]);
  });

  test("shows markup in a name word for word", () => {
    const { data } = figures.lines({ x, y, curves: [{ name: "v < <b>1</b> & more", values: [1, 2, 3] }] });
    expect(data[0].name).toBe("v &lt; &lt;b&gt;1&lt;/b&gt; &amp; more");
  });

  test("breaks a long name between words, so that the legend stays beside its sample", () => {
    const name = "guided fish and fish that refused survive each at their own rate, which is assumed";
    const [line] = figures.lines({ x, y, curves: [{ name, values: [1, 2, 3] }] }).data;
    expect(line.name).toBe(
      "guided fish and fish that refused survive each at their<br>own rate, which is assumed",
    );
  });

  test("refuses a curve of another length, naming it and both lengths", () => {
    expect(() => figures.lines({ x, y, curves: [{ name: "v", values: [1] }] })).toThrow(
      'figures.lines: curve "v" has 1 value; it must have 3, one for each place on the x axis.',
    );
    expect(() => figures.lines({ x, y, curves: [{ name: "v", values: [1, 2, 3], tested: [true] }] })).toThrow(
      'curve "v", tested, has 1 value',
    );
  });

  test("refuses to draw nothing", () => {
    expect(() => figures.lines({ x, y, curves: [] })).toThrow("figures.lines: curves is empty");
  });

  test("gives neighbours different colours, dashes and lightness", () => {
    const curves = Array.from({ length: 9 }, (_, i) => ({ name: `curve ${i}`, values: [i, i, i] }));
    const styles = figures.lines({ x, y, curves }).data.map(({ line }) => JSON.stringify(line));
    expect(new Set(styles).size).toBe(9);
  });

  test("makes the picture taller where the legend takes more than two rows", () => {
    expect(pictureHeight(2)).toBe(430);
    expect(pictureHeight(7)).toBeGreaterThan(pictureHeight(4));
  });
});

describe("bars", () => {
  const input = {
    x: { title: "Species", categories: ["roach", "ide"] },
    y: { title: "Survival", unit: "" },
    series: [{ name: "survival", values: [0.9, 0.8] }],
  };
  test("states every bar in its alt text", () => {
    expect(figures.bars(input).alt).toBe("Survival for each species. survival: roach 0.9, ide 0.8.");
  });
  test("stacks where told", () => {
    expect(figures.bars({ ...input, stacked: true }).layout.barmode).toBe("stack");
    expect(figures.bars(input).layout.barmode).toBe("group");
  });
  test("breaks long categories between words, so that they need not be turned", () => {
    const categories = ["round nose and tail", "sharp rectangle", "rod", "lens", "tapered", "other", "none"];
    const [bar] = figures.bars({
      ...input,
      x: { title: "Bar shape", categories },
      series: [{ name: "s", values: categories.map(() => 1) }],
    }).data;
    expect(bar.x).toEqual([
      "round nose<br>and tail",
      "sharp<br>rectangle",
      "rod",
      "lens",
      "tapered",
      "other",
      "none",
    ]);
  });
  test("refuses a value that is not finite, naming it", () => {
    expect(() => figures.bars({ ...input, series: [{ name: "s", values: [1, Number.NaN] }] })).toThrow(
      'figures.bars: series "s"[1] is NaN; it must be a finite number.',
    );
  });
});

describe("flowDuration", () => {
  const record = { flows: [10, 30, 20], exceedance: [0.75, 0.25, 0.5] };
  test("ranks the flows and reads the time in which a mark is reached between its neighbours", () => {
    const { data, alt } = figures.flowDuration({
      ...record,
      marks: [{ name: "design discharge", flow: 25 }],
    });
    expect(data[0]).toMatchObject({ x: [25, 50, 75], y: [30, 20, 10] });
    expect(data[1]).toMatchObject({ x: [37.5], y: [25] });
    expect(alt).toBe(
      "Flow duration curve: flow falls from 30 m³/s, reached 25 % of the time, to 10 m³/s, reached 75 % of the time; " +
        "design discharge 25 m³/s is reached 37.5 % of the time.",
    );
  });
  test("says that a flow above the record is never reached and one below it always", () => {
    const marks = [
      { name: "flood", flow: 99 },
      { name: "trickle", flow: 1 },
    ];
    const { alt } = figures.flowDuration({ ...record, marks });
    expect(alt).toContain(
      "flood 99 m³/s is reached 0 % of the time and trickle 1 m³/s is reached 100 % of the time",
    );
  });
  test("turns to a logarithmic axis where the flows span more than a factor of ten, and not with a flow of 0", () => {
    expect(figures.flowDuration(record).layout.yaxis).not.toHaveProperty("type");
    expect(figures.flowDuration({ ...record, flows: [1, 30, 20] }).layout.yaxis).toMatchObject({
      type: "log",
    });
    expect(figures.flowDuration({ ...record, flows: [0, 30, 20] }).layout.yaxis).not.toHaveProperty("type");
  });
  test("refuses flows and shares that do not pair", () => {
    expect(() => figures.flowDuration({ flows: [1, 2], exceedance: [0.5] })).toThrow(
      "exceedance has 1 value; it must have 2",
    );
    expect(() => figures.flowDuration({ flows: [], exceedance: [] })).toThrow("flows is empty");
  });
});

describe("headLossAgainst", () => {
  const curves = [
    {
      title: "own",
      headLoss: [0.01, 0.02, 0.03],
      forHorizontalBars: true,
      testedRangeKnown: true,
      withinTestedRange: [true, true, true],
    },
    {
      title: "other",
      headLoss: [0.02, 0.03, 0.04],
      forHorizontalBars: false,
      testedRangeKnown: true,
      withinTestedRange: [true, false, false],
    },
    {
      title: "unread",
      headLoss: [0.03, 0.03, 0.05],
      forHorizontalBars: true,
      testedRangeKnown: false,
      withinTestedRange: [false, false, false],
    },
  ];
  test("marks an equation meant for another bar orientation by a sign, a thin line and a note", () => {
    const { data, layout, alt } = figures.headLossAgainst({ x, curves: curves.slice(0, 2) });
    expect(data.map(({ name }) => name)).toEqual([
      "own",
      "other*",
      "other*, outside tested range",
      "outside tested range",
    ]);
    expect(data[0]).toMatchObject({ line: { width: 3 }, y: [1, 2, 3] });
    expect(data[1]).toMatchObject({ line: { width: 1.5 } });
    expect(JSON.stringify(layout.xaxis)).toContain("meant for another bar orientation");
    expect(alt).toContain(
      "other (meant for another bar orientation): rises from 2 cm at 0° to 4 cm at 90°; partly outside",
    );
  });
  test("calls a curve of which no tested range is known neither tested nor untested, in legend and words", () => {
    const { data, alt } = figures.headLossAgainst({ x, curves: [curves[2]] });
    expect(data.map(({ name }) => name)).toEqual(["unread†", "† no tested range known"]);
    expect(data[0].y).toEqual([3, 3, 5]);
    expect(alt).toContain("unread (meant for horizontal bars, no tested range known): ");
    expect(alt).not.toContain("outside");
  });
  test("has no note where all equations are meant for horizontal bars, no dagger where all ranges are known", () => {
    const { data, layout } = figures.headLossAgainst({ x, curves: [curves[0]] });
    expect(JSON.stringify(layout.xaxis)).not.toContain("orientation");
    expect(JSON.stringify(data)).not.toContain("†");
  });
  test("draws what sweepLosses returns as it comes", () => {
    const values = [u.deg(40), u.deg(60), u.deg(90)];
    const rack = {
      barThickness: u.mm(8),
      clearSpacing: u.mm(18),
      rackAngle: u.deg(38),
      approachVelocity: u.mps(0.56),
    };
    const sweep = rackLoss.sweepLosses(rack, "rackAngle", values);
    const { data } = figures.headLossAgainst({ x: { ...x, values }, curves: sweep });
    const horizontal = data.find(({ name }) => name === "Horizontal bars, approximate†");
    expect(horizontal?.y).toEqual(
      sweep.find(({ forHorizontalBars }) => forHorizontalBars)?.headLoss.map((loss) => 100 * loss),
    );
    expect(data.map(({ name }) => name)).toContain("Kirschmer*");
  });
});

describe("protectionCurve", () => {
  const curve = { relativeWidth: [0, 0.5, 1], curves: [{ name: "ramp", protection: [0, 0.4, 1] }] };
  test("draws measured points with their intervals and states them", () => {
    const { data, alt } = figures.protectionCurve({
      ...curve,
      points: [{ name: "roach", values: [{ relativeWidth: 0.5, protection: 0.5, interval: [0.25, 0.75] }] }],
    });
    expect(data[1]).toMatchObject({ x: [0.5], y: [0.5], error_y: { array: [0.25], arrayminus: [0.25] } });
    expect(alt).toBe(
      "Protection against relative width. ramp: rises from 0 at 0 to 1 at 1, one half by 1. roach: 0.5 at 0.5.",
    );
  });
  test("says where a curve reaches one half, unless it starts there", () => {
    const curves = [
      { name: "early", protection: [0, 0.6, 1] },
      { name: "high", protection: [0.7, 0.8, 1] },
    ];
    const { alt } = figures.protectionCurve({ relativeWidth: [0, 0.5, 1], curves });
    expect(alt).toContain("early: rises from 0 at 0 to 1 at 1, one half by 0.5.");
    expect(alt).toContain("high: rises from 0.7 at 0 to 1 at 1.");
  });
  test("marks where the body is as wide as the gap, and the threshold where there is one", () => {
    expect(notes(figures.protectionCurve(curve))).toEqual(["as wide as the gap"]);
    const withThreshold = figures.protectionCurve({ ...curve, threshold: 0.25 });
    expect(notes(withThreshold)).toEqual(["threshold 0.25", "as wide as the gap"]);
  });
});

describe("turbineSurvival", () => {
  const curves = [
    { title: "regression", survival: [0.95, 0.85, 0.05], tolerance: 0.1 },
    { title: "strike", survival: [0.9, 0.8, 0.7] },
  ];
  const lengths = [0.1, 0.3, 0.6];
  test("shows a curve's tolerance as a band that ends at 0 and 1, and only that curve's", () => {
    const { data, alt } = figures.turbineSurvival({ totalLength: lengths, curves });
    const band = (data[0].y as number[]).map((value) => Math.round(100 * value) / 100);
    expect(band).toEqual([1, 0.95, 0.15, 0, 0.75, 0.85]);
    expect(data.slice(1).map(({ name }) => name)).toEqual(["regression ± 0.1", "strike"]);
    expect(alt).toContain("regression ± 0.1: falls from 0.95 at 10 cm");
    expect(alt).toMatch(/Bands show the tolerance\.$/);
  });
  test("speaks of no band where there is none", () => {
    const { alt } = figures.turbineSurvival({ totalLength: lengths, curves: [curves[1]] });
    expect(alt).not.toContain("Bands");
  });
  test("draws what survivalByLength returns as it comes, its untested lengths apart", () => {
    const totals = lengths.map(u.m);
    const strike = turbine.survivalByLength({
      model: "kaplanStrike",
      unit: kaplanUnit,
      correlation: 0.3,
      lengths: totals,
    });
    const { data } = figures.turbineSurvival({ totalLength: totals, curves: [strike] });
    expect(data.map(({ name, y: shares }) => [name, shares])).toEqual([
      ["Kaplan strike, correlation 0.3", [null, null, null]],
      ["Kaplan strike, correlation 0.3, outside tested range", [...strike.survival]],
      ["outside tested range", [null]],
    ]);
  });
  test("refuses a tolerance that is not a share, naming its curve", () => {
    const wrong = [{ ...curves[0], tolerance: 10 }];
    expect(() => figures.turbineSurvival({ totalLength: lengths, curves: wrong })).toThrow(
      'figures.turbineSurvival: curve "regression", tolerance, is 10; it must be from 0 to 1.',
    );
  });
  test("shows an estimate above 1 instead of cutting it off", () => {
    const { layout } = figures.turbineSurvival({
      totalLength: lengths,
      curves: [{ title: "estimate", survival: [1.2, 1, 0.9] }],
    });
    expect((layout.yaxis as { range: number[] }).range[1]).toBeGreaterThan(1.2);
  });
});

describe("totalSurvival", () => {
  test("marks every minimum and states it with its length, in the legend and in words", () => {
    const { data, layout, alt } = figures.totalSurvival({
      totalLength: [0.1, 0.2, 0.3, 0.4, 0.5],
      curves: [
        {
          name: "18 mm",
          totalSurvival: [0.9, 0.71, 0.95, 0.6, 1],
          minima: [
            { totalLength: 0.2, totalSurvival: 0.71 },
            { totalLength: 0.4, totalSurvival: 0.6 },
          ],
        },
        { name: "40 mm", totalSurvival: [0.9, 0.8, 0.7, 0.6, 0.5], minima: [] },
      ],
      barrierLength: 0.18,
    });
    expect(data[2]).toMatchObject({ mode: "markers", x: [20, 40], y: [0.71, 0.6] });
    expect(data[0].name).toBe("18 mm: minimum 0.71 at 200 mm and 0.6 at 400 mm");
    expect(data[1].name).toBe("40 mm: no minimum");
    expect(layout).toMatchObject({ showlegend: true, annotations: [{ text: "barrier length 180 mm" }] });
    expect(alt).toBe(
      "Total survival against total length for 18 mm and 40 mm. 18 mm: local minima 0.71 at 200 mm and 0.6 at 400 mm. " +
        "40 mm: no local minimum; falls from 0.9 at 100 mm to 0.5 at 500 mm. Fish from 180 mm are as wide as the gap.",
    );
  });
  test("has its legend with one curve too, for its minimum", () => {
    const { layout, data } = figures.totalSurvival({ totalLength, curves: [survivalCurve(0.018)] });
    expect(layout.showlegend).toBe(true);
    expect(data[0].name).toMatch(/^18 mm: minimum 0\.84 at \d/);
  });
  test("takes results of bySizeClass and localMinima as they come, with a name", () => {
    const lengths = [0.1, 0.12, 0.15, 0.2, 0.3].map(u.m);
    const laws = {
      bodyRatio: 0.1,
      protection: protection.rampLaw({ threshold: 0.2, exponent: 1 }),
      turbineSurvival: (length: number) => 1 - length,
      protectedSurvival: 0.98,
    };
    const clearSpacing = u.mm(18);
    const [one] = survival.bySizeClass({ ...laws, clearSpacings: [clearSpacing], lengths });
    const found = survival.localMinima({ ...laws, clearSpacing, shortest: u.mm(30), longest: u.mm(400) });
    const { data } = figures.totalSurvival({
      totalLength: lengths,
      curves: [{ name: "18 mm", ...one, ...found }],
    });
    expect(data[0].y).toEqual([...one.totalSurvival]);
    expect(data[1]).toMatchObject({
      x: [100 * found.minima[0].totalLength],
      y: [found.minima[0].totalSurvival],
    });
  });
});

describe("lengthFrequency", () => {
  const counts = [
    { species: "roach", numbers: [30, 12] },
    { species: "ide", numbers: [0, 8] },
  ];
  test("places bars over their classes and counts the fish in words", () => {
    const { data, alt } = figures.lengthFrequency({ classEdges: [0, 0.1, 0.3], counts });
    expect(data[0]).toMatchObject({ x: [5, 20], width: [10, 20], y: [30, 12] });
    expect(alt).toBe(
      "Length frequency of 50 fish: roach 42 and ide 8. Most fish, 30, are from 0 cm to 10 cm long.",
    );
  });
  test("draws survival on an axis of its own that shows how it changes", () => {
    const onTop = { name: "survival", totalLength: [0, 0.3], survival: [0.9, 0.8] };
    const { data, layout, alt } = figures.lengthFrequency({
      classEdges: [0, 0.1, 0.3],
      counts,
      survival: onTop,
    });
    expect(data.at(-1)).toMatchObject({ yaxis: "y2", y: [0.9, 0.8] });
    const { overlaying, range } = layout.yaxis2 as { overlaying: string; range: [number, number] };
    expect(overlaying).toBe("y");
    expect(range[0]).toBeGreaterThan(0.5);
    expect(range[0]).toBeLessThan(0.8);
    expect(range[1]).toBeGreaterThan(0.9);
    expect(alt).toContain("survival: falls from 0.9 at 0 cm to 0.8 at 30 cm.");
  });
  test("refuses edges that do not rise, naming the place", () => {
    expect(() => figures.lengthFrequency({ classEdges: [0, 0.2, 0.1], counts })).toThrow(
      "classEdges[2] is 0.1 m; it must be above the edge before it, 0.2 m.",
    );
    expect(() => figures.lengthFrequency({ classEdges: [0], counts })).toThrow("one class takes two");
  });
});

describe("layoutPlan", () => {
  test("states the parts of the velocity and the rack's length", () => {
    const { alt } = figures.layoutPlan({ channelWidth: 17, rackAngle: Math.PI / 4, approachVelocity: 0.6 });
    expect(alt).toBe(
      "Plan of a channel 17 m wide with a rack at 45° to the flow, 24 m long, the bypass at its downstream end. " +
        "Of the approach velocity 0.6 m/s, 0.424 m/s is normal to the rack and 0.424 m/s runs along it.",
    );
  });
  test("draws both axes to one scale, and the parts so that they add up to the whole", () => {
    const { layout } = figures.layoutPlan({ channelWidth: 17, rackAngle: 0.7, approachVelocity: 0.6 });
    expect(layout).toMatchObject({ yaxis: { scaleanchor: "x" } });
    const arrows = (layout.annotations as Record<string, number>[]).filter(
      ({ axref }) => axref !== undefined,
    );
    const steps = arrows.map(({ x: tip, ax, y: height, ay }) => [tip - ax, height - ay]);
    const [normal, tangential, whole] = steps;
    expect(normal[0] + tangential[0]).toBeCloseTo(whole[0], 10);
    expect(normal[1] + tangential[1]).toBeCloseTo(whole[1], 10);
    expect(normal[0] * tangential[0] + normal[1] * tangential[1]).toBeCloseTo(0, 10);
  });
  test("draws no arrow along a rack that stands square to the flow", () => {
    const { layout, alt } = figures.layoutPlan({
      channelWidth: 17,
      rackAngle: Math.PI / 2,
      approachVelocity: 0.6,
    });
    const arrows = (layout.annotations as Record<string, unknown>[]).filter(
      ({ axref }) => axref !== undefined,
    );
    expect(arrows).toHaveLength(2);
    expect(alt).toContain("0 m/s runs along it");
  });
  test.each([
    [{ channelWidth: 0 }, "channelWidth is 0 m; it must be above 0 m"],
    [{ approachVelocity: Number.NaN }, "approachVelocity is NaN m/s; it must be above 0 m/s"],
    [{ rackAngle: 2 }, "rackAngle is 115°; a plan can be drawn from 5° to 90°"],
  ])("refuses %o in a sentence", (change, message) => {
    const input = { channelWidth: 17, rackAngle: 0.7, approachVelocity: 0.6, ...change };
    expect(() => figures.layoutPlan(input)).toThrow(message);
  });
});
