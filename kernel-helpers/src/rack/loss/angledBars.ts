import { defineFormula } from "../../formula/formula";
import { number, ratio } from "../../formula/input";
import { derived, memory } from "../../formula/source";
import { formatNumber } from "../../quantity/format";
import { u } from "../../quantity/u";
import { angleInPlan } from "../angles";
import { blockageTerm } from "./blockageTerm";

/** The factor k((90° − α)/90°)^2.35 of the angle term. */
const angleFactor = (angleCoefficient: number, rackAngle: number): number =>
  angleCoefficient * ((Math.PI / 2 - rackAngle) / (Math.PI / 2)) ** 2.35;

/** Blocked over open area x = O/(1−O) where K (x^1.6 + c x^−1.4) has no slope: 1.6 x³ = 1.4 c. */
const turnRatio = (angleCoefficient: number, rackAngle: number): number =>
  Math.cbrt((1.4 / 1.6) * angleFactor(angleCoefficient, rackAngle));

/** The blockage below which the coefficient falls as blockage rises. */
const turn = (angleCoefficient: number, rackAngle: number): number => {
  const x = turnRatio(angleCoefficient, rackAngle);
  return x / (1 + x);
};

/**
 * Loss coefficient of an angled rack with vertical bars set square to the rack.
 *
 * Returns a plain number that refers to the approach velocity. Valid for vertical bars; tested for a blockage of 0.35 to
 * 0.60 and angles of 30° to 90°. At small blockages it turns round and grows beyond all bounds as blockage nears 0;
 * coefficients stand in angledBarCoefficients.
 *
 * @example
 * rackLoss.angledBars({ barCoefficient: 2.89, angleCoefficient: 1.69, blockage: 0.45,
 *                       rackAngle: u.deg(45) }) // => 3.3651
 */
export const angledBars = defineFormula({
  id: "rackLoss.angledBars",
  title: "Loss coefficient of an angled rack with vertical bars square to it",
  symbol: "\\xi",
  result: "number",
  inputs: {
    barCoefficient: number("K", { above: 0, note: "2.89 rectangular, 1.70 hydrodynamic" }),
    angleCoefficient: number("k", { atLeast: 0, note: "1.69 rectangular, 2.78 hydrodynamic" }),
    blockage: ratio("O", { above: 0, below: 1, tested: [0.35, 0.6] }),
    rackAngle: angleInPlan({ tested: [u.deg(30), u.deg(90)] }),
  },
  tex: (q) =>
    `${q.barCoefficient}\\left(\\frac{${q.blockage}}{1 - ${q.blockage}}\\right)^{1.6}` +
    `\\left[1 + ${q.angleCoefficient}\\left(\\frac{90^\\circ - ${q.rackAngle}}{90^\\circ}\\right)^{2.35}` +
    `\\left(\\frac{1 - ${q.blockage}}{${q.blockage}}\\right)^3\\right]`,
  source: memory("Raynal et al. 2013b, J. Hydraul. Res. 51(1)"),
  validity: "vertical bars square to the rack",
  caution: ({ angleCoefficient, blockage, rackAngle }) => {
    const turning = turn(angleCoefficient, rackAngle);
    return blockage < turning
      ? [
          `at this angle the equation falls as blockage rises, up to a blockage of ${formatNumber(turning)}; ` +
            "racks don't behave so.",
        ]
      : [];
  },
  evaluate: ({ barCoefficient, angleCoefficient, blockage, rackAngle }) =>
    barCoefficient *
    blockageTerm(blockage, 1.6) *
    (1 + angleFactor(angleCoefficient, rackAngle) * ((1 - blockage) / blockage) ** 3),
});

/**
 * Blockage up to which `rackLoss.angledBars` falls as blockage rises.
 *
 * Returns a ratio 0..1; 0 for a rack square to the flow, where it rises everywhere. Valid for that equation, not
 * for racks.
 *
 * @example
 * rackLoss.angledBarsTurn({ angleCoefficient: 1.69, rackAngle: u.deg(38) }) // => 0.42573
 */
export const angledBarsTurn = defineFormula({
  id: "rackLoss.angledBarsTurn",
  title: "Blockage at which angledBars turns round",
  symbol: "O_0",
  result: "ratio",
  inputs: {
    angleCoefficient: number("k", { atLeast: 0, note: "1.69 rectangular, 2.78 hydrodynamic" }),
    rackAngle: angleInPlan({}),
  },
  steps: {
    ratio: {
      title: "Blocked over open area where the slope is zero",
      symbol: "x_0",
      result: "number",
      tex: (q) =>
        `\\sqrt[3]{\\frac{1.4}{1.6}\\cdot ${q.angleCoefficient}` +
        `\\left(\\frac{90^\\circ - ${q.rackAngle}}{90^\\circ}\\right)^{2.35}}`,
      evaluate: ({ angleCoefficient, rackAngle }) => turnRatio(angleCoefficient, rackAngle),
    },
  },
  tex: (_, steps) => `\\frac{${steps.ratio}}{1 + ${steps.ratio}}`,
  source: derived("the blockage at which the slope of rackLoss.angledBars is zero"),
  evaluate: ({ angleCoefficient, rackAngle }) => turn(angleCoefficient, rackAngle),
});

/** Coefficients K and k of `rackLoss.angledBars`, by bar profile; K serves `rackLoss.streamwiseBars` too. */
export const angledBarCoefficients = {
  rectangular: { barCoefficient: 2.89, angleCoefficient: 1.69 },
  hydrodynamic: { barCoefficient: 1.7, angleCoefficient: 2.78 },
} as const;
