import { describe, expect, test } from "vitest";
import * as monitoring from "../../kernel-helpers/src/monitoring";
import { singleRelease } from "../../kernel-helpers/src/statistics";
import { uniforms } from "../../kernel-helpers/src/statistics/random";
import { type Coverage, coverageOf, sets } from "./coverage";

const logit = (share: number): number => Math.log(share / (1 - share));
const expit = (value: number): number => 1 / (1 + Math.exp(-value));

/** Draws for one campaign. */
function drawsOf(seed: number) {
  const uniform = uniforms(seed);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const count = (trials: number, share: number): number => {
    let hits = 0;
    for (let one = 0; one < trials; one++) if (uniform() < share) hits++;
    return hits;
  };
  return { uniform, normal, count };
}

/** The share over many nights: that of the logit averaged over the nights' effects, by a fine sum. */
const overNights = (middle: number, nightSpread: number): number => {
  let [sum, weights] = [0, 0];
  for (let z = -6; z <= 6; z += 0.01) {
    const weight = Math.exp((-z * z) / 2);
    sum += weight * expit(middle + nightSpread * z);
    weights += weight;
  }
  return sum / weights;
};

/** Intervals of 95 % that held the truth in fewer than 90 or more than 99 % of the campaigns. */
const dishonest = (coverages: readonly Coverage[]): string[] =>
  coverages
    .filter(({ share }) => share < 0.9 || share > 0.99)
    .map(({ parameter, share }) => `${parameter}: ${share}`);
const shareOf = (coverages: readonly Coverage[], parameter: string): number =>
  coverages.find((one) => one.parameter === parameter)?.share ?? NaN;

const nightNames = (count: number): string[] => Array.from({ length: count }, (_, at) => `night ${at + 1}`);

describe("survival behind the turbine, eight nights with releases", () => {
  const survival = 0.9;
  const handling = 0.97;
  const efficiency = 0.8;
  const released = 50;

  /** One campaign; the options move it outside what the estimate takes for granted. */
  const campaign = (
    seed: number,
    {
      survivalSpread = 0,
      efficiencySpread = 0,
      deadFishHeld = 1,
    }: {
      readonly survivalSpread?: number;
      readonly efficiencySpread?: number;
      readonly deadFishHeld?: number;
    },
  ) => {
    const { normal, count } = drawsOf(seed);
    const nights = nightNames(8).map((night) => {
      const held = expit(logit(efficiency) + efficiencySpread * normal());
      const lived = expit(logit(survival) + survivalSpread * normal());
      const group = (share: number) => {
        const living = count(released, share);
        const alive = count(living, held);
        return { night, alive, caught: alive + count(released - living, held * deadFishHeld) };
      };
      return { treated: group(lived * handling), control: group(handling) };
    });
    const estimate = (denominator: "caught" | "released") => {
      const of = (name: "treated" | "control") =>
        nights.map((night) => ({
          night: night[name].night,
          alive: night[name].alive,
          fish: denominator === "caught" ? night[name].caught : released,
        }));
      return monitoring.relativeSurvival({ treated: of("treated"), control: of("control") });
    };
    return (["caught", "released"] as const).map((denominator) => ({
      parameter: `survival over fish ${denominator}`,
      truth: survival,
      ...estimate(denominator),
    }));
  };

  test("the truth lies in 90 to 99 % of the intervals, over fish caught and over fish released", () => {
    expect(dishonest(coverageOf("relative survival", (seed) => campaign(seed, {})))).toEqual([]);
  });

  test("turbines that kill more in one night than in another widen the intervals as they should", () => {
    const survivalSpread = 0.6;
    const truth = overNights(logit(survival), survivalSpread);
    expect(
      dishonest(
        coverageOf("relative survival, survival varying from night to night", (seed) =>
          campaign(seed, { survivalSpread }).map((one) => ({ ...one, truth })),
        ),
      ),
    ).toEqual([]);
  });

  test("nets that hold more in one night than in another leave both honest, for control fish meet the same net", () => {
    expect(
      dishonest(
        coverageOf("relative survival, gear efficiency varying from night to night", (seed) =>
          campaign(seed, { efficiencySpread: 0.6 }),
        ),
      ),
    ).toEqual([]);
  });

  test("where dead fish slip through the net, survival over fish caught comes out too high", () => {
    const coverage = coverageOf("relative survival, dead fish held half as readily as living ones", (seed) =>
      campaign(seed, { deadFishHeld: 0.5 }),
    );
    expect(shareOf(coverage, "survival over fish caught")).toBeLessThan(0.9);
    expect(shareOf(coverage, "survival over fish released")).toBeGreaterThanOrEqual(0.9);
  });
});

describe("fish that passed, from catch and gear efficiency", () => {
  const efficiency = 0.8;

  /** 24 nights of wild fish, releases on every third one; the efficiency of a night may differ from the others'. */
  const campaign = (seed: number, efficiencySpread: number) => {
    const { normal, count, uniform } = drawsOf(seed);
    let passed = 0;
    let caught = 0;
    const releases: { released: number; caught: number }[] = [];
    for (let night = 0; night < 24; night++) {
      const held = expit(logit(efficiency) + efficiencySpread * normal());
      const fish = Math.floor(5 + 40 * uniform());
      passed += fish;
      caught += count(fish, held);
      if (night % 3 === 0) releases.push({ released: 100, caught: count(100, held) });
    }
    const rows = releases.map((one, night) => ({ ...blankRow, ...one, night: `night ${night}` }));
    const gear = monitoring.gearEfficiency(rows, { net: "turbine" });
    const estimate = monitoring.correctedCatch({ caught, gearEfficiency: gear });
    return [
      { parameter: "gear efficiency", truth: efficiency, ...gear },
      { parameter: "fish that passed", truth: passed, ...estimate },
    ];
  };
  const blankRow = {
    catchId: "",
    plant: "Sorrel Lock",
    night: "",
    net: "turbine",
    group: "control",
    species: "roach",
  } as monitoring.CatchRow; // what the efficiency reads of a row; the rest it does not look at

  test("the truth lies in 90 to 99 % of the intervals", () => {
    expect(dishonest(coverageOf("corrected catch", (seed) => campaign(seed, 0)))).toEqual([]);
  });

  test("an efficiency that varies from night to night shows in the releases, and the intervals stay nearly honest", () => {
    const coverage = coverageOf("corrected catch, gear efficiency varying from night to night", (seed) =>
      campaign(seed, 0.6),
    );
    expect(shareOf(coverage, "gear efficiency")).toBeGreaterThan(0.85);
    expect(shareOf(coverage, "fish that passed")).toBeGreaterThan(0.85);
  });
});

describe("guidance and calibration over 24 nights", () => {
  const gear = {
    bypass: { estimate: 0.95, standardError: 0.008 },
    turbine: { estimate: 0.8, standardError: 0.015 },
  };
  const nightSpread = 0.4;
  const predictions = [0.2, 0.35, 0.5, 0.65, 0.8, 0.9];

  const cellsOf = (seed: number, bias: number): monitoring.CalibrationCell[] => {
    const { normal, count, uniform } = drawsOf(seed);
    // The nets of a campaign are known with an error, which is drawn once.
    const [bypass, turbine] = [gear.bypass, gear.turbine].map(
      ({ estimate, standardError }) => estimate + standardError * normal(),
    );
    return nightNames(24).flatMap((night) => {
      const effect = nightSpread * normal();
      const migration = Math.exp(0.6 * normal());
      return predictions.map((predicted, at) => {
        const share = expit(logit(predicted) + bias + effect);
        const passing = Math.floor(2 * 8 * migration * uniform());
        const bypassed = count(passing, share);
        const caught = count(bypassed, bypass);
        const missed = count(passing - bypassed, turbine);
        return { night, name: `class ${at}`, successes: caught, trials: caught + missed, predicted };
      });
    });
  };

  test("the guidance of those that passed, over nights, lies in 90 to 99 % of the intervals", () => {
    expect(
      dishonest(
        coverageOf("guidance of those that passed", (seed) => {
          const cells = cellsOf(seed, 0);
          return [1, 3, 5].map((at) => {
            const nights = cells
              .filter(({ name }) => name === `class ${at}`)
              .map(({ successes, trials }) => ({ bypass: successes, turbine: trials - successes }));
            const truth = overNights(logit(predictions[at]), nightSpread);
            return {
              parameter: `share ${predictions[at]}`,
              truth,
              ...monitoring.guidanceOfPassed({ nights, gear }),
            };
          });
        }),
      ),
    ).toEqual([]);
  });

  test("intercept and slope of an unbiased prediction lie in 90 to 99 % of the intervals, and so does a bias", () => {
    let [naive, respecting] = [0, 0];
    expect(
      dishonest(
        coverageOf("calibration", (seed) => {
          const { intercept, slope, asIndependent, respectingNights } = monitoring.calibration({
            cells: cellsOf(seed, 0),
            gear,
          });
          naive += asIndependent.pValue < 0.05 ? 1 : 0;
          respecting += respectingNights.pValue < 0.05 ? 1 : 0;
          if (slope === undefined) throw new Error("predictions differ, so there is a slope");
          const biased = monitoring.calibration({ cells: cellsOf(seed, -1.2), gear }).intercept;
          return [
            { parameter: "intercept", truth: 0, ...intercept },
            { parameter: "slope", truth: 1, ...slope },
            { parameter: "intercept of a prediction 1.2 too high", truth: -1.2, ...biased },
          ];
        }),
      ),
    ).toEqual([]);
    console.log(
      `calibration: an unbiased prediction is rejected at 5 % in ${naive} of ${sets} campaigns with fish as independent, in ${respecting} respecting nights`,
    );
    expect(naive / sets).toBeGreaterThan(0.1);
    expect(respecting / sets).toBeLessThan(0.09);
  });
});

describe("single release with two detectors", () => {
  const [survival, detection, onward] = [0.85, 0.8, 0.7];
  const released = 300;

  /** `spread` lets fish differ: one that keeps deep is seen less readily by both detectors. */
  const release = (seed: number, spread: number) => {
    const { uniform, normal } = drawsOf(seed);
    let [both, firstOnly, secondOnly] = [0, 0, 0];
    for (let fish = 0; fish < released; fish++) {
      if (uniform() >= survival) continue;
      const shy = spread * normal();
      const first = uniform() < expit(logit(detection) + shy);
      const second = uniform() < expit(logit(onward) + shy);
      if (first && second) both++;
      else if (first) firstOnly++;
      else if (second) secondOnly++;
    }
    const estimate = singleRelease({ released, both, firstOnly, secondOnly });
    return [
      { parameter: "survival", truth: survival, ...estimate.survival },
      { parameter: "detection", truth: detection, ...estimate.detection },
      { parameter: "onward", truth: onward, ...estimate.onward },
    ];
  };

  test("survival, detection and onward survival lie in 90 to 99 % of the intervals", () => {
    expect(dishonest(coverageOf("single release", (seed) => release(seed, 0)))).toEqual([]);
  });

  test("fish that both detectors see less readily make survival come out too low", () => {
    const coverage = coverageOf("single release, fish that differ in detection at both detectors", (seed) =>
      release(seed, 1.5),
    );
    expect(shareOf(coverage, "survival")).toBeLessThan(0.9);
  });
});
