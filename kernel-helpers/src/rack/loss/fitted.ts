import { defineFormula } from "../../formula/formula";
import { number, ratio } from "../../formula/input";
import { practice } from "../../formula/source";
import { formatNumber } from "../../quantity/format";
import { angleInPlan } from "../angles";
import { blockageTerm } from "./blockageTerm";

/**
 * Loss coefficient from a law whose coefficients you fit to flume runs.
 *
 * Returns a plain number that refers to the approach velocity. Valid where the runs were, no further. Throws where
 * overlays would make the coefficient negative.
 *
 * @example
 * rackLoss.fitted({ scale: 2.5, blockageExponent: 1.5, angleExponent: 1.2, overlayCoefficient: 1.8,
 *                   blockage: 0.35, rackAngle: u.deg(38), overlayShare: 0.1 }) // => 0.65128
 */
export const fitted = defineFormula({
  id: "rackLoss.fitted",
  title: "Loss coefficient from a law of your own",
  symbol: "\\xi",
  result: "number",
  inputs: {
    scale: number("C", { above: 0 }),
    blockageExponent: number("a", {}),
    angleExponent: number("c", {}),
    overlayCoefficient: number("o", {}),
    blockage: ratio("P", { above: 0, below: 1 }),
    rackAngle: angleInPlan({}),
    overlayShare: ratio("\\Omega", { note: "share of the rack's height under bottom and top overlays" }),
  },
  tex: (q) =>
    `${q.scale}\\left(\\frac{${q.blockage}}{1 - ${q.blockage}}\\right)^{${q.blockageExponent}}` +
    `\\left(\\sin ${q.rackAngle}\\right)^{${q.angleExponent}}` +
    `\\left(1 + ${q.overlayCoefficient}\\cdot ${q.overlayShare}\\right)`,
  source: practice("a general law; its coefficients are fitted by the user to flume runs"),
  refuse: ({ overlayCoefficient, overlayShare }) =>
    1 + overlayCoefficient * overlayShare < 0
      ? `overlayCoefficient is ${formatNumber(overlayCoefficient)} and overlayShare ${formatNumber(overlayShare)}; ` +
        "their product must be at least -1, or the head loss would be negative."
      : undefined,
  evaluate: (q) =>
    q.scale *
    blockageTerm(q.blockage, q.blockageExponent) *
    Math.sin(q.rackAngle) ** q.angleExponent *
    (1 + q.overlayCoefficient * q.overlayShare),
});
