import { defineFormula } from "../../formula/formula";
import { number, ratio } from "../../formula/input";
import { formatNumber } from "../../quantity/format";
import { derived, memory } from "../../formula/source";
import { u } from "../../quantity/u";
import { angleInPlan, angleToHorizontal } from "../angles";
import { blockageTerm } from "./blockageTerm";

/** The exponent m of P^(−m): 1.4 tan(90° − α). */
const turningExponent = (rackAngle: number): number => 1.4 * Math.tan(Math.PI / 2 - rackAngle);

/** The blockage below which the coefficient falls as blockage rises; 0 where it rises everywhere. */
const turn = (rackAngle: number): number => {
  // ξ ~ P^(1.5−m) (1−P)^(−1.5): its slope is 0 where (1.5 − m)(1 − P) + 1.5 P = 0.
  const exponent = turningExponent(rackAngle);
  return exponent > 1.5 ? (exponent - 1.5) / exponent : 0;
};

/**
 * Loss coefficient of an angled rack with vertical bars, from blockage, angle and inclination.
 *
 * Returns a plain number that refers to the approach velocity. Valid for vertical bars; tested for a blockage of 0.22 to
 * 0.6 and angles of 45° to 90°. Below about 43° it turns round at small blockages, and as blockage or angle near 0 it
 * grows beyond all bounds.
 *
 * @example
 * rackLoss.blockageAngle({ shapeFactor: 2.42, blockage: 0.4, rackAngle: u.deg(60),
 *                          inclination: u.deg(90) }) // => 1.8418
 */
export const blockageAngle = defineFormula({
  id: "rackLoss.blockageAngle",
  title: "Loss coefficient of an angled rack with vertical bars",
  symbol: "\\xi",
  result: "number",
  inputs: {
    shapeFactor: number("k_F", { above: 0, note: "of the bar's cross-section" }),
    blockage: ratio("P", { above: 0, below: 1, tested: [0.22, 0.6] }),
    rackAngle: angleInPlan({ tested: [u.deg(45), u.deg(90)] }),
    inclination: angleToHorizontal({}),
    cloggingFactor: number("k_V", { atLeast: 1, default: 1, note: "1 for a clean rack" }),
  },
  tex: (q) =>
    `${q.shapeFactor}\\left(\\frac{${q.blockage}}{1 - ${q.blockage}}\\right)^{1.5}` +
    `\\cdot\\frac{${q.rackAngle}}{90^\\circ}\\cdot ${q.blockage}^{-1.4\\tan(90^\\circ - ${q.rackAngle})}` +
    `\\cdot\\sin ${q.inclination}\\cdot ${q.cloggingFactor}`,
  source: memory("Meusburger 2002, dissertation, ETH Zürich"),
  validity: "vertical bars",
  caution: ({ blockage, rackAngle, cloggingFactor }) => [
    ...(cloggingFactor !== 1
      ? [
          `a clogging factor of ${formatNumber(cloggingFactor)} stands for the debris, so the blockage must be that ` +
            "of the clean rack; a clogged open share beside it counts the same debris twice.",
        ]
      : []),
    ...(blockage < turn(rackAngle)
      ? [
          `at this angle the equation falls as blockage rises, up to a blockage of ` +
            `${formatNumber(turn(rackAngle))}; racks don't behave so.`,
        ]
      : []),
  ],
  evaluate: ({ shapeFactor, blockage, rackAngle, inclination, cloggingFactor }) =>
    shapeFactor *
    blockageTerm(blockage, 1.5) *
    (rackAngle / (Math.PI / 2)) *
    blockage ** -turningExponent(rackAngle) *
    Math.sin(inclination) *
    cloggingFactor,
});

/**
 * Blockage up to which `rackLoss.blockageAngle` falls as blockage rises.
 *
 * Returns a ratio 0..1; 0 for angles above about 43°, where it rises everywhere. Valid for that equation,
 * not for racks.
 *
 * @example
 * rackLoss.blockageAngleTurn({ rackAngle: u.deg(38) }) // => 0.16291
 */
export const blockageAngleTurn = defineFormula({
  id: "rackLoss.blockageAngleTurn",
  title: "Blockage at which blockageAngle turns round",
  symbol: "P_0",
  result: "ratio",
  inputs: {
    rackAngle: angleInPlan({}),
  },
  tex: (q) => `\\max\\left(0,\\; 1 - \\frac{1.5}{1.4\\tan(90^\\circ - ${q.rackAngle})}\\right)`,
  source: derived("the blockage at which the slope of rackLoss.blockageAngle is zero"),
  evaluate: ({ rackAngle }) => turn(rackAngle),
});
