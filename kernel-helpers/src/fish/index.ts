export { barrierLength, bodyHeight, bodyWidth, relativeWidth } from "./body";
export { burstSpeed, burstSpeedAtTemperature } from "./burstSpeed";
export { lengthRecord } from "./lengthRecord";
export { type FishSpecies, gapRatio, species, speciesTable, withSpecies } from "./species";
export { conditionFactor, weight } from "./weight";
