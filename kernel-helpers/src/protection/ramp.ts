import { defineFormula } from "../formula/formula";
import { number } from "../formula/input";
import { practice } from "../formula/source";

/** Where protection begins and how it rises where the caller says nothing: a straight line, for illustration. */
export const illustrativeThreshold = 0.2;
export const illustrativeExponent = 1;

/**
 * Protection that rises from nothing for very small fish to full for fish as wide as the gap.
 *
 * Returns a share 0..1. Valid as a general shape only: between threshold and barrier the protection is behaviour, and
 * its numbers come from trials.
 *
 * @example
 * protection.ramp({ relativeWidth: 0.6, threshold: 0.2, exponent: 1 }) // => 0.5
 */
export const ramp = defineFormula({
  id: "protection.ramp",
  title: "Protection rising with relative width",
  symbol: "\\varphi",
  result: "ratio",
  inputs: {
    relativeWidth: number("w", { atLeast: 0, note: "body width or height over clear spacing" }),
    threshold: number("w_0", {
      atLeast: 0,
      below: 1,
      default: illustrativeThreshold,
      note: "relative width up to which nothing protects",
    }),
    exponent: number("k", { above: 0, default: illustrativeExponent }),
  },
  tex: (q) =>
    `\\begin{cases} 0 & ${q.relativeWidth} \\le ${q.threshold} \\\\ ` +
    `\\left(\\dfrac{${q.relativeWidth} - ${q.threshold}}{1 - ${q.threshold}}\\right)^{${q.exponent}} & ` +
    `${q.threshold} < ${q.relativeWidth} < 1 \\\\ 1 & ${q.relativeWidth} \\ge 1 \\end{cases}`,
  source: practice("a general shape: none for very small fish, full for blocked fish, behaviour between"),
  validity: "a general shape; fit threshold and exponent to trials",
  caution: ({ threshold, exponent }) => [
    threshold === illustrativeThreshold && exponent === illustrativeExponent
      ? "the shape is general and its numbers (threshold 0.2, exponent 1) are illustrative; fit them to trials."
      : "the shape is general, not a measured law; threshold and exponent must come from trials.",
  ],
  evaluate: ({ relativeWidth, threshold, exponent }) =>
    relativeWidth >= 1
      ? 1
      : relativeWidth <= threshold
        ? 0
        : ((relativeWidth - threshold) / (1 - threshold)) ** exponent,
});
