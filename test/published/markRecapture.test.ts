import { statistics } from "kernel-helpers";
import { describe, expect, test } from "vitest";

describe("two detectors, single release (form of Burnham et al. 1987, Am. Fish. Soc. Monograph 5; constructed numbers)", () => {
  test("1000 released; 560 seen twice, 80 at the first only, 120 at the second only, 240 never", () => {
    const { detection, onward, survival } = statistics.singleRelease({
      released: 1000,
      both: 560,
      firstOnly: 80,
      secondOnly: 120,
      neither: 240,
    });
    expect(detection.estimate).toBeCloseTo(0.823529, 6);
    expect(onward.estimate).toBeCloseTo(0.875, 12);
    expect(survival.estimate).toBeCloseTo(0.777143, 6);
    expect(survival.standardError).toBeCloseTo(0.014035, 6);
  });
});
