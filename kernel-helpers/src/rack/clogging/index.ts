export { bendingStress, deflection } from "./bar/bending";
export { frequencyRatio, naturalFrequency, sheddingFrequency } from "./bar/vibration";
export { headLoss } from "./cloggedLoss";
export { debrisRecord, type DebrisRow } from "./debrisRecord";
export { flushingWater } from "./flushing";
export { lossFactor } from "./lossFactor";
export { type CloggedDay, type HeadLossOverTime, headLossOverTime } from "./operation/headLossOverTime";
export type {
  Cleaning,
  CloggingAssumptions,
  CloggingInputs,
  CloggingRack,
  DebrisDay,
  Period,
  Sediment,
} from "./operation/inputs";
export {
  type CloggingCoefficients,
  type CloggingFit,
  type CloggingPlace,
  fitLaw,
  type FittedTrial,
} from "./trials/fitLaw";
export { type CloggingPrediction, predictLaw } from "./trials/predictLaw";
export {
  type CloggingTrial,
  type MeasuredFactor,
  type ReducedTrial,
  reduceTrials,
} from "./trials/reduceTrials";
export { type CloggingTrialRow, trialRecord } from "./trials/trialRecord";
export { zonesInParallel } from "./zones";
