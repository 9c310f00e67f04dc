import { discharge, length, ratio, rotationalSpeed } from "../formula/input";
import { memory } from "../formula/source";

// What the strike equations of several runners share, written once.

export const headInput = length("H", { above: 0, note: "net head after the rack" });

export const speedInput = rotationalSpeed("n", {
  above: 0,
  note: "counted in revolutions per second: rpm over 60",
});

export const bestDischargeInput = discharge("Q_b", { above: 0, note: "discharge of the best efficiency" });

export const correlationInput = ratio("\\lambda", {
  above: 0,
  tested: [0.1, 0.2],
  note: "share of strikes that harm, fitted to tests: 0.1 to 0.2",
});

export const strikeSource = memory(
  "bracket: Franke et al. 1997, Development of environmentally advanced hydropower turbine system design concepts; " +
    "the inflow angle is derived from Euler's turbine equation",
);
