import { describe, expect, test } from "vitest";
import { fitBinomial, maximumLikelihood } from "../../kernel-helpers/src/statistics";

const beetles = {
  dose: [1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.861, 1.8839],
  dead: [6, 13, 18, 28, 52, 53, 61, 60],
  all: [59, 60, 62, 56, 63, 59, 62, 60],
};

/** Twice the fall of the log-likelihood of 15 out of 20 from its top. */
const fall = (share: number) => 2 * (15 * Math.log(0.75 / share) + 5 * Math.log(0.25 / (1 - share)));

const ofRate = ([rate]: readonly number[]) => Math.log(rate);

describe("maximumLikelihood", () => {
  test("gives a binomial share with the interval solved by hand from its likelihood", () => {
    const fit = maximumLikelihood({
      parameters: [{ name: "share", start: 0.5, above: 0, below: 1 }],
      logLikelihood: ([share]) => 15 * Math.log(share) + 5 * Math.log(1 - share),
    });
    const [{ estimate, standardError, lower, upper }] = fit.parameters;
    expect(estimate).toBeCloseTo(0.75, 6);
    expect(standardError).toBeCloseTo(Math.sqrt((0.75 * 0.25) / 20), 5);
    // At the ends twice the log-likelihood has fallen by the square of 1.959964.
    expect(fall(lower)).toBeCloseTo(3.8414588, 4);
    expect(fall(upper)).toBeCloseTo(3.8414588, 4);
    expect(lower).toBeLessThan(0.75);
  });

  test("agrees with the iteratively reweighted regression, errors and covariance included", () => {
    const fit = maximumLikelihood({
      parameters: [
        { name: "intercept", start: 0 },
        { name: "dose", start: 0 },
      ],
      logLikelihood: ([intercept, slope]) =>
        beetles.dose.reduce((sum, dose, row) => {
          const line = intercept + slope * dose;
          const [dead, all] = [beetles.dead[row], beetles.all[row]];
          return sum - dead * Math.log1p(Math.exp(-line)) - (all - dead) * Math.log1p(Math.exp(line));
        }, 0),
    });
    const regression = fitBinomial({
      successes: beetles.dead,
      trials: beetles.all,
      terms: { dose: beetles.dose },
      link: "logit",
    });
    fit.parameters.forEach(({ estimate, standardError }, at) => {
      expect(estimate).toBeCloseTo(regression.coefficients[at].estimate, 3);
      expect(standardError / regression.coefficients[at].standardError).toBeCloseTo(1, 4);
    });
    expect(fit.covariance[0][1] / regression.covariance.get(0, 1)).toBeCloseTo(1, 4);
    expect(fit.gainLeft).toBeLessThan(1e-6);
  });

  test("gives an exponential rate from counts and a time, and an open end where the data don't bound it", () => {
    const rate = maximumLikelihood({
      parameters: [{ name: "rate", start: 1, above: 0 }],
      logLikelihood: ([value]) => 4 * Math.log(value) - 20 * value,
    }).parameters[0];
    expect(rate.estimate).toBeCloseTo(0.2, 6);
    expect(rate.standardError).toBeCloseTo(0.1, 5);
    const flat = maximumLikelihood({
      parameters: [{ name: "share", start: 0.4, above: 0, below: 1 }],
      // A weak pull to one half that falls by less than the interval asks for.
      logLikelihood: ([share]) => 0.1 * (Math.log(share + 1) + Math.log(2 - share)),
    }).parameters[0];
    expect([flat.lower, flat.upper, flat.lowerOpen, flat.upperOpen]).toEqual([0, 1, true, true]);
  });

  test("calls no place a fit at which the slope doesn't vanish", () => {
    const rising = {
      parameters: [{ name: "share", start: 0.5, above: 0, below: 1 }],
      logLikelihood: ([share]: readonly number[]) => 10 * Math.log(share),
    };
    expect(() => maximumLikelihood(rising)).toThrow("the search found no place where the slope vanishes");
    const undecided = {
      parameters: [
        { name: "a", start: 1 },
        { name: "b", start: 2 },
      ],
      logLikelihood: ([a, b]: readonly number[]) => -((a + b - 1) ** 2),
    };
    expect(() => maximumLikelihood(undecided)).toThrow("may leave a parameter undecided");
  });

  test("refuses starts outside the range, impossible starts and an empty list", () => {
    expect(() =>
      maximumLikelihood({ parameters: [{ name: "rate", start: -1, above: 0 }], logLikelihood: ofRate }),
    ).toThrow("statistics.maximumLikelihood: the start of rate is -1; it must be above 0.");
    expect(() =>
      maximumLikelihood({ parameters: [{ name: "rate", start: -1 }], logLikelihood: ofRate }),
    ).toThrow("impossible with the parameters at their starts");
    expect(() => maximumLikelihood({ parameters: [], logLikelihood: ofRate })).toThrow(
      "there is nothing to fit",
    );
  });
});
