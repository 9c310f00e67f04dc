import { defineFormula } from "../../formula/formula";
import { area, length, mass, number } from "../../formula/input";
import { practice } from "../../formula/source";
import { usualSizes } from "../../formula/usualSizes";

/** The spacing that the scale of the law refers to, in metres. */
export const referenceSpacing = 0.02;

/** Said wherever a loss factor meets a head loss. */
export const countTwice =
  "the loss factor stands for the debris, so the clean loss must be that of the clean rack; a clogged open share or a " +
  "clogging factor beside it counts the same debris twice.";

/**
 * Loss factor of a rack with debris: its head loss over that of the clean rack.
 *
 * Returns a plain number, 1 for a clean rack. Valid for debris like that of the trials the coefficients were fitted to,
 * spread over the rack, and for the loads of those trials; the scale is k − 1 at 1 kg of debris a square metre of rack
 * and a clear spacing of 20 mm.
 *
 * @example
 * clogging.lossFactor({ debrisMass: u.kg(80), rackArea: u.m2(99.4), clearSpacing: u.mm(18), scale: 6,
 *                       loadExponent: 1.3, spacingExponent: 0.5 }) // => 5.7692
 */
export const lossFactor = defineFormula({
  id: "clogging.lossFactor",
  title: "Loss factor of a rack with debris",
  symbol: "k",
  result: "number",
  inputs: {
    debrisMass: mass("m", { atLeast: 0, note: "on the rack, as wet leaves" }),
    rackArea: area("A", { above: 0, note: "gross area of the rack under water" }),
    clearSpacing: length("b", { above: 0, unit: "mm", usual: usualSizes.clearSpacing }),
    scale: number("C", { atLeast: 0 }),
    loadExponent: number("e", { above: 0, atMost: 10 }),
    spacingExponent: number("n", { atLeast: -5, atMost: 5 }),
  },
  tex: (q) =>
    `1 + ${q.scale}\\left(\\frac{${q.debrisMass}/${q.rackArea}}{1\\,\\text{kg/m}^2}\\right)^{${q.loadExponent}}` +
    `\\left(\\frac{20\\,\\text{mm}}{${q.clearSpacing}}\\right)^{${q.spacingExponent}}`,
  source: practice("a general law; its coefficients are fitted by the user to clogging trials"),
  caution: () => [countTwice],
  evaluate: ({ debrisMass, rackArea, clearSpacing, scale, loadExponent, spacingExponent }) =>
    1 +
    scale * (debrisMass / rackArea) ** loadExponent * (referenceSpacing / clearSpacing) ** spacingExponent,
});
