import { statistics } from "kernel-helpers";
import { expect, test } from "vitest";

/**
 * Satagopan et al. 2004, British Journal of Cancer 91:1229, Table 2: the first nine of 305 breast cancer patients with
 * death by the cancer and by other causes. Only the nine are listed; the others were watched beyond the end of the table.
 * The table prints to 0.1 %, and its column of cumulative incidence adds up increments that are already rounded (0.3, 0.6,
 * 0.9, 1.2): so the increments and the overall survival are compared, not their rounded sums.
 */
const printed: readonly (readonly [months: number, event: string | undefined])[] = [
  [7, undefined],
  [10, "cancer"],
  [14, undefined],
  [16, "cancer"],
  [18, "other"],
  [23, "cancer"],
  [24, undefined],
  [26, "other"],
  [27, "cancer"],
];

const patients = [
  ...printed,
  ...Array.from({ length: 305 - printed.length }, () => [28, undefined] as const),
];
const times = patients.map(([months]) => months);
const events = patients.map(([, event]) => event);

test("the incidence of breast cancer deaths at each time, and the numbers at risk, are those of the printed table", () => {
  const steps = statistics
    .cumulativeIncidence({ times, events })
    .events.find(({ event }) => event === "cancer")?.steps;
  const increments = (steps ?? []).map(({ time, atRisk, share }, at, all) => [
    time,
    atRisk,
    (100 * (share - (at === 0 ? 0 : all[at - 1].share))).toFixed(1),
  ]);
  expect(increments).toEqual([
    [10, 304, "0.3"],
    [16, 302, "0.3"],
    [23, 300, "0.3"],
    [27, 297, "0.3"],
  ]);
});

test("what all causes leave over is the overall survival of the printed table", () => {
  const { events: causes } = statistics.cumulativeIncidence({ times, events });
  const survival = [10, 16, 18, 23, 26, 27].map((month) => {
    const died = causes
      .map(({ steps }) => steps.findLast(({ time }) => time <= month)?.share ?? 0)
      .reduce((sum, share) => sum + share, 0);
    return (100 * (1 - died)).toFixed(1);
  });
  expect(survival).toEqual(["99.7", "99.3", "99.0", "98.7", "98.3", "98.0"]);
});

test("variance and log-log interval agree with a statistics package (six subjects, quoted in the tests of an open-source survival library)", () => {
  const curve = statistics.cumulativeIncidence({
    times: [1, 2, 3, 4, 5, 6],
    events: [undefined, "1", "1", "2", "2", undefined],
  });
  const second = curve.events.find(({ event }) => event === "2")?.steps ?? [];
  const found = second.map(({ time, standardError, lower = NaN, upper = NaN }) => [
    time,
    Number((standardError ** 2).toFixed(12)),
    Number(lower.toFixed(8)),
    Number(upper.toFixed(8)),
  ]);
  expect(found).toEqual([
    [4, 0.032, 0.00836904, 0.58185303],
    [5, 0.048, 0.05197575, 0.75281579],
  ]);
});
