import type { Formula, Given } from "../../formula/formula";
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
  /** Inputs outside the range that the source tested, and other cautions of the formula. */
  readonly cautions: readonly string[];
  /** Why the rack is not one that the equation was made for, beside the bars' orientation. */
  readonly outside: readonly string[];
}

/** A published head-loss equation, made ready for a rack described once. */
export interface LossEquation {
  /** The id of its formula in the catalogue. */
  readonly id: string;
  readonly title: string;
  /** The racks it was made for. */
  readonly meantFor: string;
  readonly forHorizontalBars: boolean;
  readonly answer: (rack: Rack) => LossAnswer;
}

/** Calls a formula and keeps its cautions; those of the tested range count as outside it. */
function ask<I extends InputSpecs>(
  formula: Formula<I, "length"> | Formula<I, "number">,
  inputs: Given<I>,
): { readonly value: number; readonly cautions: readonly string[]; readonly outside: readonly string[] } {
  const value = formula(inputs);
  const cautions = formula.cautions(inputs);
  return { value, cautions, outside: cautions.filter((text) => text.includes("its source tested")) };
}

/** A coefficient's answer turned into a head loss at the rack's approach velocity. */
function fromAnswer(
  { value, cautions, outside }: ReturnType<typeof ask>,
  { approachVelocity }: Rack,
  more: readonly string[] = [],
): LossAnswer {
  return {
    headLoss: fromCoefficient({ lossCoefficient: value, approachVelocity }),
    cautions,
    outside: [...outside, ...more],
  };
}

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
    answer: (rack) => {
      const { barThickness, clearSpacing, shapeFactor, inclination, approachVelocity } = rack;
      const { value, cautions, outside } = ask(kirschmer, {
        barThickness,
        clearSpacing,
        shapeFactor,
        inclination,
        approachVelocity,
      });
      return { headLoss: u.m(value), cautions, outside: [...outside, ...needsSquare(kirschmer.id, rack)] };
    },
  },
  {
    id: obliqueFlow.id,
    title: "Kirschmer with oblique flow",
    meantFor: "vertical bars met at an angle",
    forHorizontalBars: false,
    answer: ({ barThickness, clearSpacing, shapeFactor, inclination, approachVelocity, rackAngle }) => {
      const straight = ask(kirschmer, {
        barThickness,
        clearSpacing,
        shapeFactor,
        inclination,
        approachVelocity,
      });
      // Vertical bars stand square to the rack, so the flow meets them at what its angle lacks of 90°.
      const deviation = u.rad(Math.max(0, Math.PI / 2 - rackAngle));
      const extra = ask(obliqueFlow, { approachVelocity, deviation });
      return {
        headLoss: u.m(straight.value + extra.value),
        cautions: [...straight.cautions, ...extra.cautions],
        outside: [...straight.outside, ...extra.outside],
      };
    },
  },
  {
    id: areaRatio.id,
    title: "Open share",
    meantFor: "upright bars of intakes, by the open share alone",
    forHorizontalBars: false,
    answer: ({ openVelocity, blockage }) => {
      const { value, cautions, outside } = ask(areaRatio, {
        netVelocity: openVelocity,
        openRatio: 1 - blockage,
      });
      return { headLoss: u.m(value), cautions, outside };
    },
  },
  {
    id: openingVelocity.id,
    title: "Opening velocity, clean",
    meantFor: "upright bar screens, by the velocities alone",
    forHorizontalBars: false,
    answer: ({ openVelocity, approachVelocity }) => {
      const { value, cautions, outside } = ask(openingVelocity, {
        openingVelocity: openVelocity,
        approachVelocity,
      });
      return { headLoss: u.m(value), cautions, outside };
    },
  },
  {
    id: blockageAngle.id,
    title: "Blockage and angle",
    meantFor: "vertical bars",
    forHorizontalBars: false,
    answer: (rack) => {
      const { shapeFactor, blockage, rackAngle, inclination } = rack;
      return fromAnswer(ask(blockageAngle, { shapeFactor, blockage, rackAngle, inclination }), rack);
    },
  },
  {
    id: inclinedBars.id,
    title: "Inclined rack",
    meantFor: "bars up the slope of a rack inclined in elevation, square to the flow in plan",
    forHorizontalBars: false,
    answer: (rack) => {
      const { barBlockage, supportShare, inclination, barProfile } = rack;
      const barCoefficient = inclinedBarCoefficients[barProfile];
      return fromAnswer(
        ask(inclinedBars, { barCoefficient, barBlockage, spacerBlockage: supportShare, inclination }),
        rack,
        needsSquare(inclinedBars.id, rack),
      );
    },
  },
  {
    id: angledBars.id,
    title: "Angled rack",
    meantFor: "vertical bars square to the rack",
    forHorizontalBars: false,
    answer: (rack) => {
      const { blockage, rackAngle, barProfile } = rack;
      return fromAnswer(
        ask(angledBars, { ...angledBarCoefficients[barProfile], blockage, rackAngle }),
        rack,
        needsUpright(angledBars.id, rack),
      );
    },
  },
  {
    id: streamwiseBars.id,
    title: "Streamwise bars",
    meantFor: "vertical bars in the flow's direction",
    forHorizontalBars: false,
    answer: (rack) => {
      const { barCoefficient } = angledBarCoefficients[rack.barProfile];
      return fromAnswer(
        ask(streamwiseBars, { barCoefficient, blockage: rack.blockage }),
        rack,
        needsUpright(streamwiseBars.id, rack),
      );
    },
  },
  {
    id: horizontalBars.id,
    title: "Horizontal bars, approximate",
    meantFor: "horizontal bars, rack angled in plan",
    forHorizontalBars: true,
    answer: (rack) => {
      const { barBlockage, supportShare, rackAngle, barProfile } = rack;
      const barCoefficient = inclinedBarCoefficients[barProfile];
      return fromAnswer(
        ask(horizontalBars, { barCoefficient, barBlockage, spacerBlockage: supportShare, rackAngle }),
        rack,
        needsUpright(horizontalBars.id, rack),
      );
    },
  },
];
