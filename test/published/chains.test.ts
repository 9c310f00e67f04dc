import { describe, expect, test } from "vitest";
import { chain } from "../../kernel-helpers/src";

// The default of the Swedish eel management plan: 70 % of the eels die at each plant. The shares left are recomputed.
describe("a chain of equal plants at 70 % mortality", () => {
  test.each([
    [1, 0.3],
    [2, 0.09],
    [3, 0.027],
    [4, 0.0081],
  ])("%i plants leave %d", (count, left) => {
    const plants = Array.from({ length: count }, (_, at) => ({
      plant: `${at + 1}`,
      next: at + 1 < count ? `${at + 2}` : undefined,
      entering: at === 0 ? 1000 : 0,
      survival: 1 - 0.7,
    }));
    const { survival, plants: passed } = chain.river({ plants });
    expect(survival).toBeCloseTo(left, 12);
    expect(passed[0].survivalToSea).toBeCloseTo(left, 12);
  });
});

// Wilson, Giorgi & Stuehrenberg 1991, Can. J. Fish. Aquat. Sci. 48:1872: 20 % of the flow carries 41 % of the fish.
test("spill of measured effectiveness sends its share of the fish over the spillway", () => {
  const [spillway] = chain.rackRoutes({
    spillFlowShare: 0.2,
    spillEffectiveness: 2.05,
    spillSurvival: 1,
    protection: 0,
    protectedSurvival: 1,
    turbineSurvival: 0,
  });
  expect(spillway.share).toBeCloseTo(0.41, 12);
});

// National Marine Fisheries Service, draft biological opinion of 27 July 2000, appendix B, tables B-7 to B-23, read in a
// reformatted copy: of 1000 fish, those left below each pool and each dam, and the shares of the loss, rounded to 1 %.
describe("eight pools and dams one after the other", () => {
  const left = {
    "sub-yearlings, mean of the years": [
      599, 565, 454, 428, 366, 345, 294, 287, 231, 222, 143, 136, 121, 107, 84, 79,
    ],
    "steelhead, mean of the years": [
      909, 886, 828, 801, 767, 725, 672, 658, 604, 589, 512, 499, 479, 435, 393, 371,
    ],
  };

  test.each([
    ["sub-yearlings, mean of the years", 0.12, 0.8, 0.92],
    ["steelhead, mean of the years", 0.2, 0.43, 0.63],
  ] as const)("%s: losses at dams, in pools and together", (group, atDams, inPools, together) => {
    const stages = left[group].map((fish, at) => fish / (at === 0 ? 1000 : left[group][at - 1]));
    const pools = stages.filter((_, at) => at % 2 === 0);
    const dams = stages.filter((_, at) => at % 2 === 1);
    // A pool lies above its dam: the first reach begins where the fish start.
    const plants = [1, ...dams].map((survival, at) => ({
      plant: `${at}`,
      next: at < dams.length ? `${at + 1}` : undefined,
      entering: at === 0 ? 1000 : 0,
      survival,
      reachMortality: at < pools.length ? 1 - pools[at] : 0,
    }));
    const { lostAtPlants, lostInReaches, survivors } = chain.river({ plants });
    expect(Math.abs(lostAtPlants / 1000 - atDams)).toBeLessThan(0.006);
    expect(Math.abs(lostInReaches / 1000 - inPools)).toBeLessThan(0.006);
    expect(Math.abs(1 - survivors / 1000 - together)).toBeLessThan(0.006);
  });
});
