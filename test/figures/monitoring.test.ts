import { describe, expect, test } from "vitest";
import * as figures from "../../kernel-helpers/src/figures";

const observed = { estimate: 0.5, lower: 0.4, upper: 0.6 };
const one = {
  name: "roach, 60 to 120 mm",
  fish: 80,
  nights: 12,
  predicted: 0.7,
  observed,
  difference: -0.2,
  interval: undefined,
  isInside: undefined,
};

describe("calibration", () => {
  test("draws each class at predicted and observed share, with the observed interval", () => {
    const { data } = figures.calibration({
      share: "guidance",
      groups: [{ name: "Kelmar Mill", classes: [one] }],
    });
    const dots = data.find(({ name }) => name === "Kelmar Mill");
    expect(dots).toMatchObject({ x: [0.7], y: [0.5] });
    const arms = dots?.error_y as { readonly array: number[]; readonly arrayminus: number[] };
    expect(arms.array[0]).toBeCloseTo(0.1, 12);
    expect(arms.arrayminus[0]).toBeCloseTo(0.1, 12);
  });

  test("says in its alt text which classes lie below the line of agreement, and by how much", () => {
    const { alt } = figures.calibration({
      share: "guidance",
      groups: [{ name: "Kelmar Mill", classes: [one] }],
    });
    expect(alt).toContain("1 of 1 classes below the line of agreement");
    expect(alt).toContain("roach, 60 to 120 mm: 0.7 predicted, 0.5 observed");
  });

  test("draws prediction intervals that have a width, and explains them", () => {
    const withInterval = { ...one, interval: { lower: 0.6, upper: 0.8 } };
    const blocked = { ...one, predicted: 1, interval: { lower: 1, upper: 1 } };
    const { data, layout } = figures.calibration({
      share: "guidance",
      groups: [{ name: "Kelmar Mill", classes: [withInterval, blocked] }],
    });
    const bars = data.find(({ type }) => type === "bar");
    expect(bars).toMatchObject({ x: [0.7], base: [0.6] });
    expect(JSON.stringify(layout)).toContain("pale bars");
  });

  test("leaves out classes without an observed interval, and refuses to draw nothing", () => {
    const thin = { ...one, observed: undefined, difference: undefined };
    expect(() =>
      figures.calibration({ share: "guidance", groups: [{ name: "Kelmar Mill", classes: [thin] }] }),
    ).toThrow(/nothing to draw/);
  });
});

describe("intervals", () => {
  const x = { title: "Way", categories: ["bypass", "turbine"] };
  const y = { title: "Survival", unit: "%" };

  test("turns estimates and both arms into the unit of the axis, and leaves gaps where there is no value", () => {
    const { data, alt } = figures.intervals({
      x,
      y,
      series: [{ name: "at once", values: [observed, undefined] }],
    });
    expect(data[0].y).toEqual([50, null]);
    expect(alt).toBe("Survival for each way, with intervals. At once: bypass 50 % (40 % to 60 %).");
  });

  test("sums up many categories by the lowest and the highest", () => {
    const categories = Array.from({ length: 24 }, (_, night) => `${night + 1}`);
    const values = categories.map((_, night) => ({ ...observed, estimate: 0.4 + night / 200 }));
    const { alt } = figures.intervals({
      x: { title: "Night", categories },
      y,
      series: [{ name: "caught", values }],
    });
    expect(alt).toContain("Caught: lowest 40 % at 1, highest 51.5 % at 24.");
  });

  test("refuses numbers that are not finite and series of another length", () => {
    const values = [observed, { ...observed, upper: Infinity }];
    expect(() => figures.intervals({ x, y, series: [{ name: "at once", values }] })).toThrow(/finite/);
    expect(() => figures.intervals({ x, y, series: [{ name: "at once", values: [observed] }] })).toThrow(
      /has 1 value; it must have 2/,
    );
  });
});
