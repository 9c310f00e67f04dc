import type { Energy } from "../../quantity/dimension";
import { u } from "../../quantity/u";

/** What takes energy from a plant, in the order in which it is taken off. */
export const causes = [
  "residualFlow",
  "bypassFlow",
  "standstill",
  "partLoad",
  "intake",
  "rack",
  "clogging",
  "shutdown",
] as const;

/** One of the causes of `energy.operation`'s account. */
export type LossCause = (typeof causes)[number];

/** Energy of a stretch of time: potential less the loss of every cause is what is produced. */
export interface EnergyAccount {
  /** All the river's water up to full discharge, at the head above the tail water and the best efficiency. */
  readonly potential: Energy;
  /**
   * Taken off one after the other, so that each is the loss behind those before it: water left to the old river course;
   * to the bypass; below the technical minimum or without head; efficiency under the best one; the intake; the clean rack;
   * its debris; shutdowns for the fish.
   */
  readonly losses: Readonly<Record<LossCause, Energy>>;
  readonly produced: Energy;
}

/** Sums up days: from the potential on, each entry is what is left behind one more cause. */
export class Ledger {
  private readonly left = new Float64Array(causes.length + 1);

  /** Books one day: its potential in joules, then what is left behind each cause in order. */
  book(left: readonly number[]): void {
    for (let at = 0; at < this.left.length; at++) this.left[at] += left[at];
  }

  /** The account of all days booked, times a factor. */
  account(factor: number): EnergyAccount {
    const losses = causes.map(
      (cause, at) => [cause, u.J(Math.max(0, this.left[at] - this.left[at + 1]) * factor)] as const,
    );
    return {
      potential: u.J(this.left[0] * factor),
      // Object.fromEntries forgets that the keys are the causes.
      losses: Object.fromEntries(losses) as Record<LossCause, Energy>,
      produced: u.J(this.left[causes.length] * factor),
    };
  }
}
