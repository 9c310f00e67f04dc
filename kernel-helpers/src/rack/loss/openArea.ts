import { defineFormula } from "../../formula/formula";
import { printValue, ratio, velocity } from "../../formula/input";
import { derived, memory, published } from "../../formula/source";
import { usualSizes } from "../../formula/usualSizes";
import { freeFall } from "../../quantity/constants";
import { velocityHead } from "./velocityHead";

/**
 * Head loss of an intake rack from its open share.
 *
 * Returns the head loss in metres. Valid for upright intake racks; the velocity is that on the net area.
 *
 * @example
 * rackLoss.areaRatio({ netVelocity: u.mps(0.8), openRatio: 0.7 }) // => 0.021040 m
 */
export const areaRatio = defineFormula({
  id: "rackLoss.areaRatio",
  title: "Head loss from the open share of the rack",
  symbol: "\\Delta h",
  result: "length",
  inputs: {
    netVelocity: velocity("V_n", { atLeast: 0, note: "on the net area" }),
    openRatio: ratio("R", { above: 0, note: "net over gross area" }),
  },
  tex: (q) =>
    `\\left(1.45 - 0.45\\cdot ${q.openRatio} - ${q.openRatio}^2\\right)\\frac{${q.netVelocity}^2}{2g}`,
  source: memory(
    "US Bureau of Reclamation, Design of Small Dams; agrees with three printed losses of an intake rack",
  ),
  evaluate: ({ netVelocity, openRatio }) =>
    // Written as (1 − R)(1.45 + R), which is the same and exactly 0 for an open rack.
    (1 - openRatio) * (1.45 + openRatio) * velocityHead(netVelocity),
});

/**
 * Head loss of a bar screen from the velocities before and between the bars.
 *
 * Returns the head loss in metres. Valid for bar screens of treatment works; the discharge coefficient is 0.7 for a
 * clean screen and 0.6 for a clogged one. Throws where the water between the bars is slower than before them.
 *
 * @example
 * rackLoss.openingVelocity({ openingVelocity: u.mps(0.9), approachVelocity: u.mps(0.6) }) // => 0.032765 m
 */
export const openingVelocity = defineFormula({
  id: "rackLoss.openingVelocity",
  title: "Head loss from the velocity between the bars",
  symbol: "\\Delta h",
  result: "length",
  inputs: {
    openingVelocity: velocity("V", { atLeast: 0, note: "between the bars" }),
    approachVelocity: velocity("v", { atLeast: 0, usual: usualSizes.approachVelocity }),
    dischargeCoefficient: ratio("C", { above: 0, default: 0.7, note: "0.7 clean, 0.6 clogged" }),
  },
  tex: (q) => `\\frac{${q.openingVelocity}^2 - ${q.approachVelocity}^2}{2g\\cdot ${q.dischargeCoefficient}}`,
  source: published("Metcalf & Eddy, Wastewater Engineering, 4th ed."),
  refuse: ({ openingVelocity: between, approachVelocity }) =>
    between < approachVelocity
      ? `openingVelocity is ${printValue(between, "velocity")}; it must be at least approachVelocity, ` +
        `${printValue(approachVelocity, "velocity")}.`
      : undefined,
  evaluate: ({ openingVelocity: between, approachVelocity, dischargeCoefficient }) =>
    (between ** 2 - approachVelocity ** 2) / (2 * freeFall * dischargeCoefficient),
});

/**
 * Open share of a rack of which debris covers a part.
 *
 * Returns a ratio 0..1. Valid for debris spread evenly over the rack.
 *
 * @example
 * rackLoss.cloggedOpenRatio({ openRatio: 0.69, cloggedShare: 0.25 }) // => 0.5175
 */
export const cloggedOpenRatio = defineFormula({
  id: "rackLoss.cloggedOpenRatio",
  title: "Open share of a clogged rack",
  symbol: "R_c",
  result: "ratio",
  inputs: {
    openRatio: ratio("R", { above: 0, note: "net over gross area of the clean rack" }),
    cloggedShare: ratio("c", { note: "share of the open area that debris covers" }),
  },
  tex: (q) => `${q.openRatio}\\left(1 - ${q.cloggedShare}\\right)`,
  source: derived("open area left by debris"),
  caution: ({ cloggedShare }) =>
    cloggedShare > 0
      ? [
          "this open share already holds the debris; a clogging factor on top (rackLoss.blockageAngle) counts " +
            "the same debris twice.",
        ]
      : [],
  evaluate: ({ openRatio, cloggedShare }) => openRatio * (1 - cloggedShare),
});
