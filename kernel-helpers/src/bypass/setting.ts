import { defineFormula } from "../formula/formula";
import { discharge, length, printValue, ratio } from "../formula/input";
import { derived } from "../formula/source";
import { freeFall } from "../quantity/constants";
import { rootBetween } from "../statistics/root";
import { sluiceGate, sluiceGateCoefficient } from "./openings";
import { headCaution, sharpCrestedWeir } from "./weirs";

/**
 * Head that a sharp-crested weir as wide as its channel needs for a discharge.
 *
 * Returns the head above the crest in metres. Valid as `bypass.sharpCrestedWeir` is, which it turns round.
 *
 * @example
 * bypass.sharpCrestedWeirHead({ discharge: u.m3ps(0.23606), crestWidth: u.m(1.3), crestHeight: u.m(0.6) }) // => 0.2100 m
 */
export const sharpCrestedWeirHead = defineFormula({
  id: "bypass.sharpCrestedWeirHead",
  title: "Head of a sharp-crested weir for a discharge",
  symbol: "h",
  result: "length",
  unit: "m",
  inputs: {
    discharge: discharge("Q", { atLeast: 0 }),
    crestWidth: length("b", { above: 0, unit: "m" }),
    crestHeight: length("p", { above: 0, unit: "m", note: "of the crest above the bed upstream" }),
  },
  tex: (q) =>
    `\\text{the head at which } \\frac{2}{3}\\left(0.611 + 0.08\\,\\frac{h}{${q.crestHeight}}\\right) ` +
    `${q.crestWidth}\\sqrt{2g}\\;h^{3/2} = ${q.discharge}`,
  source: derived("the equation of bypass.sharpCrestedWeir solved for the head by bisection"),
  caution: ({ discharge: flow, ...weir }) =>
    headCaution({ head: headFor(flow, weir), crestHeight: weir.crestHeight }),
  evaluate: ({ discharge: flow, ...weir }) => headFor(flow, weir),
});

/** The discharge over a weir grows without end with the head, so a bracket is always found. */
function headFor(flow: number, weir: { readonly crestWidth: number; readonly crestHeight: number }): number {
  const missing = (head: number): number => sharpCrestedWeir.evaluate({ ...weir, head }) - flow;
  let high = 1;
  while (missing(high) < 0) high *= 2;
  return rootBetween(missing, 0, high);
}

/**
 * Energy head that a broad-crested weir needs for a discharge.
 *
 * Returns the head above the crest in metres. Valid for a crest long enough for parallel flow and free outflow.
 *
 * @example
 * bypass.broadCrestedWeirHead({ discharge: u.m3ps(8.9344), crestWidth: u.m(10) }) // => 0.6500 m
 */
export const broadCrestedWeirHead = defineFormula({
  id: "bypass.broadCrestedWeirHead",
  title: "Energy head of a broad-crested weir for a discharge",
  symbol: "H",
  result: "length",
  unit: "m",
  inputs: {
    discharge: discharge("Q", { atLeast: 0 }),
    crestWidth: length("b", { above: 0, unit: "m" }),
    coefficient: ratio("C", { above: 0, default: 1, note: "1 without losses" }),
  },
  tex: (q) =>
    `\\frac{3}{2}\\left(\\frac{\\left(${q.discharge} / (${q.coefficient}\\cdot ${q.crestWidth})\\right)^2}{g}\\right)^{1/3}`,
  source: derived("the equation of bypass.broadCrestedWeir solved for the head"),
  evaluate: ({ discharge: flow, crestWidth, coefficient }) =>
    1.5 * Math.cbrt((flow / (coefficient * crestWidth)) ** 2 / freeFall),
});

/** A gate can pass at most this much of its water's depth before it leaves the water. */
const widestOpening = 0.999;

interface GateChannel {
  readonly width: number;
  readonly upstreamDepth: number;
  readonly contraction: number;
}

const freeGate = (opening: number, { width, upstreamDepth, contraction }: GateChannel): number =>
  sluiceGate.evaluate({
    width,
    opening,
    upstreamDepth,
    coefficient: sluiceGateCoefficient.evaluate({ opening, upstreamDepth, contraction }),
  });

/**
 * Opening that a sluice gate with free outflow needs for a discharge.
 *
 * Returns the opening in metres. Valid as `bypass.sluiceGate` with `bypass.sluiceGateCoefficient` is, which it turns
 * round. Throws a RangeError for a discharge that the gate can't pass.
 *
 * @example
 * bypass.sluiceGateOpening({ discharge: u.m3ps(1.36), width: u.m(0.8), upstreamDepth: u.m(1.5) }) // => 0.57017 m
 */
export const sluiceGateOpening = defineFormula({
  id: "bypass.sluiceGateOpening",
  title: "Opening of a sluice gate for a discharge",
  symbol: "a",
  result: "length",
  unit: "m",
  inputs: {
    discharge: discharge("Q", { atLeast: 0 }),
    width: length("B", { above: 0, unit: "m" }),
    upstreamDepth: length("y_1", { above: 0, unit: "m" }),
    contraction: ratio("C_c", { above: 0, default: 0.61, note: "depth of the jet over the opening" }),
  },
  tex: (q) =>
    `\\text{the opening at which } \\frac{${q.contraction}\\cdot ${q.width}\\,a\\sqrt{2g\\,${q.upstreamDepth}}}` +
    `{\\sqrt{1 + ${q.contraction}\\cdot a / ${q.upstreamDepth}}} = ${q.discharge}`,
  source: derived("energy and continuity below a gate, solved for the opening by bisection"),
  refuse: ({ discharge: flow, ...gate }) => {
    const most = freeGate(widestOpening * gate.upstreamDepth, gate);
    return flow > most
      ? `discharge is ${printValue(flow, "discharge")}; a gate in water ` +
          `${printValue(gate.upstreamDepth, "length", "m")} deep passes at most ${printValue(most, "discharge")} ` +
          "before it leaves the water."
      : undefined;
  },
  evaluate: ({ discharge: flow, ...gate }) =>
    rootBetween(
      (opening) => (opening === 0 ? 0 : freeGate(opening, gate)) - flow,
      0,
      widestOpening * gate.upstreamDepth,
    ),
});
