export { catchRecord, catchRecordFor, type CatchRow, type Group, type Net } from "./catchRecord";
export { demoPlants, type MonitoredPlant } from "./plants";
export type { CatchChoice } from "./nights";
export {
  type Efficiency,
  gearEfficiencies,
  type GearEfficiencies,
  gearEfficiency,
  type GearEfficiency,
} from "./gearEfficiency";
export {
  type CatchKey,
  correctedCatch,
  type CorrectedCatch,
  correctedCatches,
  type CorrectedCatchRow,
} from "./correctedCatch";
export {
  type GroupSurvival,
  type RelativeSurvival,
  relativeSurvival,
  type Survivors,
} from "./relativeSurvival";
export {
  type DelayedShare,
  type InjuryShare,
  injuryShares,
  type RouteSurvival,
  routeSurvival,
  type SurvivalDenominator,
  uninjuredRelative,
} from "./routeSurvival";
export {
  type Guidance,
  guidanceByClass,
  guidanceFromProtection,
  type GuidanceOfClass,
  guidanceOfPassed,
  type NightCatch,
} from "./guidance";
export {
  calibration,
  type Calibration,
  type CalibrationClass,
  type PredictionRange,
} from "./calibration/calibration";
export type { CalibrationLine, CalibrationTest } from "./calibration/line";
export type { CalibrationCell } from "./calibration/cells";
export { predictionInterval, type PredictionInterval } from "./calibration/predictionInterval";
export { calibrationCells, className, type ClassInNight, meanOverClass } from "./calibration/fromCatches";
export {
  nightsForInterval,
  type NightsForInterval,
  nightsForPower,
  type NightsForPower,
  type PlannedNights,
} from "./planning/nights";
export { fishToRelease, type FishToRelease, type PlannedReleases } from "./planning/releases";
