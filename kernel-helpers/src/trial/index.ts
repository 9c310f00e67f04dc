export { type ChangedOutcome, decideActivity, type DecidedActivity, type FollowedFish } from "./activity";
export {
  efficiencies,
  type Efficiency,
  type EfficiencyOptions,
  type GroupEfficiencies,
} from "./efficiencies";
export { efficiencyDefinitions, type EfficiencyName } from "./efficiency";
export type { TrialFish } from "./fish";
export type { Grouping } from "./grouping";
export { type Outcome, outcomeMeanings, outcomes } from "./outcome";
export { type RunCluster, runClusters, type RunClusters } from "./runClusters";
export { runRecord, type RunRecord, runRecordFor } from "./runRecord";
