import { statistics } from "kernel-helpers";
import { expect, test } from "vitest";

const clusters = [0.2, 0.4, 0.9, 0.5];
const mean = (sample: readonly number[]) => sample.reduce((sum, one) => sum + one, 0) / sample.length;

test("a band of one place is the bootstrap interval of the same statistic and seed", () => {
  const [point] = statistics.bootstrapBand({ clusters, curve: (sample) => [mean(sample)], seed: 7 });
  const alone = statistics.clusterBootstrap({ clusters, statistic: mean, seed: 7 });
  expect(point).toEqual({
    estimate: alone.estimate,
    lower: alone.lower,
    upper: alone.upper,
    withoutValue: 0,
  });
});

test("a place without any finite value has no limits, and the others keep theirs", () => {
  const [none, some] = statistics.bootstrapBand({
    clusters,
    curve: (sample) => [Number.NaN, mean(sample)],
    seed: 7,
  });
  expect(none).toMatchObject({ lower: undefined, upper: undefined, withoutValue: 2000 });
  expect(some.lower).toBeLessThan(some.estimate);
});

test("a curve that gives now more, now fewer values is refused", () => {
  expect(() =>
    statistics.bootstrapBand({ clusters, curve: (sample) => [...new Set(sample)], seed: 7 }),
  ).toThrow("statistics.bootstrapBand: curve gave 4 values and then");
});
