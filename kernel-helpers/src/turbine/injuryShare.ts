import { defineFormula } from "../formula/formula";
import { length } from "../formula/input";
import { memory } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";
import { clipShare } from "./clipShare";

/**
 * Share of struck fish that die of it, one number for all lengths.
 *
 * Returns a share. Valid as a historical magnitude from few field tests.
 *
 * @example
 * turbine.injuryShareVonRaben({}) // => 0.43
 */
export const injuryShareVonRaben = defineFormula({
  id: "turbine.injuryShareVonRaben",
  title: "Injured share of struck fish, constant",
  symbol: "m",
  result: "ratio",
  inputs: {},
  tex: () => "0.43",
  source: memory("von Raben 1957, Die Wasserwirtschaft 47"),
  evaluate: () => 0.43,
});

/**
 * Share of struck fish that die of it, rising with length.
 *
 * Returns a share 0..1; the fitted line is cut off at both ends. Valid for low-head axial runners.
 *
 * @example
 * turbine.injuryShareByLength({ totalLength: u.cm(20) }) // => 0.47175
 */
export const injuryShareByLength = defineFormula({
  id: "turbine.injuryShareByLength",
  title: "Injured share of struck fish, by length",
  symbol: "m",
  result: "ratio",
  inputs: { totalLength: length("L", { above: 0, unit: "cm", usual: usualSizes.totalLength }) },
  tex: (q) =>
    `0.1533 \\ln\\left(\\frac{${q.totalLength}}{1\\,\\mathrm{cm}}\\right) + 0.0125,\\quad 0 \\le m \\le 1`,
  source: memory(
    "Turnpenny et al. 2000, Risk assessment for fish passage through small, low-head turbines, ETSU H/06/00054",
  ),
  evaluate: ({ totalLength }) => clipShare(0.1533 * Math.log(totalLength * 100) + 0.0125),
});
