import * as fc from "fast-check";
import { survival, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { anyProtection, anyTurbine, bodyRatio, fallingTurbine, share, spacing } from "./laws";

const shortest = 30;
const longest = 700;

interface Low {
  readonly millimetres: number;
  readonly value: number;
}

/** The highest value on the way from a point to the first lower one, in steps of `direction`; none at an end. */
function ridge(values: readonly number[], from: number, direction: 1 | -1): number {
  let highest = values[from];
  for (let at = from; at >= 0 && at < values.length; at += direction) {
    if (values[at] < values[from] - 1e-12) break;
    highest = Math.max(highest, values[at]);
  }
  return highest;
}

/** The plainest search there is: every tenth of a millimetre, lower than the nearest different value on both sides. */
function scanEveryTenth(total: (millimetres: number) => number): readonly Low[] {
  const values = Array.from({ length: (longest - shortest) * 10 + 1 }, (_, at) => total(shortest + at / 10));
  const lows: Low[] = [];
  let start = 0;
  for (let at = 1; at < values.length; at++) {
    if (Math.abs(values[at] - values[start]) <= 1e-12) continue;
    const bottom = start > 0 && values[start - 1] > values[start] && values[at] > values[start];
    // Dips of less than one fish in a thousand million are rounding to either search.
    if (bottom && Math.min(ridge(values, start, 1), ridge(values, start, -1)) - values[start] > 1e-9) {
      lows.push({ millimetres: shortest + start / 10, value: values[start] });
    }
    start = at;
  }
  return lows;
}

describe("localMinima against a scan of 0.1 mm", () => {
  it.each([0.1, 0.5])("finds every minimum of the scan and no other, with a step of %s mm", (step) => {
    let found = 0;
    fc.assert(
      fc.property(
        anyProtection,
        fc.oneof(anyTurbine, fallingTurbine),
        bodyRatio,
        spacing,
        share,
        (protection, turbineSurvival, ratio, gap, protectedSurvival) => {
          const laws = { bodyRatio: ratio, protection, turbineSurvival, protectedSurvival };
          const range = { shortest: u.mm(shortest), longest: u.mm(longest), step: u.mm(step) };
          const { minima, reason } = survival.localMinima({ ...laws, ...range, clearSpacing: u.mm(gap) });
          const scanned = scanEveryTenth((millimetres) => {
            const width = (ratio * millimetres) / gap;
            const kept = protection(width);
            return kept * protectedSurvival + (1 - kept) * turbineSurvival(u.mm(millimetres));
          });
          // Nobody can tell a minimum from an end within a step of the ends.
          const inside = (at: number): boolean => at > shortest + 1 && at < longest - 1;
          const expected = scanned.filter((low) => inside(low.millimetres));
          const got = minima.filter((low) => inside(u.to.mm(low.totalLength)));
          expect(got.map((low) => u.to.mm(low.totalLength))).toHaveLength(expected.length);
          got.forEach((low, at) => {
            const apart = Math.abs(u.to.mm(low.totalLength) - expected[at].millimetres);
            // Where the bottom is flat to the last digits, one length is as low as another.
            const asLow = Math.abs(low.totalSurvival - expected[at].value) < 1e-10;
            expect(apart < 0.11 || (apart < 1 && asLow)).toBe(true);
            expect(low.totalSurvival).toBeLessThanOrEqual(expected[at].value + 1e-12);
            expect(low.depth).toBeCloseTo(protectedSurvival - low.totalSurvival, 12);
          });
          expect(reason === undefined).toBe(minima.length > 0);
          found += got.length;
        },
      ),
      { numRuns: 400, seed: 20_240_611, endOnFailure: true },
    );
    expect(found).toBeGreaterThan(150);
  });
});
