import { defineFormula } from "../../formula/formula";
import { number, ratio } from "../../formula/input";
import { memory } from "../../formula/source";
import { angleToHorizontal } from "../angles";
import { blockageTerm, spacerTerm } from "./blockageTerm";

/**
 * Loss coefficient of a rack inclined in elevation and square to the flow in plan.
 *
 * Returns a plain number that refers to the approach velocity. Valid for bars that run up the slope, with spacers
 * between them; bar coefficients stand in inclinedBarCoefficients.
 *
 * @example
 * rackLoss.inclinedBars({ barCoefficient: 3.85, barBlockage: 0.31, spacerBlockage: 0.1,
 *                         inclination: u.deg(26) }) // => 0.52728
 */
export const inclinedBars = defineFormula({
  id: "rackLoss.inclinedBars",
  title: "Loss coefficient of an inclined rack",
  symbol: "\\xi",
  result: "number",
  inputs: {
    barCoefficient: number("A", { above: 0, note: "3.85 rectangular, 2.10 hydrodynamic" }),
    barBlockage: ratio("O", { below: 1 }),
    spacerBlockage: ratio("O_s", { below: 1 }),
    inclination: angleToHorizontal({}),
  },
  tex: (q) =>
    `${q.barCoefficient}\\left(\\frac{${q.barBlockage}}{1 - ${q.barBlockage}}\\right)^{1.65}` +
    `\\sin^2 ${q.inclination} + 1.79\\left(\\frac{${q.spacerBlockage}}{1 - ${q.spacerBlockage}}\\right)^{0.77}`,
  source: memory("Raynal et al. 2013a, J. Hydraul. Res. 51(1)"),
  validity: "racks inclined in elevation, square to the flow in plan",
  evaluate: ({ barCoefficient, barBlockage, spacerBlockage, inclination }) =>
    barCoefficient * blockageTerm(barBlockage, 1.65) * Math.sin(inclination) ** 2 +
    spacerTerm(spacerBlockage),
});

/** Bar coefficient A of `rackLoss.inclinedBars` and `rackLoss.horizontalBars`, by bar profile. */
export const inclinedBarCoefficients = { rectangular: 3.85, hydrodynamic: 2.1 } as const;
