export { barrier } from "./barrier";
export { type BinnedShare, binnedShares } from "./fit/binnedShares";
export {
  band,
  type BootstrappedFit,
  bootstrapFit,
  type CurveBand,
  laws,
  type ResampledParameter,
} from "./fit/bootstrapFit";
export { type ComparedFit, compareFits, type FitComparison } from "./fit/compareFits";
export { fitLogistic, type LogisticFit } from "./fit/fitLogistic";
export { fitRamp, type RampFit } from "./fit/fitRamp";
export { law } from "./fit/fittedLaw";
export { type FishOutcome, heldByRack, type HeldFish, type ImpingedFish } from "./fit/heldByRack";
export { type GroupedFish, type LeaveOneOut, leaveOneOut, type LeftOut } from "./fit/leaveOneOut";
export {
  type BodyMeasure,
  type FishOfTwoMeasures,
  measureOfSpecies,
  type SpeciesMeasure,
  type SpeciesMeasures,
} from "./fit/measureOfSpecies";
export type { FitOptions, FittedCurveParameter, ProtectionFit } from "./fit/protectionFit";
export type { TrialFish } from "./fit/trialFish";
export { barrierLaw, logisticLaw, type ProtectionLaw, rampLaw } from "./law";
export { logistic } from "./logistic";
export { overSpread } from "./overSpread";
export { ramp } from "./ramp";
