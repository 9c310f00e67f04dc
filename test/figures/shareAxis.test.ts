import { expect, test } from "vitest";
import { shareAxis, shareRange } from "../../kernel-helpers/src/figures/shareAxis";

test("a share's axis starts at 0 unless all values lie high, and ends a little above 1", () => {
  expect(shareRange([[0.1, 0.9]])).toEqual([0, 1.02]);
  expect(shareRange([[0.78, 0.9], [0.99]])).toEqual([0.7, 1.02]);
  expect(shareRange([[]])).toEqual([0.9, 1.02]);
});

test("a value that is not finite does not move the axis", () => {
  expect(shareRange([[0.78, Number.NaN, Number.POSITIVE_INFINITY]])).toEqual([0.7, 1.02]);
});

test("an estimate above 1 stays in the picture", () => {
  expect(shareRange([[0.9, 1.2]])[1]).toBeGreaterThan(1.2);
});

test("ticks come closer and gain a digit where the axis is short", () => {
  expect(shareAxis("Survival", [0, 1.02])).toMatchObject({ dtick: 0.2, tickformat: ".1f" });
  expect(shareAxis("Survival", [0.6, 1.02])).toMatchObject({ dtick: 0.1, tickformat: ".1f" });
  expect(shareAxis("Survival", [0.8, 1.02])).toMatchObject({ dtick: 0.05, tickformat: ".2f" });
});
