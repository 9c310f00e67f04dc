export { angledBarCoefficients, angledBars, angledBarsTurn } from "./angledBars";
export { blockageAngle, blockageAngleTurn } from "./blockageAngle";
export { fromCoefficient } from "./coefficient";
export {
  compareLosses,
  type LossCurve,
  type LossMark,
  type LossRow,
  type SweptInput,
  sweepLosses,
} from "./compareLosses";
export { fitted } from "./fitted";
export { horizontalBars } from "./horizontalBars";
export { inclinedBarCoefficients, inclinedBars } from "./inclinedBars";
export { type BarShape, kirschmer, shapeFactors } from "./kirschmer";
export { type LossAnswer, type LossEquation, lossEquations } from "./lossEquations";
export { obliqueFlow } from "./obliqueFlow";
export { areaRatio, cloggedOpenRatio, openingVelocity } from "./openArea";
export type { BarProfile, Rack, RackDescription } from "./rackDescription";
export { streamwiseBars } from "./streamwiseBars";
export { fromLevels } from "./flume/fromLevels";
export { flumeRecord, type FlumeRecordRow } from "./flume/flumeRecord";
export type { FlumeInstruments, FlumeReading, FlumeRunKind } from "./flume/reading";
export type { FlumeFriction, FlumeReference, FrictionAtDischarge, GaugeOffset } from "./flume/reference";
export {
  type FlumeReduction,
  reduceFlumeRuns,
  type ReducedRun,
  type ReductionSteps,
} from "./flume/reduceFlumeRuns";
export { repeatability, type Repeatability, type RepeatedRun } from "./flume/repeatability";
export { fitLaw, type LawSharing } from "./law/fitLaw";
export type { FittedLaw, LawCoefficients, LawFit, LawPlace, LawRange, LawRun } from "./law/law";
export { type EquationJudgement, judgeEquations, type JudgedRun } from "./law/judgeEquations";
export type { MeasuredLoss } from "./law/measuredLoss";
export { type LawPrediction, predictLaw } from "./law/predictLaw";
