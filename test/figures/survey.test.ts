import { describe, expect, test } from "vitest";
import { figures, rack, survey, u } from "kernel-helpers";

const { builtRackQuestions: questions } = survey;

describe("answersByQuestion", () => {
  test("gives every sheet one fate in each question", () => {
    const cleaned = survey.clean(
      [
        { plantId: "A", bypass: "yes", bypassDischarge: "1 m3/s" },
        { plantId: "B", bypass: "no", bypassDischarge: "" },
        { plantId: "C", bypass: "yes", bypassDischarge: "5 kg" },
        { plantId: "D", bypass: "yes", bypassDischarge: "" },
      ],
      { questions: { bypass: questions.bypass, bypassDischarge: questions.bypassDischarge } },
    );
    const { data, alt } = figures.answersByQuestion({ responses: survey.nonResponse(cleaned) });
    expect(data.map(({ name, x }) => [name, x])).toEqual([
      ["answered", [4, 1]],
      ["set aside", [0, 1]],
      ["missing", [0, 1]],
      ["not due", [0, 1]],
    ]);
    expect(alt).toContain("Most often missing is bypass discharge, 1 of 3 due;");
  });

  test("refuses a survey without questions", () => {
    expect(() => figures.answersByQuestion({ responses: [] })).toThrow(/figures\.answersByQuestion: /);
  });
});

describe("histogram", () => {
  const x = { title: "Clear spacing", unit: "mm" } as const;
  const values = [10, 15, 15, 20, 30].map((value) => u.mm(value));

  test("counts a value on an edge in the class above, and on the last edge in the last class", () => {
    const edges = [10, 15, 20, 30].map((value) => u.mm(value));
    const { data, alt } = figures.histogram({ x, values, edges, counted: "plants" });
    expect(data[0].y).toEqual([1, 2, 2]);
    expect(alt).toBe(
      "Clear spacing of 5 plants. From 10 mm to 15 mm: 1; from 15 mm to 20 mm: 2; from 20 mm to 30 mm: 2.",
    );
  });

  test("says how many values lie outside its classes", () => {
    const edges = [12, 18].map((value) => u.mm(value));
    expect(figures.histogram({ x, values, edges, counted: "plants" }).alt).toContain(
      "3 lie outside these classes.",
    );
  });

  const draw = (edges: number[], given: number[] = values, at = 0.01) =>
    figures.histogram({ x, values: given, edges, counted: "plants", marks: [{ at, text: "median" }] });

  test("refuses edges that don't rise, missing values and a mark that is none", () => {
    expect(() => draw([0.02, 0.01])).toThrow("edges[1] is 0.01; it must be above the edge before it, 0.02.");
    expect(() => draw([0.01])).toThrow("edges has 1 edges; one class takes two.");
    expect(() => draw([0, 1], [Number.NaN])).toThrow(/figures\.histogram: values\[0\]/);
    expect(() => draw([0, 1], values, Number.NaN)).toThrow(
      'mark "median" is at NaN; it must be a finite number.',
    );
  });
});

describe("builtCombinations", () => {
  test("puts plants at one place into one spot, leaves out what is missing, and names empty classes", () => {
    const spacings = [u.mm(10), u.mm(10), undefined, u.mm(20)];
    const angles = [u.deg(30), u.deg(30), u.deg(50), u.deg(50)];
    const combinations = survey.combinations(
      { values: spacings, edges: [u.mm(5), u.mm(15), u.mm(25)] },
      { values: angles, edges: [u.deg(20), u.deg(40), u.deg(60)] },
    );
    const { data, layout, alt } = figures.builtCombinations({
      x: { title: "Clear spacing", unit: "mm", values: spacings },
      y: { title: "Rack angle", unit: "deg", values: angles },
      combinations,
    });
    expect(data[0]).toMatchObject({ x: [10, 20], customdata: [2, 1] });
    expect(layout.annotations).toHaveLength(2);
    expect(alt).toContain("Chance alone may have left each of them empty.");
  });
});

describe("modelScale", () => {
  const input = {
    channelWidth: u.m(12),
    waterDepth: u.m(2.4),
    discharge: u.m3ps(14),
    barThickness: u.mm(8),
    flume: { width: u.m(1.5), depth: u.m(0.8), discharge: u.Lps(300) },
  };
  const scales = rack.modelScales(input);

  test("draws what the formulas say at every scale", () => {
    const { data } = figures.modelScale({ scales, discharge: input.discharge });
    const [reynolds, flow] = data as readonly { readonly x: number[]; readonly y: number[] }[];
    const lengthScale = reynolds.x[30];
    const { approachVelocity } = scales;
    expect(reynolds.y[30]).toBeCloseTo(
      rack.modelBarReynolds({ approachVelocity, barThickness: u.mm(8), lengthScale }),
      6,
    );
    expect(flow.y[30]).toBeCloseTo(
      u.to.Lps(rack.toModel(lengthScale, { discharge: input.discharge }).discharge),
      6,
    );
  });

  test("says whether a scale meets all demands", () => {
    expect(figures.modelScale({ scales, discharge: 14 }).alt).toContain("No scale meets all demands.");
    const large = rack.modelScales({
      ...input,
      flume: { width: u.m(12), depth: u.m(3), discharge: u.m3ps(20) },
    });
    expect(figures.modelScale({ scales: large, discharge: 14 }).alt).toContain(
      "Scales between the two meet all demands.",
    );
  });

  test("refuses a range that is none and no discharge", () => {
    expect(() => figures.modelScale({ scales, discharge: 14, upTo: 0.5 })).toThrow(
      "figures.modelScale: upTo is 0.5;",
    );
    expect(() => figures.modelScale({ scales, discharge: 0 })).toThrow(
      "discharge is 0; it must be above 0 m³/s.",
    );
  });
});
