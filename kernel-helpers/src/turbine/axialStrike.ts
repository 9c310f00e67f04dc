import { count, discharge, length, ratio } from "../formula/input";
import { usualSizes } from "../formula/usualSizes";
import { clipShare } from "./clipShare";
import { dischargeCoefficient, energyCoefficient, type RunnerFlow } from "./runnerCoefficients";
import { correlationInput, headInput, speedInput } from "./strikeInputs";

/** Mid-blade, where nothing else is said about where the fish passes. */
const midBlade = 0.75;

/** The inputs that Kaplan and propeller runners share. */
export const axialInputs = {
  totalLength: length("L", { above: 0, unit: "mm", usual: usualSizes.totalLength }),
  discharge: discharge("Q", { above: 0 }),
  head: headInput,
  runnerDiameter: length("D", { above: 0 }),
  rotationalSpeed: speedInput,
  efficiency: ratio("\\eta", { above: 0 }),
  blades: count("N", {}),
  radiusRatio: ratio("r", {
    above: 0,
    tested: [0.5, 1],
    default: midBlade,
    note: "where the fish passes: 0.5 hub, 0.75 mid-blade, 1 tip",
  }),
  correlation: correlationInput,
} as const;

/** What the shared steps read, in SI units. */
export interface AxialRunner extends RunnerFlow {
  readonly totalLength: number;
  readonly runnerDiameter: number;
  readonly efficiency: number;
  readonly blades: number;
  readonly radiusRatio: number;
  readonly correlation: number;
}

const energy = (runner: AxialRunner): number => energyCoefficient(runner, runner.runnerDiameter);

/** q of this runner at its discharge. */
export const flow = (runner: AxialRunner): number =>
  dischargeCoefficient(runner.discharge, runner.rotationalSpeed, runner.runnerDiameter);

/** Tangent of the angle that Euler's equation gives: the swirl that the runner takes out of the water. */
export const eulerTangent = (runner: AxialRunner): number =>
  ((Math.PI / 2) * energy(runner) * runner.efficiency) / (flow(runner) * runner.radiusRatio);

/** Strike probability for a given tangent of the inflow angle. */
export function axialStrike(runner: AxialRunner, tangent: number): number {
  const inflow = Math.atan(tangent);
  const bracket = Math.cos(inflow) / (8 * flow(runner)) + Math.sin(inflow) / (Math.PI * runner.radiusRatio);
  return clipShare(
    ((runner.correlation * runner.blades * runner.totalLength) / runner.runnerDiameter) * bracket,
  );
}

type AxialTex = { readonly [N in keyof typeof axialInputs]: string };

/** The first two worked steps of both runners. */
export const coefficientSteps = {
  energy: {
    title: "Energy coefficient",
    symbol: "E",
    result: "number",
    tex: (q: AxialTex) =>
      `\\frac{g \\cdot ${q.head}}{\\left(2\\pi \\cdot ${q.rotationalSpeed} \\cdot ${q.runnerDiameter}\\right)^2}`,
    evaluate: energy,
  },
  flow: {
    title: "Discharge coefficient",
    symbol: "q",
    result: "number",
    tex: (q: AxialTex) =>
      `\\frac{${q.discharge}}{2\\pi \\cdot ${q.rotationalSpeed} \\cdot ${q.runnerDiameter}^3}`,
    evaluate: flow,
  },
} as const;

/** The tangent of Euler's angle in LaTeX. */
export const eulerTex = (q: AxialTex, steps: Readonly<Record<string, string>>): string =>
  `\\frac{\\pi}{2} \\cdot \\frac{${steps.energy} \\cdot ${q.efficiency}}{${steps.flow} \\cdot ${q.radiusRatio}}`;

/** The strike probability of both runners in LaTeX. */
export const axialStrikeTex = (q: AxialTex, steps: Readonly<Record<string, string>>): string =>
  `${q.correlation} \\cdot \\frac{${q.blades} \\cdot ${q.totalLength}}{${q.runnerDiameter}}` +
  `\\left[\\frac{\\cos ${steps.inflowAngle}}{8 \\cdot ${steps.flow}} + ` +
  `\\frac{\\sin ${steps.inflowAngle}}{\\pi \\cdot ${q.radiusRatio}}\\right],\\quad 0 \\le P \\le 1`;
