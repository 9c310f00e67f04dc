import { defineFormula } from "../formula/formula";
import { length, printValue, ratio } from "../formula/input";
import { derived } from "../formula/source";
import { freeFall } from "../quantity/constants";

interface Gate {
  readonly opening: number;
  readonly upstreamDepth: number;
  readonly downstreamDepth: number;
  readonly contraction: number;
}

/** Discharge for each metre of width with free outflow, from energy above and below the gate. */
const freeUnitDischarge = (upstreamDepth: number, jet: number): number =>
  upstreamDepth * jet * Math.sqrt((2 * freeFall) / (upstreamDepth + jet));

/** The depth behind the jump that the free jet would make; water standing higher drowns the gate. */
function drowningDepth({ opening, upstreamDepth, contraction }: Omit<Gate, "downstreamDepth">): number {
  const jet = contraction * opening;
  const squaredFroude = freeUnitDischarge(upstreamDepth, jet) ** 2 / (freeFall * jet ** 3);
  return (jet / 2) * (Math.sqrt(1 + 8 * squaredFroude) - 1);
}

/**
 * Energy from the water above the gate to the jet, and momentum from the jet to the water standing behind it, make a
 * quadratic in the depth of the water that lies over the jet.
 */
function depthOverJet({ opening, upstreamDepth, downstreamDepth, contraction }: Gate): number {
  const jet = contraction * opening;
  const squaredDischarge = (2 * freeFall) / (1 / jet ** 2 - 1 / upstreamDepth ** 2);
  const pull = ((2 * squaredDischarge) / freeFall) * (1 / jet - 1 / downstreamDepth);
  // Rounding can bring the difference just below 0 where both levels meet.
  return pull / 2 + Math.sqrt(Math.max(0, (pull / 2) ** 2 - pull * upstreamDepth + downstreamDepth ** 2));
}

/** Whether the water behind a gate stands high enough to lower its discharge. */
export const isDrowned = (gate: Gate): boolean => gate.downstreamDepth > drowningDepth(gate);

function unitDischarge(gate: Gate): number {
  const { opening, upstreamDepth, contraction } = gate;
  const jet = contraction * opening;
  if (!isDrowned(gate)) return freeUnitDischarge(upstreamDepth, jet);
  const driving = Math.max(0, upstreamDepth - depthOverJet(gate));
  return Math.sqrt((2 * freeFall * driving) / (1 / jet ** 2 - 1 / upstreamDepth ** 2));
}

/**
 * Discharge below a sluice gate with water standing behind it.
 *
 * Returns the discharge in cubic metres a second; that of free outflow where the water behind is too low to drown the
 * gate. Valid for a vertical sharp-edged gate over a level bed as wide as the gate, without losses from the upstream
 * side to the jet. The theory loses a few per cent at once where drowning begins.
 *
 * @example
 * bypass.drownedSluiceGate({ width: u.m(6), opening: u.m(0.25), upstreamDepth: u.m(3),
 *                            downstreamDepth: u.m(1.5) }) // => 5.5973 m³/s
 */
export const drownedSluiceGate = defineFormula({
  id: "bypass.drownedSluiceGate",
  title: "Discharge below a sluice gate with water behind it",
  symbol: "Q",
  result: "discharge",
  inputs: {
    width: length("B", { above: 0, unit: "m" }),
    opening: length("a", { above: 0, unit: "m" }),
    upstreamDepth: length("y_1", { above: 0, unit: "m" }),
    downstreamDepth: length("y_3", { above: 0, unit: "m", note: "of the water standing behind the gate" }),
    contraction: ratio("C_c", { above: 0, default: 0.61, note: "depth of the jet over the opening" }),
  },
  steps: {
    overJet: {
      title: "Depth of the water over the jet",
      symbol: "y_j",
      result: "length",
      unit: "m",
      tex: (q) =>
        `\\text{from momentum behind the gate, with } ${q.downstreamDepth} \\text{ and a jet } ` +
        `${q.contraction}\\cdot ${q.opening} \\text{ deep}`,
      evaluate: (gate) => (isDrowned(gate) ? depthOverJet(gate) : gate.contraction * gate.opening),
    },
  },
  tex: (q, steps) =>
    `${q.width}\\sqrt{\\frac{2g\\left(${q.upstreamDepth} - ${steps.overJet}\\right)}` +
    `{1/(${q.contraction}\\cdot ${q.opening})^2 - 1/${q.upstreamDepth}^2}}`,
  source: derived("energy from the upstream side to the jet, momentum from the jet to the water behind"),
  refuse: ({ opening, upstreamDepth, downstreamDepth }) => {
    const upstream = `upstreamDepth, ${printValue(upstreamDepth, "length", "m")}`;
    if (opening >= upstreamDepth) {
      return (
        `opening is ${printValue(opening, "length", "m")}; it must be below ${upstream}: ` +
        "a gate out of the water controls nothing."
      );
    }
    return downstreamDepth >= upstreamDepth
      ? `downstreamDepth is ${printValue(downstreamDepth, "length", "m")}; it must be below ${upstream}: ` +
          "water does not flow uphill."
      : undefined;
  },
  evaluate: ({ width, ...gate }) => width * unitDischarge(gate),
});
