import { describe, expect, test } from "vitest";
import { chain } from "../../kernel-helpers/src";

const plants = [
  { plant: "top", next: "mid", entering: 500, survival: 0.4 },
  { plant: "mid", next: "low", entering: 1000, survival: 0.7, reachMortality: 0.2 },
  { plant: "low", entering: 4000, survival: 0.8 },
];
const options = [
  { plant: "top", survival: 0.95, cost: 1 },
  { plant: "mid", survival: 0.95, cost: 2, option: "fine bars" },
  { plant: "low", survival: 0.9, cost: 6 },
];

describe("chain.refits", () => {
  test("ranks by fish at the sea, not by the worst plant", () => {
    const rows = chain.refits({ plants, options });
    // By hand: low 0.1 · (4000 + 0.8 · 0.7 · 1200) = 467.2; mid 0.25 · 1200 · 0.8 · 0.8 = 192; top 0.55 · 500 · 0.7 · 0.64 = 123.2.
    expect(rows.map(({ plant, gain }) => [plant, Number(gain.toFixed(9))])).toEqual([
      ["low", 467.2],
      ["mid", 192],
      ["top", 123.2],
    ]);
    expect(rows[1]).toMatchObject({ option: "fine bars", survivalNow: 0.7, survivalThen: 0.95 });
    expect(rows[0].gainShare).toBeCloseTo(467.2 / 5500, 12);
  });

  test("by cost, the cheap refit of a small stock may come first", () => {
    const rows = chain.refits({ plants, options, by: "gainPerCost" });
    expect(rows.map(({ plant }) => plant)).toEqual(["top", "mid", "low"]);
    expect(rows[0].gainPerCost).toBeCloseTo(123.2, 9);
  });

  test("a gain that costs nothing comes first, a loss last", () => {
    const rows = chain.refits({
      plants,
      by: "gainPerCost",
      options: [
        ...options,
        { plant: "mid", option: "free", survival: 0.71, cost: 0 },
        { plant: "low", option: "worse", survival: 0.7, cost: 0 },
      ],
    });
    expect(rows.map(({ plant, survivalThen }) => [plant, survivalThen])).toEqual([
      ["mid", 0.71],
      ["top", 0.95],
      ["mid", 0.95],
      ["low", 0.9],
      ["low", 0.7],
    ]);
  });

  test("counts only fish that start: without any, a gain is 0 and has no share", () => {
    const [row] = chain.refits({
      plants: [{ plant: "A", survival: 0.5 }],
      options: [{ plant: "A", survival: 1 }],
    });
    expect(row.gain).toBe(0);
    expect(row.gainShare).toBeUndefined();
  });

  test.each([
    [{ options: [] }, "options is empty"],
    [
      { options: [{ plant: "Mid", survival: 1 }] },
      'an option is for plant "Mid"; the plants are top, mid, low',
    ],
    [{ options: [{ plant: "mid", survival: 1, cost: -2 }] }, 'cost of option "refit" of plant "mid" is -2'],
    [
      { options: [{ plant: "mid", survival: 1 }], by: "gainPerCost" as const },
      'option "refit" of plant "mid" has no cost',
    ],
    [{ options: [{ plant: "mid" }] }, 'option "refit" of plant "mid" has neither a survival nor routes'],
    [{ options: [options[0], options[0]] }, 'option "refit" of plant "top" stands twice'],
  ])("refuses %j", (change, sentence) => {
    expect(() => chain.refits({ plants, ...change })).toThrow(sentence);
  });
});

describe("chain.refitsInTurn", () => {
  test("judges each change in the river that the earlier ones have left", () => {
    const steps = chain.refitsInTurn({ plants, options });
    expect(steps.map(({ plant }) => plant)).toEqual(["low", "mid", "top"]);
    // By hand: everything refitted, 0.9 · (4000 + 0.8 · 0.95 · (1000 + 0.95 · 500)).
    const last = 0.9 * (4000 + 0.76 * 1475);
    expect(steps[2].survivors).toBeCloseTo(last, 9);
    expect(steps[2].survival).toBeCloseTo(last / 5500, 12);
    expect(steps.map(({ spent }) => spent)).toEqual([6, 8, 9]);
    // The refit above gains more once those below are done.
    expect(steps[2].gain).toBeGreaterThan(123.2);
  });

  test("keeps to the budget and stops where nothing gains", () => {
    const within = chain.refitsInTurn({ plants, options, budget: 7 });
    expect(within.map(({ plant, spent }) => [plant, spent])).toEqual([
      ["low", 6],
      ["top", 7],
    ]);
    expect(chain.refitsInTurn({ plants, options: [{ plant: "low", survival: 0.8 }] })).toEqual([]);
    const cents = [
      { plant: "low", survival: 1, cost: 0.1 },
      { plant: "mid", survival: 1, cost: 0.2 },
    ];
    expect(chain.refitsInTurn({ plants, options: cents, budget: 0.3 })).toHaveLength(2);
  });

  test("refits a plant once, with the better of its options", () => {
    const steps = chain.refitsInTurn({
      plants,
      options: [
        { plant: "low", option: "coarse", survival: 0.85 },
        { plant: "low", option: "fine", survival: 0.9 },
      ],
    });
    expect(steps.map(({ option, spent }) => [option, spent])).toEqual([["fine", undefined]]);
  });

  test("refuses a budget without costs and one below 0", () => {
    const free = [{ plant: "low", survival: 0.9 }];
    expect(() => chain.refitsInTurn({ plants, options: free, budget: 3 })).toThrow("a budget needs the cost");
    expect(() => chain.refitsInTurn({ plants, options, budget: -1 })).toThrow("budget is -1");
  });
});
