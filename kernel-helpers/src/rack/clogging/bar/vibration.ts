import { defineFormula } from "../../../formula/formula";
import { count, frequency, length, number, velocity } from "../../../formula/input";
import { derived, memory } from "../../../formula/source";
import { formatNumber } from "../../../quantity/format";
import { usualSizes } from "../../../formula/usualSizes";
import { waterDensity } from "../../../quantity/constants";
import { barInputs, structuralCaution } from "./section";

/**
 * Frequency at which vortices leave a bar.
 *
 * Returns a frequency in hertz. A screening value: the Strouhal number belongs to the shape of the bar and refers to its
 * thickness across the flow and the velocity that meets the bar; bars close to each other and oblique flow change it.
 *
 * @example
 * clogging.sheddingFrequency({ strouhalNumber: 0.2, flowVelocity: u.mps(0.8), barThickness: u.mm(8) }) // => 20 Hz
 */
export const sheddingFrequency = defineFormula({
  id: "clogging.sheddingFrequency",
  title: "Frequency of vortex shedding",
  symbol: "f_s",
  result: "frequency",
  inputs: {
    strouhalNumber: number("S", { above: 0, tested: [0.1, 0.3], note: "about 0.2 for a round rod" }),
    flowVelocity: velocity("V", { atLeast: 0, note: "that meets the bar" }),
    barThickness: length("s", {
      above: 0,
      unit: "mm",
      usual: usualSizes.barThickness,
      note: "across the flow",
    }),
  },
  tex: (q) => `\\frac{${q.strouhalNumber}\\cdot ${q.flowVelocity}}{${q.barThickness}}`,
  source: derived("definition of the Strouhal number"),
  caution: () => [structuralCaution],
  evaluate: ({ strouhalNumber, flowVelocity, barThickness }) =>
    (strouhalNumber * flowVelocity) / barThickness,
});

/**
 * Natural frequency of a bar in water that swings across the flow.
 *
 * Returns a frequency in hertz. A screening value for a straight rectangular bar on two simple supports, by the beam of
 * Euler and Bernoulli, with the water that swings along: the added mass coefficient refers to a circle of water about the
 * bar's depth and is 0 in air, about 1 for a flat bar alone in water, and more between bars close to each other.
 *
 * @example
 * clogging.naturalFrequency({ barThickness: u.mm(8), barDepth: u.mm(60), span: u.m(0.6),
 *                             addedMassCoefficient: 1 }) // => 39.394 Hz
 */
export const naturalFrequency = defineFormula({
  id: "clogging.naturalFrequency",
  title: "Natural frequency of a bar in water",
  symbol: "f_n",
  result: "frequency",
  inputs: {
    ...barInputs,
    barDensity: number("\\rho_s", { above: 0, default: 7850, note: "in kg/m³, 7850 for steel" }),
    addedMassCoefficient: number("C_m", { atLeast: 0 }),
    mode: count("i", { default: 1 }),
  },
  steps: {
    mass: {
      title: "Mass of bar and water, in kg/m",
      symbol: "\\mu",
      result: "number",
      tex: (q) =>
        `${q.barDensity}\\cdot ${q.barThickness}\\cdot ${q.barDepth} + ${q.addedMassCoefficient}\\cdot\\rho\\pi\\frac{${q.barDepth}^2}{4}`,
      evaluate: (q) => massPerLength(q),
    },
  },
  tex: (q, steps) =>
    `\\frac{\\pi}{2}\\,${q.mode}^2\\sqrt{\\frac{${q.elasticModulus}\\cdot ${q.barDepth}\\cdot ${q.barThickness}^3/12}` +
    `{${steps.mass}\\cdot ${q.span}^4}}`,
  source: memory(
    "a pinned beam and the added mass of a plate: Blevins, Formulas for Natural Frequency and Mode Shape",
  ),
  validity: "rectangular bars on simple supports",
  caution: () => [structuralCaution],
  evaluate: (q) =>
    (Math.PI / 2) *
    q.mode ** 2 *
    Math.sqrt((q.elasticModulus * q.barDepth * q.barThickness ** 3) / 12 / (massPerLength(q) * q.span ** 4)),
});

function massPerLength({
  barDensity,
  barThickness,
  barDepth,
  addedMassCoefficient,
}: Readonly<Record<"barDensity" | "barThickness" | "barDepth" | "addedMassCoefficient", number>>): number {
  return (
    barDensity * barThickness * barDepth +
    addedMassCoefficient * waterDensity * ((Math.PI * barDepth ** 2) / 4)
  );
}

/**
 * How far a bar's natural frequency lies above that of the vortices.
 *
 * Returns natural over shedding frequency, a plain number. A screening value: near 1 the bar may swing ever wider, and
 * beneath 1 the vortices pass through its natural frequency whenever the flow rises or falls.
 *
 * @example
 * clogging.frequencyRatio({ naturalFrequency: u.Hz(36), sheddingFrequency: u.Hz(20), leastRatio: 1.5 }) // => 1.8
 */
export const frequencyRatio = defineFormula({
  id: "clogging.frequencyRatio",
  title: "Natural frequency over shedding frequency",
  symbol: "R_f",
  result: "number",
  inputs: {
    naturalFrequency: frequency("f_n", { above: 0 }),
    sheddingFrequency: frequency("f_s", { above: 0 }),
    leastRatio: number("R_{min}", { above: 1, note: "the margin that you ask for" }),
  },
  tex: (q) => `\\frac{${q.naturalFrequency}}{${q.sheddingFrequency}}`,
  source: derived("definition of the ratio"),
  caution: ({ naturalFrequency: own, sheddingFrequency: forced, leastRatio }) => [
    structuralCaution,
    ...(own / forced < leastRatio
      ? [
          `the ratio is ${formatNumber(own / forced)}, below the ${formatNumber(leastRatio)} asked for: vortices may ` +
            "shake the bars; shorten the span between spacers, or ask for a vibration study.",
        ]
      : []),
  ],
  evaluate: ({ naturalFrequency: own, sheddingFrequency: forced }) => own / forced,
});
