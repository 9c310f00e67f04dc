export { approachVelocity } from "./approachVelocity";
export { dailyFlow } from "./dailyFlow";
export { flowDuration, type FlowDuration } from "./flowDuration";
export { meanFlow } from "./meanFlow";
export { capturedShare, daysAtOrAbove, daysAtOrAboveByYear, type YearOfDays } from "./operation";
export type { DailyFlow, FlowRecord, Season } from "./record";
export { season, type SeasonRecord } from "./season";
