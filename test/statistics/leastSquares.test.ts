import { describe, expect, test } from "vitest";
import { statistics } from "kernel-helpers";

const line = ({ slope, height }: Readonly<Record<"slope" | "height", number>>, x: number): number =>
  height + slope * x;
const x = [1, 2, 3, 4, 5, 6];
const y = [1.1, 1.9, 3.2, 3.9, 5.1, 5.8];
const weights = [1, 4, 1, 2, 0.5, 3];
const start = { height: 3, slope: -2 };

/** Weighted line by the closed form. */
function closedForm(own: readonly number[]) {
  const total = (value: (at: number) => number): number =>
    x.reduce((sum, _, at) => sum + own[at] * value(at), 0);
  const centre = total((at) => x[at]) / total(() => 1);
  const middle = total((at) => y[at]) / total(() => 1);
  const spread = total((at) => (x[at] - centre) ** 2);
  const slope = total((at) => (x[at] - centre) * (y[at] - middle)) / spread;
  const height = middle - slope * centre;
  const squares = total((at) => (y[at] - height - slope * x[at]) ** 2);
  const residual = Math.sqrt(squares / (x.length - 2));
  return {
    slope,
    height,
    residual,
    slopeError: residual / Math.sqrt(spread),
    centre,
    spread,
    mass: total(() => 1),
  };
}

describe("a straight line fitted by nonlinear least squares", () => {
  test.each([
    ["without weights", x.map(() => 1)],
    ["with weights", weights],
  ])("is the closed form, %s", (_, own) => {
    const fit = statistics.fitLeastSquares({ x, y, model: line, start, weights: own });
    const { slope, height, residual, slopeError } = closedForm(own);
    expect(fit.estimates.slope).toBeCloseTo(slope, 9);
    expect(fit.estimates.height).toBeCloseTo(height, 9);
    expect(fit.residualStandardError).toBeCloseTo(residual, 9);
    const found = fit.parameters.find(({ name }) => name === "slope");
    expect(found?.standardError).toBeCloseTo(slopeError, 9);
    const reach = statistics.studentQuantile(0.975, { degreesOfFreedom: 4 });
    expect(found?.upper).toBeCloseTo(slope + reach * slopeError, 9);
  });

  test("does not depend on the common size of the weights", () => {
    const [one, other] = [1, 1e6].map((size) =>
      statistics.fitLeastSquares({ x, y, model: line, start, weights: weights.map((own) => size * own) }),
    );
    expect(other.estimates.slope).toBeCloseTo(one.estimates.slope, 9);
    expect(other.parameters[0].standardError / one.parameters[0].standardError).toBeCloseTo(1, 7);
  });

  test("predicts with the textbook's intervals for the line and for one more observation", () => {
    const fit = statistics.fitLeastSquares({ x, y, model: line, start });
    const { slope, height, residual, centre, spread, mass } = closedForm(x.map(() => 1));
    const { estimate, confidence, prediction } = statistics.predictLeastSquares(fit, { at: 8, level: 0.9 });
    const reach = statistics.studentQuantile(0.95, { degreesOfFreedom: 4 });
    const lean = 1 / mass + (8 - centre) ** 2 / spread;
    expect(estimate).toBeCloseTo(height + 8 * slope, 9);
    expect(confidence[1]).toBeCloseTo(estimate + reach * residual * Math.sqrt(lean), 8);
    expect(prediction[0]).toBeCloseTo(estimate - reach * residual * Math.sqrt(1 + lean), 8);
    expect(statistics.predictLeastSquares(fit, { at: 8, weight: 4 }).prediction[1]).toBeLessThan(
      statistics.predictLeastSquares(fit, { at: 8 }).prediction[1],
    );
  });

  test("takes an error that all observations share into the height alone", () => {
    const fit = statistics.fitLeastSquares({ x, y, model: line, start });
    const shared = statistics.addCommonErrors(fit, { causes: [x.map(() => 0.3), x.map(() => 0.4)] });
    const [height, slope] = shared.parameters;
    expect(height.standardError).toBeCloseTo(Math.hypot(fit.parameters[0].standardError, 0.5), 8);
    expect(slope.standardError).toBeCloseTo(fit.parameters[1].standardError, 8);
    expect(height.estimate).toBe(fit.parameters[0].estimate);
    expect(() => statistics.addCommonErrors(fit, { causes: [[1]] })).toThrow(
      "statistics.addCommonErrors: causes[0] has 1 values and the fit 6 rows; each row needs one.",
    );
  });
});

describe("nonlinear least squares", () => {
  test("goes through points that lie on the curve", () => {
    const exact = statistics.fitLeastSquares({
      x,
      y: x.map((at) => 2 * at ** 1.5),
      model: ({ scale, exponent }, at) => scale * at ** exponent,
      start: { scale: 1, exponent: 1 },
    });
    expect(exact.estimates.scale).toBeCloseTo(2, 9);
    expect(exact.estimates.exponent).toBeCloseTo(1.5, 9);
  });

  test("works beside a place where the model ends", () => {
    // The root has no value beyond the last place, and the start lies right at that end.
    const fit = statistics.fitLeastSquares({
      x: [0, 1, 2, 3, 4],
      y: [2.24, 2.01, 1.72, 1.42, 1.0],
      model: ({ end }, at) => Math.sqrt(end - at),
      start: { end: 4 },
    });
    expect(fit.estimates.end).toBeCloseTo(5, 1);
  });

  test("takes records as places", () => {
    const fit = statistics.fitLeastSquares({
      x: x.map((at, i) => ({ depth: at, wide: i % 2 })),
      y: x.map((at, i) => 3 * at + (i % 2) + (i === 0 ? 0.1 : 0)),
      model: ({ slope, step }, place) => slope * place.depth + step * place.wide,
      start: { slope: 1, step: 0 },
    });
    expect(fit.estimates.slope).toBeCloseTo(3, 2);
    expect(fit.standardizedResiduals).toHaveLength(6);
  });

  test.each([
    [{ y: [1] }, "x has 6 values and y 1; each row needs one of both"],
    [{ weights: [1, 2] }, "weights has 2 values and y 6; each row needs one of both"],
    [{ y: [1, 2, Number.NaN, 4, 5, 6] }, "y[2] is NaN; it must be a finite number"],
    [{ weights: [1, 1, 0, 1, 1, 1] }, "weights[2] is 0; it must be above 0"],
    [{ level: 95 }, "level is 95; it must lie between 0 and 1"],
    [{ start: { slope: Infinity, height: 0 } }, "start.slope is Infinity; it must be a finite number"],
    [
      { x: [1, 2], y: [1, 2] },
      "2 parameters (height, slope) can't be fitted to 2 rows with errors; it takes at least 3",
    ],
  ])("refuses what does not go together: %j", (given, sentence) => {
    const fit = () => statistics.fitLeastSquares({ x, y, model: line, start, ...given });
    expect(fit).toThrow(RangeError);
    expect(fit).toThrow(sentence);
  });

  test("refuses a start at which the model gives no number", () => {
    expect(() =>
      statistics.fitLeastSquares({
        x,
        y,
        model: ({ scale, at }, place) => scale * Math.log(place - at),
        start: { scale: 1, at: 2 },
      }),
    ).toThrow("the model gives NaN for x[0] at the start (scale = 1, at = 2)");
  });

  test("names parameters that the data can't tell apart, and those without effect", () => {
    expect(() =>
      statistics.fitLeastSquares({
        x,
        y,
        model: ({ scale, factor, slope }, at) => scale * factor + slope * at,
        start: { scale: 1, slope: 1, factor: 1 },
      }),
    ).toThrow("factor changes the fitted values in the same way as scale (rank deficiency)");
    expect(() =>
      statistics.fitLeastSquares({
        x,
        y,
        model: ({ slope }, at) => slope * at,
        start: { slope: 1, idle: 1 },
      }),
    ).toThrow("idle changes no fitted value where the steps ended");
  });

  test("says where the steps went when they do not arrive", () => {
    // The sum of squares falls for ever as the plateau goes up: the data are a straight line.
    expect(() =>
      statistics.fitLeastSquares({
        x,
        y: x.map((at) => at * (1 + 0.001 * at)),
        model: ({ top, rate }, at) => top * (1 - Math.exp(-rate * at)),
        start: { top: 10, rate: 0.1 },
      }),
    ).toThrow(/the steps did not arrive at a least sum of squares|in the same way as top/);
  });
});

describe("lack of fit", () => {
  const places = [1, 1, 2, 2, 3, 3, 4, 4];
  const bent = [1.0, 1.2, 4.1, 3.9, 9.2, 8.9, 15.8, 16.1];
  const straight = statistics.fitLeastSquares({ x: places, y: bent, model: line, start });

  test("splits the residual sum of squares into repeats and curve", () => {
    const lack = statistics.lackOfFit(straight, places);
    // Half the squared difference of each pair.
    expect(lack.pureError).toBeCloseTo((0.2 ** 2 + 0.2 ** 2 + 0.3 ** 2 + 0.3 ** 2) / 2, 9);
    expect(lack.pureError + lack.lackOfFit).toBeCloseTo(straight.residualSumOfSquares, 9);
    expect([lack.pureErrorFreedom, lack.lackOfFitFreedom]).toEqual([4, 2]);
    expect(lack.pValue).toBeLessThan(0.001);
    const right = statistics.fitLeastSquares({
      x: places,
      y: bent,
      model: ({ scale, exponent }, at) => scale * at ** exponent,
      start: { scale: 1, exponent: 1.5 },
    });
    expect(statistics.lackOfFit(right, places).pValue).toBeGreaterThan(0.1);
  });

  test("refuses data without repeats, and too few places", () => {
    expect(() => statistics.lackOfFit(straight, [1, 2, 3, 4, 5, 6, 7, 8])).toThrow("no group has two rows");
    expect(() => statistics.lackOfFit(straight, [1, 1, 1, 1, 2, 2, 2, 2])).toThrow(
      "2 groups for 2 parameters leave no room to miss; it takes at least 3",
    );
    expect(() => statistics.lackOfFit(straight, [1])).toThrow("groups has 1 values and the fit 8 rows");
  });

  test("takes its p-value from the F distribution", () => {
    // With 1 and n degrees of freedom F is the square of Student's t.
    const t = statistics.studentQuantile(0.975, { degreesOfFreedom: 7 });
    expect(statistics.fTail(t ** 2, { numerator: 1, denominator: 7 })).toBeCloseTo(0.05, 9);
    expect(() => statistics.fTail(-1, { numerator: 1, denominator: 7 })).toThrow(
      "value is -1; it must be at least 0",
    );
  });
});

const itself = ({ one }: Readonly<Record<"one", number>>): number => one;

describe("propagation of errors", () => {
  test("adds independent errors by squares and correlated ones with their sign", () => {
    const given = {
      of: ({ one, other }: Readonly<Record<"one" | "other", number>>) => one - 2 * other,
      at: { one: 5, other: 0 },
      standardErrors: { one: 0.3, other: 0.2 },
    };
    expect(statistics.propagateErrors(given).standardError).toBeCloseTo(0.5, 9);
    expect(
      statistics.propagateErrors({ ...given, correlations: [["one", "other", 1]] }).standardError,
    ).toBeCloseTo(0.1, 9);
    expect(statistics.propagateErrors(given).parts.map(({ moves }) => Math.round(1e6 * moves) / 1e6)).toEqual(
      [0.3, -0.4],
    );
  });

  test("refuses errors below 0, a result that is no number, and correlations that can't be", () => {
    const at = { one: 1 };
    expect(() => statistics.propagateErrors({ of: itself, at, standardErrors: { one: -1 } })).toThrow(
      "standardErrors.one is -1; it must be at least 0",
    );
    expect(() =>
      statistics.propagateErrors({ of: () => Number.NaN, at, standardErrors: { one: 1 } }),
    ).toThrow("both must be numbers");
    expect(() =>
      statistics.propagateErrors({
        of: itself,
        at,
        standardErrors: { one: 1 },
        correlations: [["one", "one", 2]],
      }),
    ).toThrow("it must be at least -1 and at most 1");
  });
});
