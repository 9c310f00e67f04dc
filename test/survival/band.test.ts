import { describe, expect, test } from "vitest";
import { rampLaw } from "../../kernel-helpers/src/protection";
import { u } from "../../kernel-helpers/src/quantity/u";
import { band, bySizeClass, lengthClasses, localMinima } from "../../kernel-helpers/src/survival";

const laws = {
  bodyRatio: 0.1,
  turbineSurvival: (length: number) => 1 - length,
  protectedSurvival: 0.98,
  clearSpacing: u.mm(18),
};
const lengths = lengthClasses({ shortest: u.mm(20), longest: u.mm(300), step: u.mm(1) });
const protections = Array.from({ length: 101 }, (_, at) => rampLaw({ threshold: 0.1 + 0.002 * at }));

describe("survival.band", () => {
  test("its ends are the survival under the laws at the percentiles, since survival falls with the threshold", () => {
    const { lower, upper, draws } = band({ ...laws, protections, lengths, level: 0.9 });
    const at = (threshold: number) => {
      const { clearSpacing, ...rest } = laws;
      return bySizeClass({
        ...rest,
        protection: rampLaw({ threshold }),
        clearSpacings: [clearSpacing],
        lengths,
      })[0];
    };
    const [low, high] = [at(0.1 + 0.2 * 0.95).totalSurvival, at(0.1 + 0.2 * 0.05).totalSurvival];
    lower.forEach((value, place) => expect(value).toBeCloseTo(low[place], 10));
    upper.forEach((value, place) => expect(value).toBeCloseTo(high[place], 10));
    expect(draws).toBe(101);
  });

  test("the lowest minimum is that of localMinima, to the step between the lengths", () => {
    const { lowest } = band({
      ...laws,
      protections: protections.slice(0, 20).fill(protections[50]),
      lengths,
    });
    const [only] = localMinima({
      ...laws,
      protection: protections[50],
      shortest: u.mm(20),
      longest: u.mm(300),
    }).minima;
    expect(Math.abs((lowest?.totalLength.lower ?? 0) - only.totalLength)).toBeLessThanOrEqual(0.001);
    expect(lowest?.totalLength.upper).toBe(lowest?.totalLength.lower);
    expect(lowest?.totalSurvival.lower).toBeCloseTo(only.totalSurvival, 4);
  });

  test("has no lowest minimum where the turbine harms none", () => {
    expect(band({ ...laws, turbineSurvival: () => 0.9, protections, lengths }).lowest).toBeUndefined();
  });

  test("refuses few laws, lengths that don't rise and laws that give no share", () => {
    expect(() => band({ ...laws, protections: protections.slice(0, 5), lengths })).toThrow(
      "survival.band: there are 5 protection laws; percentiles need at least 20 draws.",
    );
    expect(() => band({ ...laws, protections, lengths: [u.mm(100), u.mm(100)] })).toThrow(
      "lengths[1] is not above",
    );
    expect(() => band({ ...laws, protections: protections.map(() => () => 2), lengths })).toThrow(
      "protection is 2 at 20 mm",
    );
  });
});
