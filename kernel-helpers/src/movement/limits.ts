import { length } from "../formula/input";
import type { InputSpec } from "../formula/input";
import type { Length } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkOptions, refuse } from "./checks";

/** The distances that decide what a track shows. None of them is a fact of nature: name them with the result. */
export interface Limits {
  /** A fish that never came within this distance of rack or bypass is inactive. 1 m where not given. */
  readonly activeDistance?: Length;
  /** An approach begins within this distance of rack or bypass. 0.3 m where not given. */
  readonly approachDistance?: Length;
  /** It ends beyond this one, which is longer, so that a fish at the edge is not counted again and again. 0.6 m. */
  readonly leaveDistance?: Length;
  /** A track that ends within this distance of the rack shows an impinged fish. 0.05 m where not given. */
  readonly touchDistance?: Length;
  /** A fish has passed once it is this far beyond the line of rack or bypass. 0.05 m where not given. */
  readonly passedBy?: Length;
}

/** The distances of `Limits` where none are given. */
export const usualLimits: Required<Limits> = {
  activeDistance: u.m(1),
  approachDistance: u.m(0.3),
  leaveDistance: u.m(0.6),
  touchDistance: u.m(0.05),
  passedBy: u.m(0.05),
};

const specs: Readonly<Record<keyof Limits, InputSpec>> = {
  activeDistance: length("d_a", { above: 0 }),
  approachDistance: length("d_1", { above: 0 }),
  leaveDistance: length("d_2", { above: 0 }),
  touchDistance: length("d_t", { atLeast: 0 }),
  passedBy: length("d_p", { atLeast: 0 }),
};

/** Returns the limits with the usual ones filled in, or refuses them in a sentence. */
export function checkedLimits(caller: string, given: Limits): Required<Limits> {
  checkOptions(caller, { ...given }, specs);
  const limits = {
    activeDistance: given.activeDistance ?? usualLimits.activeDistance,
    approachDistance: given.approachDistance ?? usualLimits.approachDistance,
    leaveDistance: given.leaveDistance ?? usualLimits.leaveDistance,
    touchDistance: given.touchDistance ?? usualLimits.touchDistance,
    passedBy: given.passedBy ?? usualLimits.passedBy,
  };
  if (limits.leaveDistance < limits.approachDistance) {
    refuse(
      caller,
      `leaveDistance is ${limits.leaveDistance} m; it must be at least the approachDistance of ${limits.approachDistance} m`,
    );
  }
  return limits;
}
