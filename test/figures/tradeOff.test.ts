import { figures, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";
import { weighedOptions } from "./energyFigures";

const labels = (input: figures.TradeOffInput) => {
  const { annotations } = figures.tradeOff(input).layout;
  return Array.isArray(annotations) ? annotations.length : 0;
};

describe("figures.tradeOff", () => {
  test("names the options of the front in words, from most energy to most survival", () => {
    const { alt } = figures.tradeOff({ options: weighedOptions });
    expect(alt).toMatch(
      /^Survival of a season against energy of a mean year for 10 options. On the front, from most energy to most survival: 40 mm, streamlined, 38° with 9.116 GWh and 87.2 %,/,
    );
    expect(alt).toMatch(/Beaten by another: .*40 mm, shutdown in autumn nights\.$/);
  });

  test("steps down from the option of most energy, never up in energy", () => {
    const { data } = figures.tradeOff({ options: weighedOptions });
    const [{ x, y }] = data;
    if (!Array.isArray(x) || !Array.isArray(y)) throw new Error("the front has no places");
    expect(x).toEqual(x.toSorted((one, other) => other - one));
    expect(y).toEqual(y.toSorted((one, other) => one - other));
  });

  test("labels all of few options, and of many the front and those asked for", () => {
    const onFront = weighedOptions.filter((one) => one.onFront).length;
    expect(labels({ options: weighedOptions.slice(0, 5) })).toBe(5);
    expect(labels({ options: weighedOptions })).toBe(onFront);
    expect(labels({ options: weighedOptions, labelled: ["40 mm, shutdown in autumn nights"] })).toBe(
      onFront + 1,
    );
  });

  test("refuses no options and numbers that are none", () => {
    expect(() => figures.tradeOff({ options: [] })).toThrow("figures.tradeOff: options is empty");
    const odd = { name: "odd", survival: Number.NaN, energy: u.GWh(1), onFront: true };
    expect(() => figures.tradeOff({ options: [odd] })).toThrow("options' survival[0] is NaN");
  });
});
