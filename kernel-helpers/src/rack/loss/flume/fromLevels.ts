import { defineFormula } from "../../../formula/formula";
import { discharge, length, number, printValue } from "../../../formula/input";
import { derived } from "../../../formula/source";
import { freeFall } from "../../../quantity/constants";
import { velocityHead } from "../velocityHead";

const inputs = {
  discharge: discharge("Q", { above: 0, unit: "Lps" }),
  flumeWidth: length("B", { above: 0 }),
  upstreamDepth: length("h_1", { above: 0, unit: "mm", note: "the gauge's offset taken out" }),
  downstreamDepth: length("h_2", { above: 0, unit: "mm" }),
  frictionCoefficient: number("\\xi_0", {
    default: 0,
    note: "of the empty flume, over the upstream velocity head",
  }),
} as const;

interface Reading {
  readonly discharge: number;
  readonly flumeWidth: number;
  readonly upstreamDepth: number;
  readonly downstreamDepth: number;
}

type Tex = { readonly [N in keyof typeof inputs]: string };

export const upstreamVelocity = (q: Reading): number => q.discharge / (q.flumeWidth * q.upstreamDepth);
export const downstreamVelocity = (q: Reading): number => q.discharge / (q.flumeWidth * q.downstreamDepth);

/** What the water loses between the gauges, as a height: the drop of the energy line. */
export const totalLoss = (q: Reading): number =>
  q.upstreamDepth -
  q.downstreamDepth +
  velocityHead(upstreamVelocity(q)) -
  velocityHead(downstreamVelocity(q));

const froude = (velocity: number, depth: number): number => velocity / Math.sqrt(freeFall * depth);

/**
 * Loss coefficient of a rack from the depths before and behind it in a flume.
 *
 * Returns a plain number that refers to the velocity at the upstream gauge. The drop of the energy line holds the velocity heads
 * at both gauges, which differ where the depths do; the friction of the empty flume is taken out. Valid for a horizontal
 * rectangular flume with even flow at both gauges, subcritical. Throws where the flow at a gauge is not subcritical.
 *
 * @example
 * rackLoss.fromLevels({ discharge: u.Lps(200), flumeWidth: u.m(1), upstreamDepth: u.mm(410), downstreamDepth: u.mm(400),
 *                       frictionCoefficient: 0.06 }) // => 0.71391
 */
export const fromLevels = defineFormula({
  id: "rackLoss.fromLevels",
  title: "Loss coefficient from two levels",
  symbol: "\\xi",
  result: "number",
  inputs,
  tex: (q: Tex, steps) => `\\frac{${steps.loss}}{${steps.head}} - ${q.frictionCoefficient}`,
  steps: {
    upstream: {
      title: "Velocity at the upstream gauge",
      symbol: "U",
      result: "velocity",
      tex: (q: Tex) => `\\frac{${q.discharge}}{${q.flumeWidth}\\cdot ${q.upstreamDepth}}`,
      evaluate: upstreamVelocity,
    },
    downstream: {
      title: "Velocity at the downstream gauge",
      symbol: "U_2",
      result: "velocity",
      tex: (q: Tex) => `\\frac{${q.discharge}}{${q.flumeWidth}\\cdot ${q.downstreamDepth}}`,
      evaluate: downstreamVelocity,
    },
    head: {
      title: "Velocity head at the upstream gauge",
      symbol: "\\frac{U^2}{2g}",
      result: "length",
      unit: "mm",
      tex: (_: Tex, steps) => `\\frac{1}{2g}\\,${steps.upstream}^2`,
      evaluate: (q: Reading) => velocityHead(upstreamVelocity(q)),
    },
    loss: {
      title: "Drop of the energy line",
      symbol: "\\Delta H",
      result: "length",
      unit: "mm",
      tex: (q: Tex, steps) =>
        `${q.upstreamDepth} - ${q.downstreamDepth} + \\frac{${steps.upstream}^2 - ${steps.downstream}^2}{2g}`,
      evaluate: totalLoss,
    },
  },
  source: derived("energy equation between two sections of a horizontal rectangular channel"),
  refuse: (q) => {
    const fast = (
      [
        ["upstreamDepth", upstreamVelocity(q), q.upstreamDepth],
        ["downstreamDepth", downstreamVelocity(q), q.downstreamDepth],
      ] as const
    ).find(([, velocity, depth]) => froude(velocity, depth) >= 1);
    if (fast === undefined) return undefined;
    const [name, velocity, depth] = fast;
    return (
      `${name} is ${printValue(depth, "length")}, at which ${printValue(q.discharge, "discharge")} flow with ` +
      `${printValue(velocity, "velocity")}, shooting; levels tell a loss coefficient only where the Froude number is below 1.`
    );
  },
  evaluate: (q) => totalLoss(q) / velocityHead(upstreamVelocity(q)) - q.frictionCoefficient,
});
