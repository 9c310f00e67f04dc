export { catchRecord, catchRecordFor, type CatchRow, type Group, type Net } from "./catchRecord";
export { type MonitoredPlant } from "./plants";
export {
  nightsForInterval,
  type NightsForInterval,
  nightsForPower,
  type NightsForPower,
  type PlannedNights,
} from "./planning/nights";
export { fishToRelease, type FishToRelease, type PlannedReleases } from "./planning/releases";
