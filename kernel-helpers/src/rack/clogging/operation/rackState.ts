import { velocityHead } from "../../loss/velocityHead";
import { lossFactor } from "../lossFactor";
import { zonesInParallel } from "../zones";
import type { CloggingRack } from "./inputs";

/** The debris on a rack that a machine reaches in part, and what it does to the head loss. Masses as leaves, in kg. */
export class RackState {
  private reachedMass = 0;
  private otherMass = 0;
  /** Share of the rack behind sediment. */
  coveredShare = 0;

  constructor(
    private readonly rack: CloggingRack,
    private readonly reach: number,
  ) {}

  /** All debris on the rack. */
  get mass(): number {
    return this.reachedMass + this.otherMass;
  }

  /** Load of the part that the machine reaches, kg/m². */
  get load(): number {
    return this.loadOf(this.reachedMass, this.reach);
  }

  /** Head loss at a turbine flow, in metres. */
  lossAt(flow: number): number {
    const factor = zonesInParallel.evaluate({
      reachedShare: this.reach,
      reachedFactor: this.factorOf(this.reachedMass, this.reach),
      otherFactor: this.factorOf(this.otherMass, 1 - this.reach),
      coveredShare: this.coveredShare,
    });
    return this.rack.cleanLossCoefficient * factor * velocityHead(flow / this.rack.channelArea);
  }

  /** Debris settles where the water goes: each zone takes its share of the flow. */
  settle(mass: number): void {
    const throughReached = this.reach / Math.sqrt(this.factorOf(this.reachedMass, this.reach));
    const throughOther = (1 - this.reach) / Math.sqrt(this.factorOf(this.otherMass, 1 - this.reach));
    const share = throughReached / (throughReached + throughOther);
    this.reachedMass += mass * share;
    this.otherMass += mass * (1 - share);
  }

  cleanByMachine(): void {
    this.reachedMass = 0;
  }

  cleanByHand(): void {
    this.reachedMass = 0;
    this.otherMass = 0;
  }

  private loadOf(mass: number, share: number): number {
    return share === 0 ? 0 : mass / (this.rack.rackArea * (1 - this.coveredShare) * share);
  }

  private factorOf(mass: number, share: number): number {
    return lossFactor.evaluate({
      debrisMass: this.loadOf(mass, share),
      rackArea: 1,
      clearSpacing: this.rack.clearSpacing,
      ...this.rack.coefficients,
    });
  }
}
