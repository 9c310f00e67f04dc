import { printValue } from "../../../formula/input";
import type { Angle, PlainNumber } from "../../../quantity/dimension";

/** A measured loss coefficient with the rack that it belongs to: a reduced run, or the same by hand. */
export interface MeasuredLoss {
  readonly runId?: string | undefined;
  /** The same for runs that repeat each other. */
  readonly configuration?: string | undefined;
  readonly barShape: string;
  readonly blockage: PlainNumber;
  readonly rackAngle: Angle;
  /** 0 where it is left out. */
  readonly overlayShare?: PlainNumber | undefined;
  readonly lossCoefficient: PlainNumber;
  /** From the run's own readings. Weights need one for every run. */
  readonly standardError?: PlainNumber | undefined;
  /** What the coefficient moves when each shared cause is off by one standard error. */
  readonly commonMoves?: readonly number[] | undefined;
}

const inside = (value: number, fine: boolean): boolean => Number.isFinite(value) && fine;

/** Throws the sentences of all runs that a law can't be fitted to. */
export function checkLosses(caller: string, runs: readonly MeasuredLoss[]): void {
  const faults = runs.flatMap((run, at) => {
    const name = run.runId === undefined ? `run ${at + 1}` : `run ${run.runId}`;
    const { blockage, rackAngle, overlayShare = 0, lossCoefficient, standardError } = run;
    return [
      ...(inside(blockage, blockage > 0 && blockage < 1)
        ? []
        : [`${name}: blockage is ${blockage}; it must be above 0 and below 1.`]),
      ...(inside(rackAngle, rackAngle > 0 && rackAngle <= Math.PI / 2 + 1e-9)
        ? []
        : [`${name}: rackAngle is ${printValue(rackAngle, "angle")}; it must be above 0° and at most 90°.`]),
      ...(inside(overlayShare, overlayShare >= 0 && overlayShare < 1)
        ? []
        : [`${name}: overlayShare is ${overlayShare}; it must be at least 0 and below 1.`]),
      ...(Number.isFinite(lossCoefficient)
        ? []
        : [`${name}: lossCoefficient is ${lossCoefficient}; it must be a number.`]),
      ...(standardError === undefined || inside(standardError, standardError > 0)
        ? []
        : [`${name}: standardError is ${standardError}; it must be above 0, or be left out for every run.`]),
    ];
  });
  if (runs.length === 0) faults.push("there are no runs to fit a law to.");
  if (faults.length > 0) {
    throw new RangeError(faults.map((fault) => `${caller}: ${fault}`).join("\n"));
  }
}
