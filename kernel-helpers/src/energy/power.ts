import { defineFormula } from "../formula/formula";
import { discharge, length, ratio } from "../formula/input";
import { derived } from "../formula/source";
import { freeFall, waterDensity } from "../quantity/constants";

/**
 * Power of water that falls through a turbine.
 *
 * Returns the power in watts. Valid for the net head, after rack and intake losses, and the efficiency of turbine and
 * generator together.
 *
 * @example
 * energy.power({ discharge: u.m3ps(34), head: u.m(5.3), efficiency: 0.9 }) // => 1590986 W
 */
export const power = defineFormula({
  id: "energy.power",
  title: "Power of the turbines",
  symbol: "P",
  result: "power",
  unit: "kW",
  inputs: {
    discharge: discharge("Q", { atLeast: 0, note: "through the turbines" }),
    head: length("H", { atLeast: 0, unit: "m", note: "net head, after rack and intake losses" }),
    efficiency: ratio("\\eta", { note: "of turbine and generator together" }),
  },
  tex: (q) => `\\rho g\\,${q.discharge}\\,${q.head}\\,${q.efficiency}`,
  source: derived("work of the weight of the water"),
  evaluate: ({ discharge: flow, head, efficiency }) => waterDensity * freeFall * flow * head * efficiency,
});
