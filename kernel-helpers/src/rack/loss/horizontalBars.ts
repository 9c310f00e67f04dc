import { defineFormula } from "../../formula/formula";
import { number, ratio } from "../../formula/input";
import { memory } from "../../formula/source";
import { angleInPlan } from "../angles";
import { blockageTerm, spacerTerm } from "./blockageTerm";

/**
 * Loss coefficient of an angled rack with horizontal bars: an approximation.
 *
 * Returns a plain number that refers to the approach velocity. An equation for inclined racks with the plan angle in
 * place of the inclination; fit rackLoss.fitted to flume runs where the head loss matters.
 *
 * @example
 * rackLoss.horizontalBars({ barCoefficient: 3.85, barBlockage: 0.30769, spacerBlockage: 0.05,
 *                           rackAngle: u.deg(38) }) // => 0.56830
 */
export const horizontalBars = defineFormula({
  id: "rackLoss.horizontalBars",
  title: "Loss coefficient of an angled rack with horizontal bars",
  symbol: "\\xi",
  result: "number",
  inputs: {
    barCoefficient: number("A", { above: 0, note: "3.85 rectangular, 2.10 hydrodynamic" }),
    barBlockage: ratio("O", { below: 1 }),
    spacerBlockage: ratio("O_s", { below: 1 }),
    rackAngle: angleInPlan({}),
  },
  tex: (q) =>
    `${q.barCoefficient}\\left(\\frac{${q.barBlockage}}{1 - ${q.barBlockage}}\\right)^{1.65}` +
    `\\sin^2 ${q.rackAngle} + 1.79\\left(\\frac{${q.spacerBlockage}}{1 - ${q.spacerBlockage}}\\right)^{0.77}`,
  source: memory(
    "the equation of Raynal et al. 2013a for inclined racks, J. Hydraul. Res. 51(1), with the plan angle for the " +
      "inclination; Lemkecher et al. 2021, J. Hydraul. Res. 60(1), report that such an equation predicts horizontal " +
      "bars with some adaptations, and which ones was not read",
  ),
  validity: "an approximation for horizontal bars in a rack angled in plan",
  caution: () => [
    "approximate: an equation for inclined racks with the plan angle in place of the inclination; measured racks " +
      "with horizontal bars may differ.",
  ],
  evaluate: ({ barCoefficient, barBlockage, spacerBlockage, rackAngle }) =>
    barCoefficient * blockageTerm(barBlockage, 1.65) * Math.sin(rackAngle) ** 2 + spacerTerm(spacerBlockage),
});
