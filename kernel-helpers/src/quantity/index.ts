export * from "./dimension";
export { format, formatNumber, percent, withSymbol } from "./format";
export { u } from "./u";
export { defaultUnit, type DimensionOf, type Unit, type UnitName, type UnitOf, units } from "./unit";
