import { defineFormula } from "../formula/formula";
import { length, rotationalSpeed } from "../formula/input";
import { memory } from "../formula/source";
import { toleranceCaution } from "./regressionTolerance";
import { headInput } from "./strikeInputs";

const larinierDartiguelongue = memory("Larinier & Dartiguelongue 1989, Bull. Fr. Pêche Piscic. 312-313");

const updated = memory(
  "Larinier & Dartiguelongue 1989, Bull. Fr. Pêche Piscic. 312-313; an update of 2000 exists that was not read",
);

const cautions = (): readonly string[] => [
  toleranceCaution,
  "fitted to young salmonids; other species and larger fish lie outside.",
];

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** sin² turns round beyond a right angle, where mortality would fall again with length. */
const clippedArgument = (degrees: number): number => radians(Math.min(90, Math.max(0, degrees)));

interface FrancisPassage {
  readonly head: number;
  readonly totalLength: number;
  readonly inletDiameter: number;
  readonly rotationalSpeed: number;
}

const francisArgument = (q: FrancisPassage): number =>
  clippedArgument(
    6.54 + 0.218 * q.head + 118 * q.totalLength - 3.88 * q.inletDiameter + 0.0078 * (60 * q.rotationalSpeed),
  );

/**
 * Mortality of young salmonids in a Francis turbine.
 *
 * Returns a share 0..1. Valid for young salmonids; the argument is cut off at 0 and 90 degrees.
 *
 * @example
 * turbine.mortalityFrancisSalmonid({ head: u.m(12), totalLength: u.mm(150), inletDiameter: u.m(0.78),
 *                                    rotationalSpeed: u.rpm(300) }) // => 0.1945
 */
export const mortalityFrancisSalmonid = defineFormula({
  id: "turbine.mortalityFrancisSalmonid",
  title: "Mortality of young salmonids, Francis",
  symbol: "M",
  result: "ratio",
  inputs: {
    head: headInput,
    totalLength: length("TL", { above: 0 }),
    inletDiameter: length("D_1", { above: 0 }),
    rotationalSpeed: rotationalSpeed("n", { above: 0 }),
  },
  steps: {
    argument: {
      title: "Argument, cut off at 0° and 90°",
      symbol: "x",
      result: "angle",
      tex: (q) =>
        `\\left(6.54 + 0.218\\,\\frac{${q.head}}{1\\,\\mathrm{m}} + 118\\,\\frac{${q.totalLength}}{1\\,\\mathrm{m}} - ` +
        `3.88\\,\\frac{${q.inletDiameter}}{1\\,\\mathrm{m}} + 0.0078\\,\\frac{${q.rotationalSpeed}}{1\\,\\mathrm{rpm}}\\right)^\\circ`,
      evaluate: francisArgument,
    },
  },
  tex: (_, steps) => `\\left(\\sin ${steps.argument}\\right)^2`,
  source: updated,
  validity: "young salmonids",
  caution: cautions,
  evaluate: (passage) => Math.sin(francisArgument(passage)) ** 2,
});

interface KaplanPassage {
  readonly totalLength: number;
  readonly bladeSpacing: number;
}

const kaplanArgument = ({ totalLength, bladeSpacing }: KaplanPassage): number =>
  clippedArgument(13.4 + (42.8 * totalLength) / bladeSpacing);

/**
 * Mortality of young salmonids in a Kaplan turbine.
 *
 * Returns a share 0..1. Valid for young salmonids; the argument is cut off at 0 and 90 degrees.
 *
 * @example
 * turbine.mortalityKaplanSalmonid({ totalLength: u.mm(150), bladeSpacing: u.m(1.088) }) // => 0.1092
 */
export const mortalityKaplanSalmonid = defineFormula({
  id: "turbine.mortalityKaplanSalmonid",
  title: "Mortality of young salmonids, Kaplan",
  symbol: "M",
  result: "ratio",
  inputs: {
    totalLength: length("TL", { above: 0, unit: "mm" }),
    bladeSpacing: length("e", { above: 0, note: "between two blades at mid-blade" }),
  },
  steps: {
    argument: {
      title: "Argument, cut off at 0° and 90°",
      symbol: "x",
      result: "angle",
      tex: (q) => `\\left(13.4 + 42.8\\,\\frac{${q.totalLength}}{${q.bladeSpacing}}\\right)^\\circ`,
      evaluate: kaplanArgument,
    },
  },
  tex: (_, steps) => `\\left(\\sin ${steps.argument}\\right)^2`,
  source: larinierDartiguelongue,
  validity: "young salmonids",
  caution: cautions,
  evaluate: (passage) => Math.sin(kaplanArgument(passage)) ** 2,
});
