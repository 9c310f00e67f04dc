declare const dimension: unique symbol;

/**
 * What a quantity can be, and the remedy that the compiler prints when something else stands in its place:
 * `Type '"an angle: u.deg(…)"' is not assignable to type '"a length: u.m(…), u.cm(…) or u.mm(…)"'`.
 */
export interface Remedies {
  length: "a length: u.m(…), u.cm(…) or u.mm(…)";
  area: "an area: u.m2(…) or u.cm2(…)";
  volume: "a volume: u.m3(…) or u.L(…)";
  velocity: "a velocity: u.mps(…) or u.cmps(…)";
  discharge: "a discharge: u.m3ps(…) or u.Lps(…)";
  angle: "an angle: u.deg(…) or u.rad(…)";
  time: "a time: u.s(…), u.min(…), u.h(…) or u.d(…)";
  rotationalSpeed: "a rotational speed: u.rpm(…) or u.rps(…)";
  acceleration: "an acceleration: u.mps2(…)";
  frequency: "a frequency: u.Hz(…)";
  velocityGradient: "a velocity gradient: u.perS(…)";
  kinematicViscosity: "a kinematic viscosity: u.m2ps(…)";
  pressure: "a pressure: u.Pa(…), u.kPa(…), u.MPa(…), u.GPa(…) or u.bar(…)";
  force: "a force: u.N(…) or u.kN(…)";
  power: "a power: u.W(…), u.kW(…) or u.MW(…)";
  energy: "an energy: u.J(…), u.kWh(…), u.MWh(…) or u.GWh(…)";
  mass: "a mass: u.kg(…), u.g(…) or u.t(…)";
  temperature: "a temperature: u.degC(…)";
}

/** The name of a dimension, such as `"length"`. */
export type DimensionName = keyof Remedies;

/** A number in SI units that the compiler keeps apart from numbers of other dimensions. Made by `u`. */
export type Quantity<D extends DimensionName> = number & { readonly [dimension]: Remedies[D] };

/** A number without unit: a ratio, a share, a count. A quantity is refused where one belongs. */
export type PlainNumber = number & { readonly [dimension]?: "a plain number without unit" };

export type Length = Quantity<"length">;
export type Area = Quantity<"area">;
export type Volume = Quantity<"volume">;
export type Velocity = Quantity<"velocity">;
export type Discharge = Quantity<"discharge">;
export type Angle = Quantity<"angle">;
export type Time = Quantity<"time">;
export type RotationalSpeed = Quantity<"rotationalSpeed">;
export type Frequency = Quantity<"frequency">;
export type Acceleration = Quantity<"acceleration">;
export type VelocityGradient = Quantity<"velocityGradient">;
export type KinematicViscosity = Quantity<"kinematicViscosity">;
export type Pressure = Quantity<"pressure">;
export type Force = Quantity<"force">;
export type Power = Quantity<"power">;
export type Energy = Quantity<"energy">;
export type Mass = Quantity<"mass">;
export type Temperature = Quantity<"temperature">;

/** The same remedies for messages at run time; the compiler keeps both texts equal. */
export const remedies: Remedies = {
  length: "a length: u.m(…), u.cm(…) or u.mm(…)",
  area: "an area: u.m2(…) or u.cm2(…)",
  volume: "a volume: u.m3(…) or u.L(…)",
  velocity: "a velocity: u.mps(…) or u.cmps(…)",
  discharge: "a discharge: u.m3ps(…) or u.Lps(…)",
  angle: "an angle: u.deg(…) or u.rad(…)",
  time: "a time: u.s(…), u.min(…), u.h(…) or u.d(…)",
  rotationalSpeed: "a rotational speed: u.rpm(…) or u.rps(…)",
  acceleration: "an acceleration: u.mps2(…)",
  frequency: "a frequency: u.Hz(…)",
  velocityGradient: "a velocity gradient: u.perS(…)",
  kinematicViscosity: "a kinematic viscosity: u.m2ps(…)",
  pressure: "a pressure: u.Pa(…), u.kPa(…), u.MPa(…), u.GPa(…) or u.bar(…)",
  force: "a force: u.N(…) or u.kN(…)",
  power: "a power: u.W(…), u.kW(…) or u.MW(…)",
  energy: "an energy: u.J(…), u.kWh(…), u.MWh(…) or u.GWh(…)",
  mass: "a mass: u.kg(…), u.g(…) or u.t(…)",
  temperature: "a temperature: u.degC(…)",
};
