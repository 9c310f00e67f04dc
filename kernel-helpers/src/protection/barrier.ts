import { defineFormula } from "../formula/formula";
import { number } from "../formula/input";
import { derived } from "../formula/source";

/**
 * Protection by the body alone: a fish as wide as the gap is stopped, a smaller one is not.
 *
 * Returns a share, 0 or 1. Valid as the lower bound: it leaves out every fish that turns back of its own accord.
 *
 * @example
 * protection.barrier({ relativeWidth: 1 }) // => 1
 */
export const barrier = defineFormula({
  id: "protection.barrier",
  title: "Protection by the body alone",
  symbol: "\\varphi",
  result: "ratio",
  inputs: { relativeWidth: number("w", { atLeast: 0, note: "body width or height over clear spacing" }) },
  tex: (q) => `\\begin{cases} 0 & ${q.relativeWidth} < 1 \\\\ 1 & ${q.relativeWidth} \\ge 1 \\end{cases}`,
  source: derived("a stiff body passes no gap narrower than itself"),
  validity: "stiff bars and bodies; behaviour left out",
  evaluate: ({ relativeWidth }) => (relativeWidth < 1 ? 0 : 1),
});
