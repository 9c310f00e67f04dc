import { defineFormula } from "../formula/formula";
import { length, ratio } from "../formula/input";
import { derived, practice } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";

/** What a fish meets the gap with. */
const gapRatioNote =
  "width over total length, or height over total length for fish that do not turn on their side";

/**
 * Greatest body width of a fish of given length.
 *
 * Returns the width in metres. Valid as a magnitude: the ratio is common practice and differs between populations,
 * seasons and condition; measure fish where it matters.
 *
 * @example
 * fish.bodyWidth({ totalLength: u.mm(180), widthRatio: 0.1 }) // => 18 mm
 */
export const bodyWidth = defineFormula({
  id: "fish.bodyWidth",
  title: "Body width",
  symbol: "w_f",
  result: "length",
  unit: "mm",
  inputs: {
    totalLength: length("TL", { above: 0, unit: "mm", usual: usualSizes.totalLength }),
    widthRatio: ratio("k_w", {
      above: 0,
      note: "greatest body width over total length; about 0.10 fusiform, 0.03 eel",
    }),
  },
  tex: (q) => `${q.widthRatio} \\cdot ${q.totalLength}`,
  source: practice("body width in proportion to total length"),
  validity: "a magnitude; measure fish where it matters",
  evaluate: ({ totalLength, widthRatio }) => widthRatio * totalLength,
});

/**
 * Greatest body height of a fish of given length.
 *
 * Returns the height in metres. Valid as a magnitude, like the width; it decides where a fish does not turn on its
 * side to pass a horizontal gap.
 *
 * @example
 * fish.bodyHeight({ totalLength: u.mm(200), heightRatio: 0.25 }) // => 50 mm
 */
export const bodyHeight = defineFormula({
  id: "fish.bodyHeight",
  title: "Body height",
  symbol: "h_f",
  result: "length",
  unit: "mm",
  inputs: {
    totalLength: length("TL", { above: 0, unit: "mm", usual: usualSizes.totalLength }),
    heightRatio: ratio("k_h", { above: 0, note: "greatest body height over total length" }),
  },
  tex: (q) => `${q.heightRatio} \\cdot ${q.totalLength}`,
  source: practice("body height in proportion to total length"),
  validity: "a magnitude; measure fish where it matters",
  evaluate: ({ totalLength, heightRatio }) => heightRatio * totalLength,
});

/**
 * Total length from which a fish can no longer pass the clear spacing.
 *
 * Returns the length in metres. Valid for a stiff gap and body; give the height ratio in place of the width ratio for
 * fish that do not turn on their side.
 *
 * @example
 * fish.barrierLength({ clearSpacing: u.mm(18), widthRatio: 0.1 }) // => 180 mm
 */
export const barrierLength = defineFormula({
  id: "fish.barrierLength",
  title: "Length from which the gap is a barrier",
  symbol: "L_b",
  result: "length",
  unit: "mm",
  inputs: {
    clearSpacing: length("b", { above: 0, unit: "mm", usual: usualSizes.clearSpacing }),
    widthRatio: ratio("k_w", { above: 0, note: gapRatioNote }),
  },
  tex: (q) => `\\frac{${q.clearSpacing}}{${q.widthRatio}}`,
  source: derived("body width equal to the clear spacing"),
  evaluate: ({ clearSpacing, widthRatio }) => clearSpacing / widthRatio,
});

/**
 * Body width over clear spacing: from 1 on a fish is blocked by its body.
 *
 * Returns a plain number. Valid for a stiff gap and body; give the height ratio in place of the width ratio for fish
 * that do not turn on their side.
 *
 * @example
 * fish.relativeWidth({ totalLength: u.mm(150), widthRatio: 0.1, clearSpacing: u.mm(18) }) // => 0.8333
 */
export const relativeWidth = defineFormula({
  id: "fish.relativeWidth",
  title: "Relative width",
  symbol: "w",
  result: "number",
  inputs: {
    totalLength: length("TL", { above: 0, unit: "mm", usual: usualSizes.totalLength }),
    widthRatio: ratio("k_w", { above: 0, note: gapRatioNote }),
    clearSpacing: length("b", { above: 0, unit: "mm", usual: usualSizes.clearSpacing }),
  },
  tex: (q) => `\\frac{${q.widthRatio} \\cdot ${q.totalLength}}{${q.clearSpacing}}`,
  source: derived("body width over clear spacing"),
  evaluate: ({ totalLength, widthRatio, clearSpacing }) => (widthRatio * totalLength) / clearSpacing,
});
