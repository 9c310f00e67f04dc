import { defineFormula } from "../formula/formula";
import { count, discharge, length, number, ratio } from "../formula/input";
import { usualSizes } from "../formula/usualSizes";
import { clipShare } from "./clipShare";
import { dischargeCoefficient, energyCoefficient, type RunnerFlow } from "./runnerCoefficients";
import { bestDischargeInput, correlationInput, headInput, speedInput, strikeSource } from "./strikeInputs";

/** Radius that halves the outlet's area, over the outlet's radius: √½, written 0.707 in the source. */
// oxlint-disable-next-line oxc/approx-constant -- the source rounds it
const meanRadius = 0.707;

interface FrancisRunner extends RunnerFlow {
  readonly totalLength: number;
  readonly inletDiameter: number;
  readonly outletDiameter: number;
  readonly inletHeight: number;
  readonly efficiency: number;
  readonly blades: number;
  readonly bestDischarge: number;
  readonly swirlFreeRatio: number;
  readonly correlation: number;
}

const flow = (runner: FrancisRunner): number =>
  dischargeCoefficient(runner.discharge, runner.rotationalSpeed, runner.inletDiameter);

const bestFlow = (runner: FrancisRunner): number =>
  dischargeCoefficient(runner.bestDischarge, runner.rotationalSpeed, runner.inletDiameter);

const energy = (runner: FrancisRunner): number => energyCoefficient(runner, runner.inletDiameter);

/** Tangent of the blade angle at the outlet: the one that leaves no swirl at χ times the best discharge. */
const outletTangent = (runner: FrancisRunner): number =>
  ((meanRadius * (Math.PI / 8)) / (runner.swirlFreeRatio * bestFlow(runner))) *
  (runner.outletDiameter / runner.inletDiameter) ** 3;

/** Cotangent of the angle between the water and the circumference at the inlet: swirl over radial velocity. */
function inletCotangent(runner: FrancisRunner): number {
  const height = runner.inletHeight / runner.inletDiameter;
  const widening = runner.outletDiameter / runner.inletDiameter;
  const q = flow(runner);
  const headTaken = ((2 * Math.PI * energy(runner) * runner.efficiency) / q) * height;
  const swirlOfRotation = ((Math.PI * meanRadius ** 2) / (2 * q)) * height * widening ** 2;
  const swirlOfBlades = (4 * meanRadius * outletTangent(runner) * height) / widening;
  return headTaken + swirlOfRotation - swirlOfBlades;
}

/** In (0, 180°): a negative cotangent belongs to an angle beyond 90°, which arctan alone would lose. */
const inletAngle = (runner: FrancisRunner): number => Math.atan2(1, inletCotangent(runner));

/**
 * Chance that a blade of a Francis runner strikes and harms a fish.
 *
 * Returns a probability 0..1, cut off at both ends. The correlation factor is the share of strikes that harm, so no
 * injury share comes on top. Valid for Francis runners described by inlet and outlet.
 *
 * @example
 * turbine.strikeFrancis({ totalLength: u.mm(150), discharge: u.m3ps(2.4), bestDischarge: u.m3ps(2), head: u.m(12),
 *                         inletDiameter: u.m(0.78), outletDiameter: u.m(0.8), inletHeight: u.m(0.22),
 *                         rotationalSpeed: u.rpm(300), efficiency: 0.88, blades: 13, swirlFreeRatio: 1.05,
 *                         correlation: 0.15 }) // => 0.2699
 */
export const strikeFrancis = defineFormula({
  id: "turbine.strikeFrancis",
  title: "Strike probability, Francis",
  symbol: "P",
  result: "ratio",
  inputs: {
    totalLength: length("L", { above: 0, unit: "mm", usual: usualSizes.totalLength }),
    discharge: discharge("Q", { above: 0 }),
    head: headInput,
    inletDiameter: length("D_1", { above: 0 }),
    outletDiameter: length("D_2", { above: 0 }),
    inletHeight: length("B", { above: 0 }),
    rotationalSpeed: speedInput,
    efficiency: ratio("\\eta", { above: 0 }),
    blades: count("N", {}),
    bestDischarge: bestDischargeInput,
    swirlFreeRatio: number("\\chi", {
      above: 0,
      tested: [1, 1.1],
      note: "discharge without swirl behind the runner over bestDischarge",
    }),
    correlation: correlationInput,
  },
  steps: {
    energy: {
      title: "Energy coefficient",
      symbol: "E",
      result: "number",
      tex: (q) =>
        `\\frac{g \\cdot ${q.head}}{\\left(2\\pi \\cdot ${q.rotationalSpeed} \\cdot ${q.inletDiameter}\\right)^2}`,
      evaluate: energy,
    },
    flow: {
      title: "Discharge coefficient",
      symbol: "q",
      result: "number",
      tex: (q) => `\\frac{${q.discharge}}{2\\pi \\cdot ${q.rotationalSpeed} \\cdot ${q.inletDiameter}^3}`,
      evaluate: flow,
    },
    bestFlow: {
      title: "Discharge coefficient at the best efficiency",
      symbol: "q_b",
      result: "number",
      tex: (q) => `\\frac{${q.bestDischarge}}{2\\pi \\cdot ${q.rotationalSpeed} \\cdot ${q.inletDiameter}^3}`,
      evaluate: bestFlow,
    },
    outletTangent: {
      title: "Tangent of the blade angle at the outlet",
      symbol: "\\tan b",
      result: "number",
      tex: (q, steps) =>
        `\\frac{0.707\\,\\pi/8}{${q.swirlFreeRatio} \\cdot ${steps.bestFlow}}` +
        `\\left(\\frac{${q.outletDiameter}}{${q.inletDiameter}}\\right)^3`,
      evaluate: outletTangent,
    },
    inletAngle: {
      title: "Inflow angle to the circumference",
      symbol: "t",
      result: "angle",
      tex: (q, steps) =>
        `\\operatorname{arccot}\\left(2\\pi \\cdot \\frac{${steps.energy} \\cdot ${q.efficiency}}{${steps.flow}} \\cdot ` +
        `\\frac{${q.inletHeight}}{${q.inletDiameter}} + \\frac{\\pi\\,0.707^2}{2 \\cdot ${steps.flow}} \\cdot ` +
        `\\frac{${q.inletHeight}}{${q.inletDiameter}}\\left(\\frac{${q.outletDiameter}}{${q.inletDiameter}}\\right)^2 - ` +
        `4 \\cdot 0.707 \\cdot ${steps.outletTangent} \\cdot \\frac{${q.inletHeight}}{${q.inletDiameter}} \\cdot ` +
        `\\frac{${q.inletDiameter}}{${q.outletDiameter}}\\right)`,
      evaluate: inletAngle,
    },
  },
  tex: (q, steps) =>
    `${q.correlation} \\cdot \\frac{${q.blades} \\cdot ${q.totalLength}}{${q.inletDiameter}}` +
    `\\left[\\frac{\\sin ${steps.inletAngle}}{2 \\cdot ${steps.flow}} \\cdot \\frac{${q.inletHeight}}{${q.inletDiameter}} + ` +
    `\\frac{\\cos ${steps.inletAngle}}{\\pi}\\right],\\quad 0 \\le P \\le 1`,
  source: strikeSource,
  validity: "Francis runners described by inlet and outlet",
  caution: (runner) =>
    inletCotangent(runner) < 0
      ? [
          "the swirl at the inlet is reversed here, which lowers the probability; no source says that it does.",
        ]
      : [],
  evaluate: (runner) => {
    const inflow = inletAngle(runner);
    const bracket =
      (Math.sin(inflow) * (runner.inletHeight / runner.inletDiameter)) / (2 * flow(runner)) +
      Math.cos(inflow) / Math.PI;
    return clipShare(
      ((runner.correlation * runner.blades * runner.totalLength) / runner.inletDiameter) * bracket,
    );
  },
});
