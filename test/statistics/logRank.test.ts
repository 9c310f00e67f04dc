import { statistics } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const { logRank } = statistics;

const light = { name: "light", times: [3, 5, 8, 10], observed: [true, true, true, false] };
const none = { name: "none", times: [6, 9, 10, 10], observed: [true, true, false, false] };

const unseen = (name: string) => ({ name, times: [1, 2], observed: [false, false] });

describe("statistics.logRank", () => {
  test("without ties and censoring it is the sum that one does by hand", () => {
    // Events at 1, 2, 3, 4; of the first group 1 and 3. Expected 2/4 + 1/3 + 1/2 + 0.
    const { groups, statistic } = logRank([
      { name: "a", times: [1, 3], observed: [true, true] },
      { name: "b", times: [2, 4], observed: [true, true] },
    ]);
    const expected = 2 / 4 + 1 / 3 + 1 / 2;
    const variance = 1 / 4 + 2 / 9 + 1 / 4;
    expect(groups[0].expected).toBeCloseTo(expected, 12);
    expect(groups[1].expected).toBeCloseTo(4 - expected, 12);
    expect(statistic).toBeCloseTo((2 - expected) ** 2 / variance, 12);
  });

  test("does not depend on the order of groups, nor on the unit of time", () => {
    const { statistic } = logRank([light, none]);
    expect(logRank([none, light]).statistic).toBeCloseTo(statistic, 12);
    const minutes = [light, none].map((group) => ({ ...group, times: group.times.map((time) => 60 * time) }));
    expect(logRank(minutes).statistic).toBeCloseTo(statistic, 12);
  });

  test("finds nothing between groups that are the same, also three of them", () => {
    const { statistic, pValue, degreesOfFreedom } = logRank([
      light,
      { ...light, name: "again" },
      { ...light, name: "once more" },
    ]);
    expect(statistic).toBeCloseTo(0, 12);
    expect([pValue, degreesOfFreedom]).toEqual([1, 2]);
  });

  test("refuses what can't be compared", () => {
    expect(() => logRank([light])).toThrow("statistics.logRank: there are 1 groups");
    expect(() => logRank([light, light])).toThrow('two groups are called "light"');
    expect(() => logRank([light, { ...none, times: [] }])).toThrow('group "none" has no times');
    expect(() => logRank([light, { ...none, times: [1] }])).toThrow(
      'group "none" has 1 times and 4 in observed',
    );
    expect(() => logRank([light, { ...none, times: [1, 2, 3, -4] }])).toThrow('times[3] of "none" is -4');
    expect(() => logRank([light, { ...none, observed: [1, 0, 0, 0] as never }])).toThrow(
      'observed[0] of "none" is 1',
    );
    expect(() => logRank([unseen("a"), unseen("b")])).toThrow("no event was seen");
    expect(() =>
      logRank([
        { name: "a", times: [1], observed: [false] },
        { name: "b", times: [2], observed: [true] },
      ]),
    ).toThrow("no event happened while subjects of different groups were watched");
  });
});
