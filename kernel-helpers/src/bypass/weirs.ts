import { defineFormula } from "../formula/formula";
import { count, length, printValue, ratio } from "../formula/input";
import { memory, published } from "../formula/source";
import { freeFall } from "../quantity/constants";

/** Beyond this head over crest height the coefficient is no longer known. */
const highestHeadOverCrest = 5;

/** What to say where the head is too high for the coefficient of a sharp crest. */
export const headCaution = ({
  head,
  crestHeight,
}: {
  readonly head: number;
  readonly crestHeight: number;
}): string[] =>
  head > highestHeadOverCrest * crestHeight
    ? [
        `the head is more than ${highestHeadOverCrest} times the height of the crest; the coefficient does not hold there.`,
      ]
    : [];

/**
 * Discharge over a sharp-crested weir as wide as its channel.
 *
 * Returns the discharge in cubic metres a second. Valid for a free, aerated overfall, a head of more than about 3 cm and
 * at most five times the height of the crest.
 *
 * @example
 * bypass.sharpCrestedWeir({ crestWidth: u.m(1.3), head: u.m(0.21), crestHeight: u.m(0.6) }) // => 0.23606 m³/s
 */
export const sharpCrestedWeir = defineFormula({
  id: "bypass.sharpCrestedWeir",
  title: "Discharge over a sharp-crested weir",
  symbol: "Q",
  result: "discharge",
  inputs: {
    crestWidth: length("b", { above: 0, unit: "m" }),
    head: length("h", { atLeast: 0, unit: "m", note: "of the water upstream above the crest" }),
    crestHeight: length("p", { above: 0, unit: "m", note: "of the crest above the bed upstream" }),
  },
  steps: {
    coefficient: {
      title: "Discharge coefficient",
      symbol: "\\mu",
      result: "number",
      tex: (q) => `0.611 + 0.08\\,\\frac{${q.head}}{${q.crestHeight}}`,
      evaluate: ({ head, crestHeight }) => weirCoefficient(head, crestHeight),
    },
  },
  tex: (q, steps) => `\\frac{2}{3}\\,${steps.coefficient}\\,${q.crestWidth}\\sqrt{2g}\\;${q.head}^{3/2}`,
  source: memory("Rehbock's coefficient, simplified, as in textbooks of hydraulics"),
  caution: headCaution,
  evaluate: ({ crestWidth, head, crestHeight }) =>
    (2 / 3) * weirCoefficient(head, crestHeight) * crestWidth * Math.sqrt(2 * freeFall) * head ** 1.5,
});

const weirCoefficient = (head: number, crestHeight: number): number => 0.611 + (0.08 * head) / crestHeight;

/**
 * Discharge over a sharp-crested weir narrower than its channel.
 *
 * Returns the discharge in cubic metres a second. Valid for a free overfall and a head of at most a third of the crest's
 * width; one contraction for each end of the crest away from a wall.
 *
 * @example
 * bypass.contractedWeir({ crestWidth: u.m(4), head: u.m(0.36), contractions: 2 }) // => 1.5611 m³/s
 */
export const contractedWeir = defineFormula({
  id: "bypass.contractedWeir",
  title: "Discharge over a weir with contractions",
  symbol: "Q",
  result: "discharge",
  inputs: {
    crestWidth: length("L", { above: 0, unit: "m" }),
    head: length("H", { atLeast: 0, unit: "m", note: "of the water upstream above the crest" }),
    contractions: count("n", { atLeast: 0, atMost: 2, note: "ends of the crest away from a wall" }),
  },
  tex: (q) =>
    `1.84\\left(${q.crestWidth} - 0.1\\cdot ${q.contractions}\\cdot ${q.head}\\right) ${q.head}^{3/2}`,
  source: published("Francis's formula in metres, as in textbooks of hydraulics"),
  refuse: ({ crestWidth, head, contractions }) =>
    crestWidth <= 0.1 * contractions * head
      ? `head is ${printValue(head, "length", "m")}; with ${contractions} contractions it must be below ` +
        `${printValue(crestWidth / (0.1 * contractions), "length", "m")}, or the formula leaves no width.`
      : undefined,
  caution: ({ crestWidth, head }) =>
    head > crestWidth / 3
      ? ["the head is more than a third of the crest's width; the formula is not meant for it."]
      : [],
  evaluate: ({ crestWidth, head, contractions }) =>
    1.84 * (crestWidth - 0.1 * contractions * head) * head ** 1.5,
});

/**
 * Share of its free discharge that a weir keeps when the water downstream stands above its crest.
 *
 * Returns a ratio 0..1. Valid for sharp-crested weirs as wide as their channel; both heads are measured from the crest,
 * and water downstream that stays below it counts as 0.
 *
 * @example
 * bypass.submergence({ upstreamHead: u.m(0.3), downstreamHead: u.m(0.15) }) // => 0.84539
 */
export const submergence = defineFormula({
  id: "bypass.submergence",
  title: "Share of the free discharge over a submerged weir",
  symbol: "\\psi",
  result: "ratio",
  inputs: {
    upstreamHead: length("h_1", { above: 0, unit: "m", note: "above the crest" }),
    downstreamHead: length("h_2", {
      atLeast: 0,
      unit: "m",
      note: "above the crest; 0 where the water stays below it",
    }),
  },
  tex: (q) =>
    `\\left(1 - \\left(\\frac{${q.downstreamHead}}{${q.upstreamHead}}\\right)^{3/2}\\right)^{0.385}`,
  source: memory("Villemonte 1947, Engineering News-Record 139"),
  refuse: ({ upstreamHead, downstreamHead }) =>
    downstreamHead >= upstreamHead
      ? `downstreamHead is ${printValue(downstreamHead, "length", "m")}; it must be below upstreamHead, ` +
        `${printValue(upstreamHead, "length", "m")}: water does not flow uphill.`
      : undefined,
  evaluate: ({ upstreamHead, downstreamHead }) => (1 - (downstreamHead / upstreamHead) ** 1.5) ** 0.385,
});

/**
 * Discharge over a broad-crested weir, where the flow passes through its critical depth.
 *
 * Returns the discharge in cubic metres a second. Valid for a crest long enough for parallel flow and free outflow.
 *
 * @example
 * bypass.broadCrestedWeir({ crestWidth: u.m(10), energyHead: u.m(0.65) }) // => 8.9344 m³/s
 */
export const broadCrestedWeir = defineFormula({
  id: "bypass.broadCrestedWeir",
  title: "Discharge over a broad-crested weir",
  symbol: "Q",
  result: "discharge",
  inputs: {
    crestWidth: length("b", { above: 0, unit: "m" }),
    energyHead: length("H", {
      atLeast: 0,
      unit: "m",
      note: "depth and velocity head upstream, above the crest",
    }),
    coefficient: ratio("C", { above: 0, default: 1, note: "1 without losses" }),
  },
  tex: (q) =>
    `${q.coefficient}\\left(\\frac{2}{3}\\right)^{3/2}\\sqrt{g}\\;${q.crestWidth}\\,${q.energyHead}^{3/2}`,
  source: published("critical flow over the crest, as in textbooks of hydraulics"),
  evaluate: ({ crestWidth, energyHead, coefficient }) =>
    coefficient * (2 / 3) ** 1.5 * Math.sqrt(freeFall) * crestWidth * energyHead ** 1.5,
});
