import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { skipN } from "pure-rand/utils/skipN";

/** One seeded stream of draws; each call moves it on. */
export interface Draws {
  /** Returns a number from 0 (included) to 1 (excluded), all equally likely. */
  uniform(): number;
  /** Returns a whole number from `from` to `to`, both included, all equally likely. */
  integer(from: number, to: number): number;
  /** Returns a normally distributed number. */
  normal(mean: number, standardDeviation: number): number;
  /** Returns a positive number whose logarithm is normal: `spread` is the standard deviation of ln x. */
  lognormal(median: number, spread: number): number;
  /** Returns an index into `shares`, drawn in proportion to them; they need not add up to 1. */
  categorical(shares: readonly number[]): number;
}

// Neighbouring seeds start this generator in neighbouring states; a few steps part them.
const WARM_UP = 64;

/**
 * A stream of random draws that depends on nothing but its seed.
 *
 * @example
 * seededDraws(7).integer(1, 6) === seededDraws(7).integer(1, 6) // => true
 */
export function seededDraws(seed: number): Draws {
  const generator = xoroshiro128plus(seed);
  skipN(generator, WARM_UP);
  const uniform = () => uniformFloat64(generator);

  // Box–Muller without its second number: always two uniforms a draw, so that no branch can differ
  // between machines by the last bit of a logarithm.
  const normal = (mean: number, standardDeviation: number) => {
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    return mean + standardDeviation * radius * Math.cos(2 * Math.PI * uniform());
  };

  return {
    uniform,
    integer: (from, to) => from + Math.floor(uniform() * (to - from + 1)),
    normal,
    lognormal: (median, spread) => median * Math.exp(normal(0, spread)),
    categorical: (shares) => {
      const total = shares.reduce((sum, share) => sum + share, 0);
      if (!(total > 0) || shares.some((share) => !(share >= 0))) {
        throw new RangeError(
          `categorical: the shares are ${shares.join(", ")}; each must be at least 0 and their sum above 0.`,
        );
      }
      let left = uniform() * total;
      for (let index = 0; index < shares.length; index++) {
        left -= shares[index];
        if (left < 0) return index;
      }
      // Rounding can leave a crumb of the last share: the last one that can be drawn takes it.
      return shares.findLastIndex((share) => share > 0);
    },
  };
}
