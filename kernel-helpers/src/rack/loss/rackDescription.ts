import { checkInputs } from "../../formula/check";
import { type InputSpecs, length, number, ratio, velocity } from "../../formula/input";
import type { Angle, Length, PlainNumber, Velocity } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { angleInPlan, angleToHorizontal } from "../angles";
import { blockage } from "../geometry";
import { shapeFactors } from "./kirschmer";

/** A bar's profile as far as the laws fitted to racks tell them apart. */
export type BarProfile = "rectangular" | "hydrodynamic";

/** One rack, described once for every head-loss equation. */
export interface RackDescription {
  readonly barThickness: Length;
  readonly clearSpacing: Length;
  /** Share of the rack behind supports and spacers; 0 where it is left out. */
  readonly supportShare?: PlainNumber;
  /** In plan, between rack and flow; 90° is square to the flow. */
  readonly rackAngle: Angle;
  /** To the horizontal; 90°, an upright rack, where it is left out. */
  readonly inclination?: Angle;
  /** Mean velocity in the channel upstream of the rack. */
  readonly approachVelocity: Velocity;
  /** Rectangular where it is left out. */
  readonly barProfile?: BarProfile;
  /** Shape factor β; the handbook value of the profile where it is left out. */
  readonly shapeFactor?: PlainNumber;
}

/** A checked rack, defaults filled in, with what follows from its geometry. */
export interface Rack {
  readonly barThickness: Length;
  readonly clearSpacing: Length;
  readonly supportShare: number;
  readonly rackAngle: Angle;
  readonly inclination: Angle;
  readonly approachVelocity: Velocity;
  readonly barProfile: BarProfile;
  readonly shapeFactor: number;
  /** Share of the rack behind bars and supports together. */
  readonly blockage: number;
  /** Share of the rack behind bars alone. */
  readonly barBlockage: number;
  /** Mean velocity in the open area of the rack. */
  readonly openVelocity: Velocity;
}

/** β of each profile: a hydrodynamic bar has a round nose and tapers, the nearest shape of the handbook table. */
const profileShapeFactor: Readonly<Record<BarProfile, number>> = {
  rectangular: shapeFactors.sharpRectangle,
  hydrodynamic: shapeFactors.roundNoseTapered,
};

const specs = {
  barThickness: length("s", { above: 0, unit: "mm" }),
  clearSpacing: length("b", { above: 0, unit: "mm" }),
  supportShare: ratio("k", { below: 1, default: 0, note: "share of the rack behind supports and spacers" }),
  rackAngle: angleInPlan({}),
  inclination: angleToHorizontal({ default: u.deg(90) }),
  approachVelocity: velocity("U", { atLeast: 0 }),
  shapeFactor: number("\\beta", { above: 0 }),
} satisfies InputSpecs;

/**
 * Checks a rack's description and adds what follows from it.
 *
 * Throws a RangeError that names the caller, the value and what is allowed.
 */
export function checkRack(caller: string, description: RackDescription): Rack {
  const { barProfile = "rectangular", ...numbers } = description;
  if (!Object.hasOwn(profileShapeFactor, barProfile)) {
    throw new RangeError(
      `${caller}: barProfile is ${JSON.stringify(barProfile)}; it must be ` +
        `${Object.keys(profileShapeFactor).join(" or ")}.`,
    );
  }
  // A boundary: after checkInputs every name holds one number.
  const bare = checkInputs(caller, specs, {
    ...numbers,
    shapeFactor: description.shapeFactor ?? profileShapeFactor[barProfile],
  }) as Readonly<Record<keyof typeof specs, number>>;
  const { barThickness, clearSpacing, supportShare, rackAngle, inclination } = bare;
  const total = blockage.evaluate({ barThickness, clearSpacing, supportShare });
  return {
    barThickness: u.m(barThickness),
    clearSpacing: u.m(clearSpacing),
    supportShare,
    rackAngle: u.rad(rackAngle),
    inclination: u.rad(inclination),
    approachVelocity: u.mps(bare.approachVelocity),
    barProfile,
    shapeFactor: bare.shapeFactor,
    blockage: total,
    barBlockage: blockage.evaluate({ barThickness, clearSpacing, supportShare: 0 }),
    // The rack's area is the channel section over sin α sin θ, so that a lean rack has slower water between its bars.
    openVelocity: u.mps((bare.approachVelocity * Math.sin(rackAngle) * Math.sin(inclination)) / (1 - total)),
  };
}
