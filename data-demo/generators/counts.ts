import type { Draws } from "./random";

/** Draws a number of events with the given mean (Poisson): how many exponential steps fit into it. */
export function poisson(draws: Draws, mean: number): number {
  let passed = -Math.log(1 - draws.uniform());
  let count = 0;
  while (passed < mean) {
    count++;
    passed -= Math.log(1 - draws.uniform());
  }
  return count;
}

/** Draws yes with the given probability. */
export function happens(draws: Draws, probability: number): boolean {
  return draws.uniform() < probability;
}
