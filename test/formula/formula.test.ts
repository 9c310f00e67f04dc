import { inspect } from "node:util";
import { describe, expect, test } from "vitest";
import { catalogue, rack, u } from "../../kernel-helpers/src";
import {
  defineFormula,
  derived,
  input,
  memory,
  practice,
  printSource,
  published,
  stated,
  usedFormulas,
} from "../../kernel-helpers/src/formula";
import { describeLimits, printValue } from "../../kernel-helpers/src/formula/input";

/** A formula of this test with every kind of option; it stands for none of the trade. */
const trial = defineFormula({
  id: "sample.everyOption",
  title: "A formula with every option",
  symbol: "y",
  result: "length",
  unit: "cm",
  inputs: {
    depth: input.length("h", { above: 0, unit: "cm", note: "below the water's surface" }),
    speed: input.velocity("U", { atLeast: 0, atMost: 10, tested: [0.2, 1.5] }),
    turn: input.angle("\\alpha", { below: u.deg(90), default: u.deg(45), tested: [u.deg(45), u.deg(60)] }),
    share: input.ratio("k", { below: 1, default: 0 }),
    bars: input.count("n", { default: 3 }),
    parts: input.ratios("p", { default: 0.5 }),
  },
  steps: {
    head: {
      title: "Velocity head",
      symbol: "h_v",
      result: "length",
      unit: "mm",
      tex: (q) => `\\frac{${q.speed}^2}{2g}`,
      evaluate: ({ speed }) => speed ** 2 / 19.62,
    },
  },
  tex: (q, steps) => `${q.depth}^{1.5} + ${steps.head}^{2}\\cdot ${q.bars}^2\\sin ${q.turn}(1 - ${q.share})`,
  source: derived("nothing: it serves this test"),
  refuse: ({ speed, depth }) =>
    speed > 5 && depth < 0.1 ? "speed is too high for so little depth." : undefined,
  caution: ({ share }) => (share > 0.5 ? ["more than half is blocked."] : []),
  evaluate: ({ depth, speed, bars }) => depth + (bars * speed ** 2) / 19.62,
});

const good = { depth: u.cm(50), speed: u.mps(0.6), parts: [0.5] };

describe("a formula", () => {
  test("answers in SI and fills defaults in", () => {
    expect(trial(good)).toBeCloseTo(0.5 + (3 * 0.36) / 19.62, 15);
    expect(trial({ ...good, bars: 4 })).toBeCloseTo(0.5 + (4 * 0.36) / 19.62, 15);
  });

  test("carries its topic, symbols, limits, source and equation", () => {
    expect({ ...trial }).toMatchObject({
      id: "sample.everyOption",
      topic: "sample",
      symbol: "y",
      unit: "cm",
    });
    expect(trial.inputs.speed).toMatchObject({
      kind: "velocity",
      symbol: "U",
      atLeast: 0,
      tested: [0.2, 1.5],
    });
    expect(trial.equation).toBe("y = h^{1.5} + h_v^{2}\\cdot n^2\\sin \\alpha(1 - k)");
    expect(trial.stepEquations).toEqual([{ title: "Velocity head", equation: "h_v = \\frac{U^2}{2g}" }]);
  });

  test("is noted as used when it is called, not when it is only read or evaluated in a loop", () => {
    const quiet = defineFormula({
      id: "sample.quiet",
      title: "Quiet",
      symbol: "y",
      result: "number",
      inputs: { x: input.number("x", {}) },
      tex: (q) => q.x,
      source: practice("none"),
      evaluate: ({ x }) => x,
    });
    quiet.evaluate({ x: 1 });
    quiet.cautions({ x: 1 });
    expect(usedFormulas()).not.toContain("sample.quiet");
    quiet({ x: 1 });
    expect(usedFormulas().filter((id) => id === "sample.quiet")).toHaveLength(1);
    quiet({ x: 2 });
    expect(usedFormulas().filter((id) => id === "sample.quiet")).toHaveLength(1);
  });

  test("does not change the inputs it is given", () => {
    const inputs = Object.freeze({ ...good, parts: Object.freeze([0.5]) });
    expect(() => trial(inputs)).not.toThrow();
  });
});

describe("a hard limit", () => {
  test.each([
    [
      { ...good, depth: u.cm(-5) },
      "sample.everyOption: depth is -5 cm; it must be above 0 cm (below the water's surface).",
    ],
    [
      { ...good, depth: u.cm(0) },
      "sample.everyOption: depth is 0 cm; it must be above 0 cm (below the water's surface).",
    ],
    [
      { ...good, speed: u.mps(12) },
      "sample.everyOption: speed is 12 m/s; it must be at least 0 m/s and at most 10 m/s.",
    ],
    [{ ...good, turn: u.deg(90) }, "sample.everyOption: turn is 90°; it must be below 90°."],
    [{ ...good, share: 1 }, "sample.everyOption: share is 1; it must be at least 0 and below 1."],
    [{ ...good, bars: 2.5 }, "sample.everyOption: bars is 2.5; it must be a whole number, at least 1."],
    [{ ...good, bars: 0 }, "sample.everyOption: bars is 0; it must be a whole number, at least 1."],
    [
      { ...good, parts: [0.5, 1.5] },
      "sample.everyOption: parts[1] is 1.5; it must be at least 0 and at most 1.",
    ],
    [
      { ...good, depth: u.cm(5), speed: u.mps(6) },
      "sample.everyOption: speed is too high for so little depth.",
    ],
  ])("throws a sentence with the value, what is allowed and the remedy", (inputs, sentence) => {
    expect(() => trial(inputs)).toThrow(new RangeError(sentence));
    expect(() => trial.cautions(inputs)).toThrow(sentence);
    expect(() => trial.lines(inputs)).toThrow(sentence);
  });

  test("prints more digits of a value just past it", () => {
    const inputs = { ...good, speed: u.mps(10.000000001) };
    expect(() => trial(inputs)).toThrow(
      "speed is 10.000000001 m/s; it must be at least 0 m/s and at most 10 m/s",
    );
  });
});

describe("a tested range", () => {
  test("cautions outside and stays silent inside and at its ends", () => {
    expect(trial.cautions(good)).toEqual([]);
    expect(trial.cautions({ ...good, speed: u.mps(0.2), turn: u.deg(60) })).toEqual([]);
    expect(trial.cautions({ ...good, speed: u.mps(1.6) })).toEqual([
      "sample.everyOption: speed is 1.6 m/s; its source tested 0.2 m/s to 1.5 m/s.",
    ]);
    expect(trial.tested(good)).toBe(true);
    expect(trial.tested({ ...good, speed: u.mps(1.6) })).toBe(false);
  });

  test("takes 45° in whatever way it was typed", () => {
    expect(trial.tested({ ...good, turn: u.rad(Math.PI / 4) })).toBe(true);
    expect(trial.tested({ ...good, turn: u.deg(180 / 4) })).toBe(true);
    expect(trial.tested({ ...good, turn: u.deg(44.9) })).toBe(false);
  });

  test("is apart from a formula's own cautions", () => {
    const inputs = { ...good, share: 0.6 };
    expect(trial.cautions(inputs)).toEqual(["sample.everyOption: more than half is blocked."]);
    expect(trial.tested(inputs)).toBe(true);
  });
});

describe("worked lines", () => {
  const [head, result] = trial.lines(good);

  test("show steps first, then the result, each with symbols, numbers and value", () => {
    expect(head).toEqual({
      title: "Velocity head",
      symbol: "h_v",
      equation: "\\frac{U^2}{2g}",
      numbers: "\\frac{\\left(0.6\\,\\mathrm{m/s}\\right)^2}{2g}",
      value: "18.35\\,\\mathrm{mm}",
    });
    expect(result.value).toBe("55.5\\,\\mathrm{cm}");
    expect(result.equation).toBe("h^{1.5} + h_v^{2}\\cdot n^2\\sin \\alpha(1 - k)");
  });

  test("bracket a number with a unit before an exponent, not a plain number or an angle's sign", () => {
    expect(result.numbers).toBe(
      "\\left(50\\,\\mathrm{cm}\\right)^{1.5} + \\left(18.35\\,\\mathrm{mm}\\right)^{2}\\cdot 3^2\\sin 45^\\circ(1 - 0)",
    );
  });

  test("bracket a negative number", () => {
    const negative = defineFormula({
      id: "sample.negative",
      title: "Negative",
      symbol: "y",
      result: "number",
      inputs: { x: input.number("x", {}) },
      tex: (q) => `1 - ${q.x}`,
      source: practice("none"),
      evaluate: ({ x }) => 1 - x,
    });
    expect(negative.lines({ x: -0.5 })[0].numbers).toBe("1 - \\left(-0.5\\right)");
  });

  test("leave no mark of their making in any formula's text", () => {
    const texts = catalogue
      .list()
      .flatMap((formula) => [formula.equation, ...formula.stepEquations.map((one) => one.equation)]);
    expect(texts.filter((text) => /[\uE000\uE001]|undefined|NaN/.test(text))).toEqual([]);
  });
});

describe("the catalogue", () => {
  test("lists formulas by topic, in the order of their definition", () => {
    expect(catalogue.list("rack").map(({ id }) => id)).toContain("rack.sweepTime");
    expect(catalogue.list("rack").every(({ topic }) => topic === "rack")).toBe(true);
    expect(catalogue.topics()).toEqual(expect.arrayContaining(["river", "rack", "rackLoss"]));
    expect(catalogue.list()).toHaveLength(
      catalogue.topics().flatMap((topic) => catalogue.list(topic)).length,
    );
  });

  test("gives a formula by its id", () => {
    expect(catalogue.get("sample.everyOption")).toBe(trial);
  });

  test("refuses an unknown id with those of its topic, an unknown topic with those there are", () => {
    expect(() => catalogue.get("rack.lenght")).toThrow(
      /there is no formula "rack\.lenght"; there are .*rack\.length/,
    );
    expect(() => catalogue.get("roof.length")).toThrow(
      /there is no formula "roof\.length"; there are the topics .*rack/,
    );
    expect(() => catalogue.list("roof")).toThrow(/there is no topic "roof"; the topics are .*rack/);
  });

  test.each(["rack.length", "length", "Rack.length", "rack.Length", "rack.loss.length", "rack. length"])(
    "refuses the id %s for another formula",
    (id) => {
      const again = () =>
        defineFormula({
          id,
          title: "Again",
          symbol: "y",
          result: "number",
          inputs: {},
          tex: () => "1",
          source: practice("none"),
          evaluate: () => 1,
        });
      expect(again).toThrow(`defineFormula: the id "${id}"`);
    },
  );

  test("prints a formula, evaluated in a cell, as its call and its title", () => {
    expect(inspect(rack.length)).toBe("rack.length({ channelWidth, rackAngle }): Length of the rack");
  });

  test("gives every formula a title, a symbol and a source with text", () => {
    const bare = catalogue.list().filter(({ title, symbol, source }) => !title || !symbol || !source.text);
    expect(bare.map(({ id }) => id)).toEqual([]);
  });

  test("gives no formula two inputs with one symbol", () => {
    const doubled = catalogue.list().filter(({ inputs }) => {
      const symbols = Object.values(inputs).map(({ symbol }) => symbol);
      return new Set(symbols).size !== symbols.length;
    });
    expect(doubled.map(({ id }) => id)).toEqual([]);
  });

  test("warns of a size that is not usual, as millimetres typed as metres give, and not of zero", () => {
    const gap = { clearSpacing: u.mm(18) };
    const { blockage } = rack;
    expect(blockage.cautions({ ...gap, barThickness: u.mm(8) })).toEqual([]);
    expect(blockage.cautions({ ...gap, barThickness: u.m(8) })).toEqual([
      "rack.blockage: bar thickness is 8000 mm; usual are 2 mm to 100 mm (common practice): look at its unit.",
    ]);
    const still = { approachVelocity: u.mps(0), rackAngle: u.deg(38) };
    expect(rack.normalVelocity.cautions(still)).toEqual([]);
    expect(rack.normalVelocity.cautions({ ...still, approachVelocity: u.mps(56) })).toHaveLength(1);
    expect(rack.normalVelocity.tested({ ...still, approachVelocity: u.mps(56) })).toBe(true);
  });

  test("keeps every tested and usual range and default within the hard limits", () => {
    const outside = catalogue.list().flatMap(({ id, inputs }) =>
      Object.entries(inputs)
        .filter(([, { above, atLeast, below, atMost, tested, usual, default: standard }]) =>
          [...(tested ?? []), ...(usual ?? []), ...(standard === undefined ? [] : [standard])].some(
            (value) =>
              value <= (above ?? -Infinity) ||
              value < (atLeast ?? -Infinity) ||
              value >= (below ?? Infinity) ||
              value > (atMost ?? Infinity),
          ),
        )
        .map(([name]) => `${id}.${name}`),
    );
    expect(outside).toEqual([]);
  });
});

describe("words of limits and sources", () => {
  test("describeLimits says only the limit that binds", () => {
    expect(describeLimits(input.ratio("k", {}))).toBe("at least 0 and at most 1");
    expect(describeLimits(input.ratio("k", { above: 0, below: 1 }))).toBe("above 0 and below 1");
    expect(describeLimits(input.number("k", {}))).toBe("any finite number");
    expect(describeLimits(input.count("n", {}))).toBe("a whole number, at least 1");
    expect(describeLimits(input.angle("a", { atMost: u.deg(90) }))).toBe("at most 90°");
  });

  test("printValue prints a value in the unit that its kind is shown in", () => {
    expect(printValue(0.018, "length", "mm")).toBe("18 mm");
    expect(printValue(0.6632251157578453, "angle")).toBe("38°");
    expect(printValue(0.31, "ratio")).toBe("0.31");
    expect(printValue(Number.NaN, "velocity")).toBe("NaN m/s");
  });

  test("a source carries its provenance mark", () => {
    expect(
      [
        published("A 1926"),
        memory("B 2002"),
        derived("continuity"),
        practice("a habit"),
        stated("our permit"),
      ].map(printSource),
    ).toEqual([
      "A 1926 (published)",
      "B 2002 (from memory, not re-read)",
      "continuity (derived)",
      "a habit (common practice, no source)",
      "our permit (stated by the reader)",
    ]);
  });
});
