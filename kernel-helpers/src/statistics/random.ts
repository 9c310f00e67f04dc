import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { skipN } from "pure-rand/utils/skipN";
import { checkWhole } from "./checks";

// Neighbouring seeds start this generator in neighbouring states; a few steps part them.
const WARM_UP = 64;

/** Refuses a seed that is no whole number from 0 to 4294967295: the generator takes 32 bits of it. */
export function checkSeed(where: string, seed: number): void {
  checkWhole(where, "seed", seed, 0, 2 ** 32 - 1);
}

/** A stream of numbers from 0 (included) to 1 (excluded) that depends on nothing but its seed, which is already checked. */
export function uniforms(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  skipN(generator, WARM_UP);
  return () => uniformFloat64(generator);
}
