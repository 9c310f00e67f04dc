import type { DimensionName } from "./dimension";

/** A unit: its dimension, the symbol that the trade prints, and how many SI units it holds. */
export interface Unit<D extends DimensionName = DimensionName> {
  readonly dimension: D;
  readonly symbol: string;
  readonly inSI: number;
}

const unit = <D extends DimensionName>(dimension: D, symbol: string, inSI: number): Unit<D> => ({
  dimension,
  symbol,
  inSI,
});

/** Every unit the course uses. SI sizes; rotational speed counts revolutions per second, temperature stays in °C. */
export const units = {
  /** Metres, a length. */
  m: unit("length", "m", 1),
  /** Centimetres, a length. */
  cm: unit("length", "cm", 0.01),
  /** Millimetres, a length. */
  mm: unit("length", "mm", 0.001),
  /** Kilometres, a length. */
  km: unit("length", "km", 1000),
  /** Square metres, an area. */
  m2: unit("area", "m²", 1),
  /** Square centimetres, an area. */
  cm2: unit("area", "cm²", 1e-4),
  /** Cubic metres, a volume. */
  m3: unit("volume", "m³", 1),
  /** Litres, a volume. */
  L: unit("volume", "L", 0.001),
  /** Metres per second, a velocity. */
  mps: unit("velocity", "m/s", 1),
  /** Centimetres per second, a velocity. */
  cmps: unit("velocity", "cm/s", 0.01),
  /** Cubic metres per second, a discharge. */
  m3ps: unit("discharge", "m³/s", 1),
  /** Litres per second, a discharge. */
  Lps: unit("discharge", "L/s", 0.001),
  /** Radians, an angle. */
  rad: unit("angle", "rad", 1),
  /** Degrees, an angle. */
  deg: unit("angle", "°", Math.PI / 180),
  /** Seconds, a time. */
  s: unit("time", "s", 1),
  /** Minutes, a time. */
  min: unit("time", "min", 60),
  /** Hours, a time. */
  h: unit("time", "h", 3600),
  /** Days, a time. */
  d: unit("time", "d", 86_400),
  /** Revolutions per second, a rotational speed. */
  rps: unit("rotationalSpeed", "1/s", 1),
  /** Revolutions per minute, a rotational speed. */
  rpm: unit("rotationalSpeed", "rpm", 1 / 60),
  /** Metres per second squared, an acceleration. */
  mps2: unit("acceleration", "m/s²", 1),
  /** Hertz, a frequency. */
  Hz: unit("frequency", "Hz", 1),
  /** Metres per second and metre, a velocity gradient. */
  perS: unit("velocityGradient", "1/s", 1),
  /** Square metres per second, a kinematic viscosity. */
  m2ps: unit("kinematicViscosity", "m²/s", 1),
  /** Pascals, a pressure. */
  Pa: unit("pressure", "Pa", 1),
  /** Kilopascals, a pressure. */
  kPa: unit("pressure", "kPa", 1000),
  /** Megapascals, a pressure or a stress. */
  MPa: unit("pressure", "MPa", 1e6),
  /** Gigapascals, a pressure or a modulus of elasticity. */
  GPa: unit("pressure", "GPa", 1e9),
  /** Bars, a pressure. */
  bar: unit("pressure", "bar", 1e5),
  /** Newtons, a force. */
  N: unit("force", "N", 1),
  /** Kilonewtons, a force. */
  kN: unit("force", "kN", 1000),
  /** Watts, a power. */
  W: unit("power", "W", 1),
  /** Kilowatts, a power. */
  kW: unit("power", "kW", 1000),
  /** Megawatts, a power. */
  MW: unit("power", "MW", 1e6),
  /** Joules, an energy. */
  J: unit("energy", "J", 1),
  /** Kilowatt hours, an energy. */
  kWh: unit("energy", "kWh", 3.6e6),
  /** Megawatt hours, an energy. */
  MWh: unit("energy", "MWh", 3.6e9),
  /** Gigawatt hours, an energy. */
  GWh: unit("energy", "GWh", 3.6e12),
  /** Kilograms, a mass. */
  kg: unit("mass", "kg", 1),
  /** Grams, a mass. */
  g: unit("mass", "g", 0.001),
  /** Tonnes, a mass. */
  t: unit("mass", "t", 1000),
  /** Degrees Celsius, a temperature. */
  degC: unit("temperature", "°C", 1),
} as const;

/** The name of a unit, such as `"mm"`. */
export type UnitName = keyof typeof units;

/** The dimension of a unit. */
export type DimensionOf<K extends UnitName> = (typeof units)[K]["dimension"];

/** The units of a dimension. */
export type UnitOf<D extends DimensionName> = {
  [K in UnitName]: DimensionOf<K> extends D ? K : never;
}[UnitName];

/** The unit that a dimension is shown in where nothing else is asked for. */
export const defaultUnit: { readonly [D in DimensionName]: UnitOf<D> } = {
  length: "m",
  area: "m2",
  volume: "m3",
  velocity: "mps",
  discharge: "m3ps",
  angle: "deg",
  time: "s",
  rotationalSpeed: "rpm",
  acceleration: "mps2",
  frequency: "Hz",
  velocityGradient: "perS",
  kinematicViscosity: "m2ps",
  pressure: "kPa",
  force: "kN",
  power: "kW",
  energy: "MWh",
  mass: "kg",
  temperature: "degC",
};
