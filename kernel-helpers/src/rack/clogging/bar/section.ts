import { length, pressure } from "../../../formula/input";
import { u } from "../../../quantity/u";
import { usualSizes } from "../../../formula/usualSizes";

/** Said with everything that touches the strength of a rack. */
export const structuralCaution = "a screening value; structural design is for a licensed engineer.";

/** Inputs that bending and vibration of a bar share. */
export const barInputs = {
  barThickness: length("s", { above: 0, unit: "mm", usual: usualSizes.barThickness }),
  barDepth: length("d", { above: 0, unit: "mm", note: "of the section, along the flow" }),
  span: length("L", { above: 0, note: "free length between supports or spacers" }),
  elasticModulus: pressure("E", { above: 0, unit: "GPa", default: u.GPa(210), note: "210 GPa for steel" }),
} as const;
