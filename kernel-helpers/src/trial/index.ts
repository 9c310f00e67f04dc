export { type ChangedOutcome, decideActivity, type DecidedActivity, type FollowedFish } from "./activity";
export {
  compareGroups,
  type ComparisonOptions,
  type GroupComparison,
  type GroupDifference,
} from "./comparison";
export {
  efficiencies,
  type Efficiency,
  type EfficiencyOptions,
  type GroupEfficiencies,
} from "./efficiencies";
export { efficiencyDefinitions, type EfficiencyName } from "./efficiency";
export { type Effect, fitEffects, type FittedEffects } from "./effects";
export type { TrialFish } from "./fish";
export type { Grouping } from "./grouping";
export { type Outcome, outcomeMeanings, outcomes } from "./outcome";
export { type FishTerm, type FishTerms, type RegressionRows, regressionRows } from "./regressionRows";
export { type RunCluster, runClusters, type RunClusters } from "./runClusters";
export { type CountedRun, fishOfCounts, runCounts, runCountsWith } from "./runCounts";
export { runRecord, type RunRecord, runRecordFor } from "./runRecord";
export {
  type ShareByTime,
  timeCourse,
  type TimeCourse,
  type TimeCourseOptions,
  type TimedFish,
  type TimedOutcome,
} from "./timeCourse";
export { balance, type Balance, type OrderBalance, type RunInBlocks } from "./planning/balance";
export { type ExclusionRule, usualExclusionRules } from "./planning/exclusionRules";
export type { Batch, FishOfBatch, Reuse } from "./planning/fishNeeded";
export { type ControlRuns, plan, type PlanOptions, type TrialPlan } from "./planning/plan";
export type { Factors, Level, PlannedRun } from "./planning/plannedRun";
export {
  detectableDifference,
  power,
  powerByRuns,
  type PowerOfRuns,
  runsForPower,
  type RunsForPower,
  type TrialPower,
} from "./planning/power";
export {
  type PlannedRuns,
  type RunForecast,
  runsForInterval,
  type RunsForInterval,
  widthByRuns,
} from "./planning/precision";
export { welfareChecklist, type WelfarePoint } from "./planning/welfare";
export { designEffect, fishForHalfWidth } from "./planning/ruleOfThumb";
