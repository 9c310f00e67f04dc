import type { Length } from "../../quantity/dimension";
import { type AboutLossEquation, type LossEquation, lossEquations } from "./lossEquations";
import { checkRack, type Rack, type RackDescription } from "./rackDescription";

/** How an equation stands to a rack with horizontal bars. */
export type LossMark =
  | "meant for horizontal bars"
  | "meant for another bar orientation"
  | "another kind of rack"
  | "outside its tested range"
  | "no tested range known";

/** One equation's answer for one rack. */
export interface LossRow extends AboutLossEquation {
  /** Undefined where the equation refuses the rack; `cautions` then says why. */
  readonly headLoss: Length | undefined;
  /** Within the ranges that its source is known to have tested, and a rack of the kind it was made for. */
  readonly withinTestedRange: boolean;
  readonly marks: readonly LossMark[];
  readonly cautions: readonly string[];
}

/** One equation's answers along a sweep. */
export interface LossCurve extends AboutLossEquation {
  /** Metres; NaN where the equation refuses the rack. */
  readonly headLoss: readonly number[];
  /** Point by point; false throughout where no tested range is known. */
  readonly withinTestedRange: readonly boolean[];
}

/**
 * Asks every published head-loss equation about one rack.
 *
 * Returns one row an equation: its head loss, what it was made for, whether its tested range is known and the rack lies
 * within it, and its cautions. An equation that refuses the rack gives a row without head loss that says why. Throws a
 * RangeError for a rack that can't be built.
 *
 * @example
 * rackLoss.compareLosses({ barThickness: u.mm(8), clearSpacing: u.mm(18), rackAngle: u.deg(38),
 *                          approachVelocity: u.mps(0.56) }).length // => 9
 */
export function compareLosses(rack: RackDescription): readonly LossRow[] {
  const checked = checkRack("rackLoss.compareLosses", rack);
  return lossEquations.map((equation) => askOne(equation, checked));
}

function askOne(equation: LossEquation, rack: Rack): LossRow {
  const { answer, ...common } = equation;
  const { testedRangeKnown } = common;
  const marks = (ofItsKind: boolean, inside: boolean): LossMark[] => [
    common.forHorizontalBars ? "meant for horizontal bars" : "meant for another bar orientation",
    ...(ofItsKind ? [] : (["another kind of rack"] as const)),
    ...(inside ? [] : (["outside its tested range"] as const)),
    ...(inside && !testedRangeKnown ? (["no tested range known"] as const) : []),
  ];
  try {
    const { headLoss, ofItsKind, inside, cautions } = answer(rack);
    const withinTestedRange = testedRangeKnown && ofItsKind && inside;
    return { ...common, headLoss, withinTestedRange, marks: marks(ofItsKind, inside), cautions };
  } catch (error) {
    // A formula's refusal is an answer about this rack; anything else is a defect and goes on.
    if (!(error instanceof RangeError)) throw error;
    return {
      ...common,
      headLoss: undefined,
      withinTestedRange: false,
      // A refused rack lies beyond whatever was tested; where nothing is known of that, only this can be said.
      marks: marks(true, !testedRangeKnown),
      cautions: [error.message],
    };
  }
}

/** What a sweep can vary. */
export type SweptInput = "clearSpacing" | "barThickness" | "rackAngle" | "approachVelocity";

const sweptInputs: readonly string[] = [
  "clearSpacing",
  "barThickness",
  "rackAngle",
  "approachVelocity",
] satisfies SweptInput[];

/**
 * Asks every published head-loss equation along a list of spacings, angles or velocities.
 *
 * Returns one curve an equation: head losses in metres, whether its tested range is known and, point by point, whether the
 * rack lies within it; NaN where the equation refuses the rack. `figures.headLossAgainst` draws the curves as they are.
 * Throws a RangeError for a rack that can't be built.
 *
 * @example
 * rackLoss.sweepLosses({ barThickness: u.mm(8), clearSpacing: u.mm(18), rackAngle: u.deg(38),
 *   approachVelocity: u.mps(0.56) }, "clearSpacing", [u.mm(12), u.mm(18), u.mm(25)]).length // => 9
 */
export function sweepLosses<N extends SweptInput>(
  rack: RackDescription,
  over: N,
  values: readonly RackDescription[N][],
): readonly LossCurve[] {
  if (!sweptInputs.includes(over)) {
    throw new RangeError(
      `rackLoss.sweepLosses: it can't sweep ${JSON.stringify(over)}; it sweeps ${sweptInputs.join(", ")}.`,
    );
  }
  const racks = values.map((value) => checkRack("rackLoss.sweepLosses", { ...rack, [over]: value }));
  return lossEquations.map((equation) => {
    const { answer: _, ...common } = equation;
    const rows = racks.map((one) => askOne(equation, one));
    return {
      ...common,
      headLoss: rows.map((row) => row.headLoss ?? Number.NaN),
      withinTestedRange: rows.map((row) => row.withinTestedRange),
    };
  });
}
