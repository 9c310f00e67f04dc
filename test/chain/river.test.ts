import { array, assert, double, nat, property, record } from "fast-check";
import { describe, expect, test } from "vitest";
import { chain, u } from "../../kernel-helpers/src";

const pair = [
  { plant: "upper", next: "lower", entering: 1000, survival: 0.9, reachMortality: 0.1 },
  { plant: "lower", entering: 500, survival: 0.8 },
];

describe("chain.river", () => {
  test("carries each plant's fish through the plant, the reach and all below", () => {
    const { plants, ...all } = chain.river({ plants: pair });
    // By hand: 1000 · 0.9 · 0.9 = 810 come to the lower plant, with 500 of its own; 0.8 of 1310 reach the sea.
    expect(all).toEqual({
      entering: 1500,
      survivors: 1048,
      survival: 1048 / 1500,
      lostAtPlants: 100 + 262,
      lostInReaches: 90,
      cautions: [expect.stringContaining("leave the chances at the next unchanged")],
    });
    expect(plants[1]).toMatchObject({ plant: "lower", next: undefined, arriving: 1310, leaving: 1048 });
    expect(plants[0].survivalToSea).toBeCloseTo(0.9 * 0.9 * 0.8, 12);
  });

  test("takes the plants in any order and lists each after those above it", () => {
    const { plants, survivors } = chain.river({ plants: pair.toReversed() });
    expect(plants.map(({ plant }) => plant)).toEqual(["upper", "lower"]);
    expect(survivors).toBe(1048);
  });

  test("joins tributaries where they name the same next plant, and adds up several mouths", () => {
    const { survivors, plants } = chain.river({
      plants: [
        { plant: "A", next: "C", entering: 100, survival: 0.5 },
        { plant: "B", next: "C", entering: 200, survival: 0.9 },
        { plant: "C", survival: 0.5 },
        { plant: "D", entering: 40, survival: 0.25, next: "" },
      ],
    });
    expect(plants.find(({ plant }) => plant === "C")?.arriving).toBe(230);
    expect(survivors).toBe(115 + 10);
  });

  test("weights routes by their shares and counts the fish of each", () => {
    const routes = chain.rackRoutes({
      spillFlowShare: 0.2,
      spillEffectiveness: 1.5,
      spillSurvival: 1,
      protection: 0.5,
      protectedSurvival: 0.9,
      turbineSurvival: 0.6,
    });
    const [plant] = chain.river({ plants: [{ plant: "A", entering: 1000, routes }] }).plants;
    // By hand: 300 over the spillway, 350 held with 35 lost, 350 through the turbine with 140 lost.
    expect(plant.routes.map(({ fish, lost }) => [fish, lost].map((one) => Number(one.toFixed(9))))).toEqual([
      [300, 0],
      [350, 35],
      [350, 140],
    ]);
    expect(plant.plantSurvival).toBeCloseTo(0.825, 12);
  });

  test("a reach takes the same share in each kilometre", () => {
    const [plant] = chain.river({
      plants: [{ plant: "A", entering: 1, survival: 1, reachLength: u.km(2), mortalityPerKilometre: 0.1 }],
    }).plants;
    expect(plant.reachSurvival).toBeCloseTo(0.81, 12);
  });

  test("loses or brings to the sea every fish that starts, in any river", () => {
    const share = double({ min: 0, max: 1, noNaN: true });
    const node = record({
      entering: nat(5000),
      survival: share,
      reachMortality: share,
      below: nat(),
    });
    assert(
      property(array(node, { minLength: 1, maxLength: 12 }), (nodes) => {
        // Each plant's next has a lower number, so no river of these has a loop.
        const plants = nodes.map(({ below, ...one }, at) => ({
          ...one,
          plant: `P${at}`,
          next: at === 0 ? undefined : `P${below % at}`,
        }));
        const { entering, survivors, lostAtPlants, lostInReaches, ...rest } = chain.river({ plants });
        expect(survivors + lostAtPlants + lostInReaches).toBeCloseTo(entering, 6);
        // The same survivors by another way: each plant's own fish times their chance to reach the sea.
        const byStart = rest.plants.reduce((sum, one) => sum + one.entering * one.survivalToSea, 0);
        expect(byStart).toBeCloseTo(survivors, 6);
      }),
    );
  });

  test("says nothing about survival where no fish start", () => {
    expect(chain.river({ plants: [{ plant: "A", survival: 0.9 }] }).survival).toBeUndefined();
  });

  test.each([
    [[], "plants is empty"],
    [
      [{ plant: "A", survival: 1, next: "B" }],
      'the next plant below "A" is "B", which is not in the list; add it',
    ],
    [[{ plant: "A", survival: 1, next: "A" }], "the river runs in a loop: A → A; the last plant"],
    [
      [
        { plant: "X", survival: 1, next: "A" },
        { plant: "A", survival: 1, next: "B" },
        { plant: "B", survival: 1, next: "A" },
      ],
      "the river runs in a loop: A → B → A",
    ],
    [
      [
        { plant: "A", survival: 1 },
        { plant: "A", survival: 1 },
      ],
      'there are two plants "A"',
    ],
    [[{ plant: " ", survival: 1 }], "a plant has no name"],
    [[{ plant: "A" }], 'plant "A" has neither a survival nor routes; give one of them'],
    [[{ plant: "A", survival: 1, routes: [] }], 'plant "A" has both a survival and routes'],
    [[{ plant: "A", survival: 1.2 }], 'survival of plant "A" is 1.2; it must be at least 0 and at most 1'],
    [
      [{ plant: "A", routes: [{ route: "turbine", share: 0.9, survival: 1 }] }],
      'the shares of the routes of plant "A" sum to 0.9; they must sum to 1 within 0.000001',
    ],
    [
      [{ plant: "A", routes: [{ route: "turbine", share: -0.1, survival: 1 }] }],
      'share of route "turbine" of plant "A" is -0.1',
    ],
    [[{ plant: "A", survival: 1, entering: -5 }], 'entering of plant "A" is -5; it must be at least 0'],
    [[{ plant: "A", survival: 1, reachMortality: 3 }], 'reachMortality of plant "A" is 3'],
    [
      [{ plant: "A", survival: 1, mortalityPerKilometre: 0.1 }],
      "has a mortalityPerKilometre and no reachLength",
    ],
    [
      [{ plant: "A", survival: 1, mortalityPerKilometre: 0.1, reachMortality: 0.1, reachLength: u.km(1) }],
      "has both a reachMortality and a mortalityPerKilometre",
    ],
  ])("refuses what is no river: %j", (plants, sentence) => {
    const attempt = () => chain.river({ plants });
    expect(attempt).toThrow(RangeError);
    expect(attempt).toThrow(`chain.river: ${sentence}`.slice(0, "chain.river: ".length));
    expect(attempt).toThrow(sentence);
  });
});

describe("chain.course", () => {
  const plants = [
    { ...pair[0], reachLength: u.km(5) },
    { ...pair[1], reachLength: u.km(7), reachMortality: 0.5 },
  ];

  test("follows the fish of one plant down to the sea, and counts all fish on the way", () => {
    const points = chain.course({ plants, from: "upper" });
    expect(points.map(({ place, plant }) => `${place} ${plant}`)).toEqual([
      "above upper",
      "below upper",
      "above lower",
      "below lower",
      "sea lower",
    ]);
    expect(points.map(({ distance }) => distance)).toEqual([0, 0, 5000, 5000, 12000]);
    expect(points.map(({ fish }) => fish)).toEqual([1000, 900, 1310, 1048, 524]);
    expect(points.at(-1)?.alive).toBeCloseTo(0.9 * 0.9 * 0.8 * 0.5, 12);
  });

  test("refuses a start that is not there and a reach without a length", () => {
    expect(() => chain.course({ plants, from: "Lower" })).toThrow(
      'from is "Lower"; the plants are upper, lower',
    );
    expect(() => chain.course({ plants: pair, from: "upper" })).toThrow('plant "upper" has no reachLength');
  });
});

describe("chain.rackRoutes", () => {
  const fates = { spillSurvival: 1, protection: 0.5, protectedSurvival: 0.9, turbineSurvival: 0.6 };

  test("gives shares that sum to 1, and agrees with total survival where nothing spills", () => {
    const routes = chain.rackRoutes({ ...fates, spillFlowShare: 0 });
    expect(routes.reduce((sum, { share, survival }) => sum + share * survival, 0)).toBeCloseTo(0.75, 12);
    const spilling = chain.rackRoutes({ ...fates, spillFlowShare: 0.6, spillEffectiveness: 3 });
    expect(spilling.map(({ share }) => share)).toEqual([1, 0, 0]);
  });

  test.each([
    [{ spillFlowShare: 1.1 }, "spillFlowShare is 1.1"],
    [{ spillFlowShare: 0.1, spillEffectiveness: -1 }, "effectiveness is -1"],
    [{ spillFlowShare: 0.1, spillSurvival: 2 }, "spillSurvival is 2"],
    [{ spillFlowShare: 0.1, protection: 40 }, "protection is 40"],
    [{ spillFlowShare: 0.1, turbineSurvival: Number.NaN }, "turbineSurvival is"],
  ])("refuses what is no share: %j", (change, sentence) => {
    expect(() => chain.rackRoutes({ ...fates, ...change })).toThrow(sentence);
  });
});
