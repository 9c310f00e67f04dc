export type {
  Acceleration,
  Angle,
  Area,
  DimensionName,
  Discharge,
  Energy,
  Force,
  Frequency,
  KinematicViscosity,
  Length,
  Mass,
  PlainNumber,
  Power,
  Pressure,
  Quantity,
  RotationalSpeed,
  Temperature,
  Time,
  Velocity,
  VelocityGradient,
  Volume,
} from "./dimension";
export { format, formatNumber, percent } from "./format";
export { u } from "./u";
export { type DimensionOf, type Unit, type UnitName, units } from "./unit";
