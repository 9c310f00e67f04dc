import type { Area, Discharge, Length, Mass, PlainNumber, Time } from "../../../quantity/dimension";
import type { CloggingCoefficients } from "../trials/fitLaw";

/** One day of river, plant and debris. */
export interface DebrisDay {
  /** Written 2026-03-01; the days follow one another without a gap. */
  readonly date: string;
  readonly riverFlow: Discharge;
  /** As far as the plant would take it; at most the river's. */
  readonly turbineFlow: Discharge;
  /** What drifts in the river that day, wet mass by type: { leaves: u.kg(80), wood: u.kg(12) }. */
  readonly debris: Readonly<Record<string, Mass>>;
}

/** A rack with its clean loss and its law of clogging. */
export interface CloggingRack {
  /** Gross, under water. */
  readonly rackArea: Area;
  /** Cross-section of the approach channel, which the velocity of the loss coefficient refers to. */
  readonly channelArea: Area;
  readonly clearSpacing: Length;
  /** Of the clean rack: no clogged open share, no clogging factor. */
  readonly cleanLossCoefficient: PlainNumber;
  /** Of `clogging.lossFactor`. */
  readonly coefficients: CloggingCoefficients;
  /** The loads that the law was fitted to, in kg/m². */
  readonly testedLoad?: readonly [number, number];
}

/** A stretch of days, both included, written 2026-03-01. */
export interface Period {
  readonly from: string;
  readonly to: string;
}

/** When and how far the rack is cleaned. */
export interface Cleaning {
  /** The machine starts at this head loss; left out, it never starts by head loss. */
  readonly threshold?: Length;
  /** The machine starts this long after it last ran; left out, it has no schedule. */
  readonly every?: Time;
  /** The machine needs this long from one start to the next. */
  readonly shortestInterval: Time;
  /** Share of the rack that the machine reaches and leaves clean. */
  readonly reach: PlainNumber;
  /** At this head loss the turbines are held back, and the whole rack is cleaned by hand at the end of the day. */
  readonly greatestLoss: Length;
  /** When the machine is out of order. */
  readonly outOfOrder?: readonly Period[];
}

/** What nobody measured: every one of these is stated by the user. */
export interface CloggingAssumptions {
  /** Share of the debris drawn to the rack that stays on it; the rest slides to the bypass or passes between the bars. */
  readonly stickingShare: PlainNumber;
  /** For each type of debris, the mass of leaves that clogs as much as one kilogram of it. */
  readonly leafEquivalents: Readonly<Record<string, PlainNumber>>;
  /** Sediment that grows before the rack; left out, there is none. */
  readonly sediment?: Sediment;
  /** The rack is taken out from one day of the year to another, written 12-15, every year: ice. */
  readonly rackOut?: Period;
}

/** Sediment before the bottom overlay: it covers bars once it has grown over the overlay. */
export interface Sediment {
  /** Growth on a day with at least the flow below. */
  readonly risePerDay: Length;
  readonly aboveFlow: Discharge;
  readonly overlayHeight: Length;
  readonly rackHeight: Length;
  /** It is flushed or dredged away this often. */
  readonly clearedEvery: Time;
}

/** All that `clogging.headLossOverTime` takes. */
export interface CloggingInputs {
  readonly days: readonly DebrisDay[];
  readonly rack: CloggingRack;
  readonly cleaning: Cleaning;
  readonly assumptions: CloggingAssumptions;
  /** Steps of a day; the machine looks at the head loss at the end of each. */
  readonly stepsPerDay?: PlainNumber;
}
