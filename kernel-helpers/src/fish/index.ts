export { barrierLength, bodyHeight, bodyWidth, relativeWidth } from "./body";
export { bodyRecord } from "./bodyRecord";
export {
  type BodyRatio,
  bodyRatios,
  type MeasuredBody,
  type MeasuredNumber,
  type SpeciesBodies,
  withBodies,
} from "./bodyRatios";
export { burstSpeed, burstSpeedAtTemperature } from "./burstSpeed";
export { lengthRecord } from "./lengthRecord";
export { type FishSpecies, gapRatio, species, speciesTable, withSpecies } from "./species";
export { conditionFactor, weight } from "./weight";
