import { defineFormula } from "../../formula/formula";
import { number, ratio } from "../../formula/input";
import { derived } from "../../formula/source";

/**
 * Loss factor of a rack of which a cleaner reaches one part only, and of which sediment covers another.
 *
 * Returns a plain number: the head loss over that of the whole rack when clean. Valid where both parts stand side by side
 * between the same water levels, each with a loss that goes with the square of its velocity. It grows beyond all bounds
 * as the covered share nears 1.
 *
 * @example
 * clogging.zonesInParallel({ reachedShare: 0.9, reachedFactor: 2, otherFactor: 25, coveredShare: 0.05 }) // => 2.5717
 */
export const zonesInParallel = defineFormula({
  id: "clogging.zonesInParallel",
  title: "Loss factor of a rack with two zones and a covered part",
  symbol: "k",
  result: "number",
  inputs: {
    reachedShare: ratio("r", { note: "share of the open rack that the cleaner reaches" }),
    reachedFactor: number("k_1", { atLeast: 1, note: "loss factor of that part" }),
    otherFactor: number("k_2", { atLeast: 1, note: "loss factor of the rest" }),
    coveredShare: ratio("c", { below: 1, default: 0, note: "share of the rack behind sediment" }),
  },
  tex: (q) =>
    `\\left[\\left(1 - ${q.coveredShare}\\right)\\left(\\frac{${q.reachedShare}}{\\sqrt{${q.reachedFactor}}} + ` +
    `\\frac{1 - ${q.reachedShare}}{\\sqrt{${q.otherFactor}}}\\right)\\right]^{-2}`,
  source: derived("continuity, and one head loss for the zones side by side"),
  evaluate: ({ reachedShare, reachedFactor, otherFactor, coveredShare }) =>
    ((1 - coveredShare) *
      (reachedShare / Math.sqrt(reachedFactor) + (1 - reachedShare) / Math.sqrt(otherFactor))) **
    -2,
});
