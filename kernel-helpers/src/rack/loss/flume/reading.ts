import type { Angle, Discharge, Length, PlainNumber } from "../../../quantity/dimension";

/** Whether a rack stood in the flume, whether water flowed. */
export type FlumeRunKind = "rack" | "empty" | "still";

/** One run of a flume, as it was read: a row of `rackLoss.flumeRecord`, or the same by hand. */
export interface FlumeReading {
  readonly runId: string;
  readonly run: FlumeRunKind;
  /** The same for runs that repeat each other. */
  readonly configuration?: string | undefined;
  readonly flumeWidth: Length;
  readonly discharge: Discharge;
  readonly upstreamLevel: Length;
  readonly downstreamLevel: Length;
  readonly barShape?: string | undefined;
  readonly barThickness?: Length | undefined;
  readonly clearSpacing?: Length | undefined;
  readonly supportShare?: PlainNumber | undefined;
  readonly rackAngle?: Angle | undefined;
  readonly overlayShare?: PlainNumber | undefined;
}

/** A run with a rack whose description is complete. */
export interface RackReading extends FlumeReading {
  readonly barShape: string;
  readonly barThickness: Length;
  readonly clearSpacing: Length;
  readonly supportShare: PlainNumber;
  readonly rackAngle: Angle;
  readonly overlayShare: PlainNumber;
}

/** Standard errors of the instruments. */
export interface FlumeInstruments {
  /** Of one level. */
  readonly levelError: Length;
  /** Of the discharge, as a share of it. */
  readonly dischargeError: PlainNumber;
}
