import { describe, expect, test } from "vitest";
import { figures } from "kernel-helpers";
import { cloggingFigures } from "./cloggingFigures";

describe("figures.headLossOverTime", () => {
  const spec = cloggingFigures.headLossOverTime;

  test("says when the loss is highest, how often the rack is cleaned and how long the machine is out of order", () => {
    expect(spec.alt).toMatch(/highest on 2023-11-\d\d with \d+(\.\d+)? cm/);
    expect(spec.alt).toMatch(/\d+ cleanings at 10 cm, at most \d+ a day on 2023-/);
    expect(spec.alt).toContain("out of order on 7 days");
  });

  test("draws as many spikes as there are days with cleanings", () => {
    const [, , spikes] = spec.data;
    const { x, y } = spikes as { x: (string | null)[]; y: (number | null)[] }; // made so by the figure
    expect(x.filter((one) => one === null)).toHaveLength(y.filter((one) => one === null).length);
    expect(y.filter((one) => one !== null && one > 0).length).toBeGreaterThan(20);
  });

  test("refuses days that are none, and more than can be told apart", () => {
    expect(() => figures.headLossOverTime({ days: [] })).toThrow("days");
    const day = { date: "2023-01-01" } as never; // only the count is looked at
    expect(() => figures.headLossOverTime({ days: Array.from({ length: 401 }, () => day) })).toThrow(
      "it takes at most 400",
    );
  });
});

describe("figures.cleaningTradeOff", () => {
  test("refuses rows that do not pair with the thresholds", () => {
    expect(() =>
      figures.cleaningTradeOff({
        thresholds: [0.05, 0.1],
        energies: [{ name: "head loss", values: [1] }],
        cleanings: [1, 2],
      }),
    ).toThrow('"head loss" has 1 value');
  });
});
