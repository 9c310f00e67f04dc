export {
  betaCdf,
  betaQuantile,
  type BetaShape,
  chiSquareCdf,
  chiSquareQuantile,
  chiSquareTail,
  type Freedom,
  normalCdf,
  normalQuantile,
  studentQuantile,
} from "./distributions";
export {
  type Count,
  type Interval,
  proportionInterval,
  type ProportionInterval,
  type ProportionMethod,
  proportionMethods,
} from "./proportion";
export { differenceInterval, type DifferenceInterval } from "./difference";
export type { Cluster, ClusterGroup } from "./clustering/cluster";
export { intraclassCorrelation } from "./clustering/intraclassCorrelation";
export { designEffect } from "./clustering/designEffect";
export { type EffectChoice, type EffectiveCount, type EffectSource, raoScott } from "./clustering/raoScott";
export {
  clusteredDifference,
  type ClusteredDifference,
  clusteredInterval,
  type ClusteredInterval,
} from "./clustering/clusteredInterval";
export { type GroupTest, raoScottComparison, type RaoScottComparison } from "./clustering/raoScottComparison";
export { bootstrapBand, type BandPoint } from "./clustering/bootstrapBand";
export {
  bootstrapInterval,
  type BootstrapOptions,
  clusterBootstrap,
  type ClusterBootstrap,
} from "./clustering/clusterBootstrap";
export {
  betaBinomial,
  type BetaBinomialFit,
  type BetaBinomialStatus,
  type FittedParameter,
} from "./betaBinomial/betaBinomial";
export {
  betaBinomialComparison,
  type BetaBinomialComparison,
  type Estimate,
} from "./betaBinomial/betaBinomialComparison";
export { type BinomialFit, type Coefficient, fitBinomial } from "./glm/fitBinomial";
export type { Terms, TermValues } from "./glm/design";
export { clusterRobust } from "./glm/clusterRobust";
export { dose, type Dose } from "./glm/dose";
export type { ErrorKind } from "./glm/errorScale";
export { likelihoodRatio, type LikelihoodRatio } from "./glm/likelihoodRatio";
export type { LinkName } from "./glm/link";
export { type Estimated, predict, type Prediction } from "./glm/predict";
export { waldTest, type WaldTest } from "./glm/waldTest";
export {
  type CumulativeIncidence,
  cumulativeIncidence,
  type IncidenceAt,
  incidenceAt,
  type IncidenceOfEvent,
  type IncidenceStep,
} from "./cumulativeIncidence";
export {
  type DetectorCounts,
  singleRelease,
  type SingleRelease,
  type SurvivalEstimate,
} from "./markRecapture";
export { type DetectionModel, pairedRelease, type PairedRelease } from "./pairedRelease";
export { type EventGroup, logRank, type LogRank } from "./logRank";
export { type EventCurve, eventShare, type EventShare, type EventStep, kaplanMeier } from "./timeToEvent";
export type { ClusterLaw } from "./planning/clusterLaw";
export {
  independentHalfWidth,
  independentPower,
  independentTrials,
  type TwoShares,
} from "./planning/independent";
export {
  clustersForWidth,
  type ClustersForWidth,
  widthByClusters,
  type WidthForecast,
  type WidthOptions,
} from "./planning/width";
export {
  clusteredPower,
  clustersForPower,
  type ClustersForPower,
  powerByClusters,
  type PowerForecast,
  type PowerOptions,
  type PowerPoint,
} from "./planning/power";
export { detectableDifference, type DetectableDifference } from "./planning/detectable";
export {
  type CurveParameter,
  fitLeastSquares,
  type LeastSquaresFit,
  type ParameterValues,
} from "./leastSquares/fitLeastSquares";
export { addCommonErrors } from "./leastSquares/addCommonErrors";
export { type CurvePrediction, predictLeastSquares } from "./leastSquares/predictLeastSquares";
export { fTail, lackOfFit, type LackOfFit } from "./leastSquares/lackOfFit";
export { type Correlation, type ErrorPart, propagateErrors, type PropagatedError } from "./propagateErrors";
export {
  type LikelihoodEstimate,
  type LikelihoodParameter,
  type MaximumLikelihood,
  maximumLikelihood,
} from "./likelihood/maximumLikelihood";
export { lowDiscrepancy, randomNumbers } from "./sobolSequence";
