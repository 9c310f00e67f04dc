import { checkInputs } from "../../../formula/check";
import { area, length, mass } from "../../../formula/input";
import type { Area, Length, Mass, PlainNumber } from "../../../quantity/dimension";

const caller = "clogging.reduceTrials";

/** What a clogging trial reads: a row of `clogging.trialRecord`, or the same by hand. */
export interface CloggingTrial {
  readonly trialId: string;
  /** The same for trials that repeat each other. */
  readonly configuration?: string | undefined;
  readonly clearSpacing: Length;
  readonly rackArea: Area;
  readonly leafMass: Mass;
  readonly cleanLoss: Length;
  readonly cloggedLoss: Length;
  /** Standard error of one reading of the head loss. */
  readonly lossError: Length;
}

/** A loss factor with the debris that it belongs to: a reduced trial, or the same by hand. */
export interface MeasuredFactor {
  readonly trialId?: string | undefined;
  readonly configuration?: string | undefined;
  readonly debrisMass: Mass;
  readonly rackArea: Area;
  readonly clearSpacing: Length;
  /** Head loss with debris over that of the clean rack. */
  readonly lossFactor: PlainNumber;
  /** Standard error of the factor from its readings, as a share of it. */
  readonly relativeError?: PlainNumber | undefined;
}

/** A trial with what follows from its readings. */
export interface ReducedTrial extends MeasuredFactor {
  readonly trialId: string;
  /** Kilograms of debris a square metre of rack. */
  readonly load: PlainNumber;
  readonly relativeError: PlainNumber;
}

const inputs = {
  clearSpacing: length("b", { above: 0, unit: "mm" }),
  rackArea: area("A", { above: 0 }),
  leafMass: mass("m", { above: 0 }),
  cleanLoss: length("\\Delta h_0", { above: 0, unit: "mm" }),
  cloggedLoss: length("\\Delta h", { above: 0, unit: "mm" }),
  lossError: length("\\sigma", { above: 0, unit: "mm" }),
} as const;

/**
 * Loss factors of clogging trials: the head loss with leaves over that of the clean rack at the start of the same trial.
 *
 * Returns a list with load, factor and its relative standard error from the two readings, by the law of error propagation.
 * Valid for trials that each began with a clean rack and fresh debris: readings that follow one another as leaves are added
 * share their leaves and are not independent. Throws a RangeError for a reading that is missing or not above 0.
 *
 * @example
 * clogging.reduceTrials([{ trialId: "K1", clearSpacing: u.mm(18), rackArea: u.m2(0.6), leafMass: u.kg(0.48),
 *   cleanLoss: u.mm(4.5), cloggedLoss: u.mm(27), lossError: u.mm(0.1) }])[0].lossFactor // => 6
 */
export function reduceTrials(trials: readonly CloggingTrial[]): readonly ReducedTrial[] {
  if (trials.length === 0) throw new RangeError(`${caller}: there are no trials to reduce.`);
  return trials.map((trial) => {
    const { trialId, configuration, clearSpacing, rackArea, leafMass, cleanLoss, cloggedLoss, lossError } =
      trial;
    checkInputs(`${caller}, trial ${trialId}`, inputs, {
      clearSpacing,
      rackArea,
      leafMass,
      cleanLoss,
      cloggedLoss,
      lossError,
    });
    return {
      trialId,
      configuration,
      debrisMass: leafMass,
      rackArea,
      clearSpacing,
      load: leafMass / rackArea,
      lossFactor: cloggedLoss / cleanLoss,
      relativeError: Math.hypot(lossError / cleanLoss, lossError / cloggedLoss),
    };
  });
}
