import { defineFormula } from "../../../formula/formula";
import { length, ratio } from "../../../formula/input";
import { memory } from "../../../formula/source";
import { freeFall, waterDensity } from "../../../quantity/constants";
import { barInputs, structuralCaution } from "./section";

interface LoadedBar {
  readonly headDifference: number;
  readonly blockedShare: number;
  readonly clearSpacing: number;
  readonly barThickness: number;
  readonly barDepth: number;
  readonly span: number;
  readonly elasticModulus: number;
}

/** Newtons a metre of bar: the bar carries the water on its own face and on the debris in the gap beside it. */
const lineLoad = ({ headDifference, blockedShare, clearSpacing, barThickness }: LoadedBar): number =>
  waterDensity * freeFall * headDifference * (barThickness + blockedShare * clearSpacing);

const loadInputs = {
  headDifference: length("\\Delta h", { atLeast: 0, note: "between the water before and behind the rack" }),
  blockedShare: ratio("c", { note: "share of the gap beside the bar that debris fills" }),
  clearSpacing: length("b", { above: 0, unit: "mm" }),
} as const;

const lineLoadTex = (q: Readonly<Record<keyof typeof loadInputs | "barThickness", string>>): string =>
  `\\rho g\\cdot ${q.headDifference}\\left(${q.barThickness} + ${q.blockedShare}\\cdot ${q.clearSpacing}\\right)`;

/**
 * Bending stress of a bar under the head difference of a clogged rack.
 *
 * Returns the largest stress in pascals, at mid-span. A screening value for a straight rectangular bar on two simple
 * supports that bends in the direction of the flow.
 *
 * @example
 * clogging.bendingStress({ headDifference: u.m(1), blockedShare: 1, clearSpacing: u.mm(18), barThickness: u.mm(8),
 *                          barDepth: u.mm(60), span: u.m(1.2) }) // => 9.5648 MPa
 */
export const bendingStress = defineFormula({
  id: "clogging.bendingStress",
  title: "Bending stress of a bar",
  symbol: "\\sigma",
  result: "pressure",
  unit: "MPa",
  inputs: {
    ...loadInputs,
    barThickness: barInputs.barThickness,
    barDepth: barInputs.barDepth,
    span: barInputs.span,
  },
  tex: (q) =>
    `\\frac{6}{8}\\cdot\\frac{${lineLoadTex(q)}\\cdot ${q.span}^2}{${q.barThickness}\\cdot ${q.barDepth}^2}`,
  source: memory(
    "bending of a simply supported beam: Young & Budynas, Roark's Formulas for Stress and Strain",
  ),
  validity: "rectangular bars on simple supports",
  caution: () => [structuralCaution],
  // Moment q L²/8 over the section modulus s d²/6.
  evaluate: (q) =>
    (lineLoad({ ...q, elasticModulus: 1 }) * q.span ** 2 * 6) / (8 * q.barThickness * q.barDepth ** 2),
});

/**
 * Deflection of a bar under the head difference of a clogged rack.
 *
 * Returns the deflection at mid-span in metres. A screening value for a straight rectangular bar on two simple supports
 * that bends in the direction of the flow.
 *
 * @example
 * clogging.deflection({ headDifference: u.m(1), blockedShare: 1, clearSpacing: u.mm(18), barThickness: u.mm(8),
 *                       barDepth: u.mm(60), span: u.m(1.2) }) // => 0.22773 mm
 */
export const deflection = defineFormula({
  id: "clogging.deflection",
  title: "Deflection of a bar",
  symbol: "w",
  result: "length",
  unit: "mm",
  inputs: { ...loadInputs, ...barInputs },
  tex: (q) =>
    `\\frac{5}{384}\\cdot\\frac{12\\cdot ${lineLoadTex(q)}\\cdot ${q.span}^4}` +
    `{${q.elasticModulus}\\cdot ${q.barThickness}\\cdot ${q.barDepth}^3}`,
  source: memory(
    "deflection of a simply supported beam: Young & Budynas, Roark's Formulas for Stress and Strain",
  ),
  validity: "rectangular bars on simple supports",
  caution: () => [structuralCaution],
  evaluate: (q) =>
    (5 * lineLoad(q) * q.span ** 4 * 12) / (384 * q.elasticModulus * q.barThickness * q.barDepth ** 3),
});
