import { defineFormula } from "../formula/formula";
import { area, length, number, printValue, ratio } from "../formula/input";
import { memory, published } from "../formula/source";
import { freeFall } from "../quantity/constants";

/**
 * Discharge through an opening with water above it on both sides.
 *
 * Returns the discharge in cubic metres a second. Valid for a sharp-edged opening away from walls and bed, with little
 * velocity upstream.
 *
 * @example
 * bypass.submergedOrifice({ area: u.m2(0.5), headDifference: u.m(0.2) }) // => 0.60418 m³/s
 */
export const submergedOrifice = defineFormula({
  id: "bypass.submergedOrifice",
  title: "Discharge through a submerged opening",
  symbol: "Q",
  result: "discharge",
  inputs: {
    area: area("A", { above: 0 }),
    headDifference: length("\\Delta h", { atLeast: 0, unit: "m", note: "between the two water levels" }),
    coefficient: ratio("C", { above: 0, default: 0.61 }),
  },
  tex: (q) => `${q.coefficient}\\,${q.area}\\sqrt{2g\\,${q.headDifference}}`,
  source: memory("US Bureau of Reclamation, Water Measurement Manual"),
  evaluate: ({ area: opening, headDifference, coefficient }) =>
    coefficient * opening * Math.sqrt(2 * freeFall * headDifference),
});

const refuseWideOpening = ({
  opening,
  upstreamDepth,
}: {
  readonly opening: number;
  readonly upstreamDepth: number;
}): string | undefined =>
  opening >= upstreamDepth
    ? `opening is ${printValue(opening, "length", "m")}; it must be below upstreamDepth, ` +
      `${printValue(upstreamDepth, "length", "m")}: a gate out of the water controls nothing.`
    : undefined;

/**
 * Discharge coefficient of a sluice gate with free outflow.
 *
 * Returns a plain number, for `bypass.sluiceGate`. Valid for a vertical sharp-edged gate over a level bed and free
 * outflow below it.
 *
 * @example
 * bypass.sluiceGateCoefficient({ opening: u.m(0.25), upstreamDepth: u.m(3) }) // => 0.59506
 */
export const sluiceGateCoefficient = defineFormula({
  id: "bypass.sluiceGateCoefficient",
  title: "Discharge coefficient of a sluice gate",
  symbol: "C_d",
  result: "number",
  inputs: {
    opening: length("a", { above: 0, unit: "m" }),
    upstreamDepth: length("y_1", { above: 0, unit: "m" }),
    contraction: ratio("C_c", { above: 0, default: 0.61, note: "depth of the jet over the opening" }),
  },
  tex: (q) => `\\frac{${q.contraction}}{\\sqrt{1 + ${q.contraction}\\,${q.opening} / ${q.upstreamDepth}}}`,
  source: published("energy and continuity below a gate, as in textbooks of open-channel flow"),
  refuse: refuseWideOpening,
  evaluate: ({ opening, upstreamDepth, contraction }) =>
    contraction / Math.sqrt(1 + (contraction * opening) / upstreamDepth),
});

/**
 * Discharge below a sluice gate.
 *
 * Returns the discharge in cubic metres a second. Valid where the coefficient fits the outflow: free
 * (`bypass.sluiceGateCoefficient`), or drowned, which lowers it.
 *
 * @example
 * bypass.sluiceGate({ width: u.m(6), opening: u.m(0.25), upstreamDepth: u.m(3), coefficient: 0.47 }) // => 5.4088 m³/s
 */
export const sluiceGate = defineFormula({
  id: "bypass.sluiceGate",
  title: "Discharge below a sluice gate",
  symbol: "Q",
  result: "discharge",
  inputs: {
    width: length("B", { above: 0, unit: "m" }),
    opening: length("a", { above: 0, unit: "m" }),
    upstreamDepth: length("y_1", { above: 0, unit: "m" }),
    coefficient: number("C_d", { above: 0, atMost: 1 }),
  },
  tex: (q) => `${q.width}\\,${q.coefficient}\\,${q.opening}\\sqrt{2g\\,${q.upstreamDepth}}`,
  source: published("energy and continuity below a gate, as in textbooks of open-channel flow"),
  refuse: refuseWideOpening,
  evaluate: ({ width, opening, upstreamDepth, coefficient }) =>
    width * coefficient * opening * Math.sqrt(2 * freeFall * upstreamDepth),
});
