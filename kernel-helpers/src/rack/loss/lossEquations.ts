import type { Formula, FormulaInfo, Given } from "../../formula/formula";
import type { InputSpecs } from "../../formula/input";
import { format } from "../../quantity/format";
import type { Length } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { angledBarCoefficients, angledBars } from "./angledBars";
import { blockageAngle } from "./blockageAngle";
import { fromCoefficient } from "./coefficient";
import { horizontalBars } from "./horizontalBars";
import { inclinedBarCoefficients, inclinedBars } from "./inclinedBars";
import { kirschmer } from "./kirschmer";
import { obliqueFlow } from "./obliqueFlow";
import { areaRatio, openingVelocity } from "./openArea";
import type { Rack } from "./rackDescription";
import { streamwiseBars } from "./streamwiseBars";

/** What an equation says about one rack. */
export interface LossAnswer {
  readonly headLoss: Length;
  /** A rack of the kind that the equation was made for, bars' orientation apart. */
  readonly ofItsKind: boolean;
  /** No input lies outside a range that the source is known to have tested. */
  readonly inside: boolean;
  readonly cautions: readonly string[];
}

/** What a head-loss equation is, whatever the rack. */
export interface AboutLossEquation {
  /** The id of its formula in the catalogue. */
  readonly id: string;
  readonly title: string;
  /** The racks it was made for. */
  readonly meantFor: string;
  readonly forHorizontalBars: boolean;
  /**
   * Whether a tested range is known for an input of each of its formulas; where none is, nobody can say that a rack lies
   * within it.
   */
  readonly testedRangeKnown: boolean;
}

/** A published head-loss equation, made ready for a rack described once. */
export interface LossEquation extends AboutLossEquation {
  readonly answer: (rack: Rack) => LossAnswer;
}

/** A formula's value with what it says about its inputs. */
interface Asked {
  readonly value: number;
  readonly inside: boolean;
  readonly cautions: readonly string[];
}

function ask<I extends InputSpecs>(
  formula: Formula<I, "length"> | Formula<I, "number">,
  inputs: Given<I>,
): Asked {
  return { value: formula(inputs), inside: formula.tested(inputs), cautions: formula.cautions(inputs) };
}

/** Whether any input of each formula has a range that its source is known to have tested. */
const haveTestedRange = (...formulas: readonly FormulaInfo[]): boolean =>
  formulas.every(({ inputs }) => Object.values(inputs).some(({ tested }) => tested !== undefined));

/** The answer of head losses that add up; each misfit says why the rack is not one that the equation was made for. */
const sumUp = (parts: readonly Asked[], misfits: readonly string[] = []): LossAnswer => ({
  headLoss: u.m(parts.reduce((sum, part) => sum + part.value, 0)),
  ofItsKind: misfits.length === 0,
  inside: parts.every((part) => part.inside),
  cautions: [...misfits, ...parts.flatMap((part) => part.cautions)],
});

/** Turns a loss coefficient into a head loss at the rack's approach velocity. */
const toHeadLoss = (coefficient: Asked, { approachVelocity }: Rack): Asked => ({
  ...coefficient,
  value: fromCoefficient({ lossCoefficient: coefficient.value, approachVelocity }),
});

const isSquare = ({ rackAngle }: Rack): boolean => rackAngle > u.deg(89.999);
const isUpright = ({ inclination }: Rack): boolean => inclination > u.deg(89.999);

const needsSquare = (id: string, rack: Rack): string[] =>
  isSquare(rack)
    ? []
    : [
        `${id}: made for racks square to the flow in plan; this one stands at ${format(rack.rackAngle, "deg")}.`,
      ];

const needsUpright = (id: string, rack: Rack): string[] =>
  isUpright(rack)
    ? []
    : [`${id}: made for upright racks; this one is inclined at ${format(rack.inclination, "deg")}.`];

const kirschmerInputs = ({
  barThickness,
  clearSpacing,
  shapeFactor,
  inclination,
  approachVelocity,
}: Rack) => ({
  barThickness,
  clearSpacing,
  shapeFactor,
  inclination,
  approachVelocity,
});

/**
 * The published head-loss equations, each ready for a rack described once: what it was made for, and what it answers.
 *
 * `compareLosses` asks them all. `rackLoss.fitted` is not among them: its coefficients are the user's own.
 */
export const lossEquations: readonly LossEquation[] = [
  {
    id: kirschmer.id,
    title: "Kirschmer",
    meantFor: "vertical bars, rack square to the flow in plan",
    forHorizontalBars: false,
    testedRangeKnown: haveTestedRange(kirschmer),
    answer: (rack) => sumUp([ask(kirschmer, kirschmerInputs(rack))], needsSquare(kirschmer.id, rack)),
  },
  {
    id: obliqueFlow.id,
    title: "Kirschmer with oblique flow",
    meantFor: "vertical bars met at an angle",
    forHorizontalBars: false,
    testedRangeKnown: haveTestedRange(kirschmer, obliqueFlow),
    answer: (rack) => {
      // Vertical bars stand square to the rack, so the flow meets them at what its angle lacks of 90°.
      const deviation = u.rad(Math.max(0, Math.PI / 2 - rack.rackAngle));
      const { approachVelocity } = rack;
      return sumUp([
        ask(kirschmer, kirschmerInputs(rack)),
        ask(obliqueFlow, { approachVelocity, deviation }),
      ]);
    },
  },
  {
    id: areaRatio.id,
    title: "Open share",
    meantFor: "upright bars of intakes, by the open share alone",
    forHorizontalBars: false,
    testedRangeKnown: haveTestedRange(areaRatio),
    answer: ({ openVelocity, blockage }) =>
      sumUp([ask(areaRatio, { netVelocity: openVelocity, openRatio: 1 - blockage })]),
  },
  {
    id: openingVelocity.id,
    title: "Opening velocity, clean",
    meantFor: "upright bar screens, by the velocities alone",
    forHorizontalBars: false,
    testedRangeKnown: haveTestedRange(openingVelocity),
    answer: ({ openVelocity, approachVelocity }) =>
      sumUp([ask(openingVelocity, { openingVelocity: openVelocity, approachVelocity })]),
  },
  {
    id: blockageAngle.id,
    title: "Blockage and angle",
    meantFor: "vertical bars",
    forHorizontalBars: false,
    testedRangeKnown: haveTestedRange(blockageAngle),
    answer: (rack) => {
      const { shapeFactor, blockage, rackAngle, inclination } = rack;
      return sumUp([toHeadLoss(ask(blockageAngle, { shapeFactor, blockage, rackAngle, inclination }), rack)]);
    },
  },
  {
    id: inclinedBars.id,
    title: "Inclined rack",
    meantFor: "bars up the slope of a rack inclined in elevation, square to the flow in plan",
    forHorizontalBars: false,
    testedRangeKnown: haveTestedRange(inclinedBars),
    answer: (rack) => {
      const { barBlockage, supportShare, inclination, barProfile } = rack;
      const barCoefficient = inclinedBarCoefficients[barProfile];
      const coefficient = ask(inclinedBars, {
        barCoefficient,
        barBlockage,
        spacerBlockage: supportShare,
        inclination,
      });
      return sumUp([toHeadLoss(coefficient, rack)], needsSquare(inclinedBars.id, rack));
    },
  },
  {
    id: angledBars.id,
    title: "Angled rack",
    meantFor: "vertical bars square to the rack",
    forHorizontalBars: false,
    testedRangeKnown: haveTestedRange(angledBars),
    answer: (rack) => {
      const { blockage, rackAngle, barProfile } = rack;
      const coefficient = ask(angledBars, { ...angledBarCoefficients[barProfile], blockage, rackAngle });
      return sumUp([toHeadLoss(coefficient, rack)], needsUpright(angledBars.id, rack));
    },
  },
  {
    id: streamwiseBars.id,
    title: "Streamwise bars",
    meantFor: "vertical bars in the flow's direction",
    forHorizontalBars: false,
    testedRangeKnown: haveTestedRange(streamwiseBars),
    answer: (rack) => {
      const { barCoefficient } = angledBarCoefficients[rack.barProfile];
      const coefficient = ask(streamwiseBars, { barCoefficient, blockage: rack.blockage });
      return sumUp([toHeadLoss(coefficient, rack)], needsUpright(streamwiseBars.id, rack));
    },
  },
  {
    id: horizontalBars.id,
    title: "Horizontal bars, approximate",
    meantFor: "horizontal bars, rack angled in plan",
    forHorizontalBars: true,
    testedRangeKnown: haveTestedRange(horizontalBars),
    answer: (rack) => {
      const { barBlockage, supportShare, rackAngle, barProfile } = rack;
      const barCoefficient = inclinedBarCoefficients[barProfile];
      const coefficient = ask(horizontalBars, {
        barCoefficient,
        barBlockage,
        spacerBlockage: supportShare,
        rackAngle,
      });
      return sumUp([toHeadLoss(coefficient, rack)], needsUpright(horizontalBars.id, rack));
    },
  },
];
