import { defineFormula } from "../../formula/formula";
import { length, number, velocity } from "../../formula/input";
import { published } from "../../formula/source";
import { usualSizes } from "../../formula/usualSizes";
import { angleToHorizontal } from "../angles";
import { velocityHead } from "./velocityHead";

/**
 * Head loss of a clean bar rack that stands square to the flow in plan.
 *
 * Returns the head loss in metres. Valid for clean vertical bars, about five times deeper than thick.
 *
 * @example
 * rackLoss.kirschmer({ shapeFactor: 2.42, barThickness: u.mm(12), clearSpacing: u.mm(70),
 *                      inclination: u.deg(60), approachVelocity: u.mps(0.84) }) // => 0.0071777 m
 */
export const kirschmer = defineFormula({
  id: "rackLoss.kirschmer",
  title: "Head loss of a clean bar rack",
  symbol: "\\Delta h",
  result: "length",
  inputs: {
    shapeFactor: number("\\beta", { above: 0, tested: [0.76, 2.42], note: "of the bar's cross-section" }),
    barThickness: length("s", { above: 0, unit: "mm", usual: usualSizes.barThickness }),
    clearSpacing: length("b", { above: 0, unit: "mm", usual: usualSizes.clearSpacing }),
    inclination: angleToHorizontal({}),
    approachVelocity: velocity("U", { atLeast: 0, usual: usualSizes.approachVelocity }),
  },
  tex: (q) =>
    `${q.shapeFactor}\\left(\\frac{${q.barThickness}}{${q.clearSpacing}}\\right)^{4/3}` +
    `\\sin ${q.inclination}\\cdot\\frac{${q.approachVelocity}^2}{2g}`,
  source: published(
    "Kirschmer 1926, Mitteilungen des Hydraulischen Instituts der TH München 1, as printed in water-power handbooks",
  ),
  validity: "clean rack, square to the flow in plan, bars about five times deeper than thick",
  evaluate: ({ shapeFactor, barThickness, clearSpacing, inclination, approachVelocity }) =>
    shapeFactor *
    (barThickness / clearSpacing) ** (4 / 3) *
    Math.sin(inclination) *
    velocityHead(approachVelocity),
});

/** Shape factor β of a bar's cross-section, for `rackLoss.kirschmer` and `rackLoss.blockageAngle`. */
export const shapeFactors = {
  sharpRectangle: 2.42,
  roundNose: 1.83,
  roundNoseAndTail: 1.67,
  roundNoseTapered: 1.035,
  lensNoseTapered: 0.92,
  fullyStreamlined: 0.76,
  roundRod: 1.79,
} as const;

/** The name of a bar's cross-section, such as `"sharpRectangle"`. */
export type BarShape = keyof typeof shapeFactors;
