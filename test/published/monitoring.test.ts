import { describe, expect, test } from "vitest";
import { monitoring, statistics } from "kernel-helpers";

describe("a ratio of two shares", () => {
  // Perondi et al. 2004: 7 of 34 against 1 of 34. Intervals printed in the tests of the R package contingencytables, which
  // goes with Fagerland, Lydersen & Laake 2017, Statistical Analysis of Contingency Tables, chapter 4.
  const treated = { alive: 7, fish: 34 };
  const control = { alive: 1, fish: 34 };

  test("has the printed interval of the delta method on the logarithm (Katz et al. 1978)", () => {
    const { estimate, lower, upper } = monitoring.relativeSurvival({ treated, control });
    expect(estimate).toBeCloseTo(7, 4);
    expect(lower).toBeCloseTo(0.9096, 4);
    expect(upper).toBeCloseTo(53.8695, 4);
  });

  test("has the printed interval by square-and-add from Wilson's limits (Donner & Zou 2012)", () => {
    const { lower, upper } = monitoring.relativeSurvival({ treated, control, interval: "squareAndAdd" });
    expect(lower).toBeCloseTo(1.1537, 4);
    expect(upper).toBeCloseTo(41.9763, 4);
  });

  test("agrees with a printed example of a textbook: 45 of 411 against 73 of 411", () => {
    // Moore, McCabe & Craig, Introduction to the Practice of Statistics, 9th ed., example 8.18: 0.4364 to 0.8707, printed.
    const { lower, upper } = monitoring.relativeSurvival({
      treated: { alive: 45, fish: 411 },
      control: { alive: 73, fish: 411 },
    });
    expect(lower).toBeCloseTo(0.4364, 4);
    expect(upper).toBeCloseTo(0.8707, 4);
  });

  test("of fish seen at least once is the paired release with common detection, error included", () => {
    // First-capture form of Burnham et al. 1987, Am. Fish. Soc. Monograph 5: (r/R)/(r'/R'), variance of the logarithm
    // 1/r − 1/R + 1/r' − 1/R'. Constructed numbers, computed by both functions.
    const counts = {
      treatment: { released: 1000, both: 560, firstOnly: 80, secondOnly: 120 },
      control: { released: 1000, both: 630, firstOnly: 90, secondOnly: 135 },
    };
    const paired = statistics.pairedRelease(counts, { detection: "common" }).survival;
    const ratio = monitoring.relativeSurvival({
      treated: { alive: 760, fish: 1000 },
      control: { alive: 855, fish: 1000 },
    });
    expect(ratio.estimate).toBeCloseTo(paired.estimate, 12);
    expect(ratio.standardError).toBeCloseTo(paired.standardError, 12);
    expect(ratio.upper).toBeCloseTo(paired.upper, 12);
  });
});

const cellsOf = (
  sizes: readonly number[],
  hits: readonly number[],
  predicted: (at: number) => number,
): monitoring.CalibrationCell[] =>
  sizes.map((trials, at) => ({
    night: `${at}`,
    name: "all",
    successes: hits[at],
    trials,
    predicted: predicted(at),
  }));

describe("a prediction held against observations", () => {
  test("has the design effect of Rao and Scott for litters, where the prediction is one share for all", () => {
    // Data of Weil 1970 (from memory); effects recomputed from Rao & Scott 1992, Biometrics 48:577.
    const treated = {
      n: [12, 11, 10, 9, 11, 10, 10, 9, 9, 5, 9, 7, 10, 6, 10, 7],
      y: [12, 11, 10, 9, 10, 9, 9, 8, 8, 4, 7, 4, 5, 3, 3, 0],
    };
    const result = monitoring.calibration({ cells: cellsOf(treated.n, treated.y, () => 0.772414) });
    expect(result.respectingNights.designEffect).toBeCloseTo(3.952861, 5);
    expect(result.slope).toBeUndefined();
  });

  test("gives beetle mortality the printed logit line back as intercept, slope and deviance", () => {
    // Bliss 1935; Dobson, Introduction to Generalized Linear Models: −60.7175 and 34.2703, deviance 11.2322, printed.
    const dose = [1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.861, 1.8839];
    const beetles = [59, 60, 62, 56, 63, 59, 62, 60];
    const killed = [6, 13, 18, 28, 52, 53, 61, 60];
    // A prediction that takes the dose, less 1.77, for the logit: Cox's line (1958) is then Dobson's.
    const { interceptWithSlope, slope } = monitoring.calibration({
      cells: cellsOf(beetles, killed, (at) => 1 / (1 + Math.exp(-(dose[at] - 1.77)))),
    });
    expect(slope?.estimate).toBeCloseTo(34.2703, 3);
    expect((interceptWithSlope?.estimate ?? NaN) - 1.77 * (slope?.estimate ?? NaN)).toBeCloseTo(-60.7175, 2);

    // The line itself as the prediction leaves nothing to correct.
    const line = monitoring.calibration({
      cells: cellsOf(beetles, killed, (at) => 1 / (1 + Math.exp(60.7175 - 34.2703 * dose[at]))),
    });
    expect(line.slope?.estimate).toBeCloseTo(1, 3);
    expect(line.intercept.estimate).toBeCloseTo(0, 3);
    expect(line.asIndependent.statistic).toBeLessThan(1e-4);
  });

  test("has the score of the ten forecasts of rain in Brier's paper", () => {
    // Brier 1950, Mon. Weather Rev. 78:1, forecasts and score 0.19 from memory; his score adds up both outcomes, rain and
    // no rain, and is twice the one used here.
    const forecasts = [0.7, 0.9, 0.8, 0.4, 0.2, 0, 0, 0, 0, 0.1];
    const rain = [0, 1, 1, 1, 0, 0, 0, 0, 0, 0];
    const result = monitoring.calibration({
      cells: cellsOf(
        rain.map(() => 1),
        rain,
        (at) => forecasts[at],
      ),
    });
    expect(2 * result.brier).toBeCloseTo(0.19, 12);
    expect(result.certain).toEqual({ fish: 4, contradicting: 0 });
  });
});
