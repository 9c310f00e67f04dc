export { alongRiver, type AlongRiverInput } from "./alongRiver";
export { bars, type BarsInput } from "./bars";
export { type DrawnEfficiency, efficiencies, type EfficienciesInput } from "./efficiencies";
export { calibration, type CalibrationGroup, type CalibrationInput } from "./calibration";
export { fishPaths, type FishPathsInput } from "./fishPaths";
export { flowDuration, type FlowDurationInput } from "./flowDuration";
export { headLossAgainst, type HeadLossAgainstInput, type HeadLossCurve } from "./headLossAgainst";
export { intervals, type IntervalsInput, type IntervalValue } from "./intervals";
export { layoutPlan, type LayoutPlanInput } from "./layoutPlan";
export { lengthFrequency, type LengthFrequencyInput } from "./lengthFrequency";
export { type AxisText, type Curve, lines, type LinesInput } from "./lines";
export type { Mark } from "./marks";
export type { Numbers, ShownUnit } from "./numbers";
export { type DrawnOutcomes, outcomeShares, type OutcomeSharesInput } from "./outcomeShares";
export { probeRecord, type ProbeRecordInput } from "./probeRecord";
export { protectionCurve, type ProtectionCurveInput, type ProtectionPoint } from "./protectionCurve";
export { type DrawnShare, shareAgainstTime, type ShareAgainstTimeInput } from "./shareAgainstTime";
export type { FigureSpec, PlotlyLayout, PlotlyTrace } from "./spec";
export { totalSurvival, type TotalSurvivalCurve, type TotalSurvivalInput } from "./totalSurvival";
export { type DrawnOption, tradeOff, type TradeOffInput } from "./tradeOff";
export { trialPlan, type TrialPlanInput } from "./trialPlan";
export { turbineSurvival, type TurbineSurvivalCurve, type TurbineSurvivalInput } from "./turbineSurvival";
export {
  alongLine,
  type AlongLineInput,
  alongRack,
  type AlongRackInput,
  type NamedLimit,
} from "./velocityAlong";
export { velocityMap, type VelocityMapInput } from "./velocityMap";
export { answersByQuestion, type AnswersByQuestionInput } from "./answersByQuestion";
export { builtCombinations, type BuiltCombinationsInput } from "./builtCombinations";
export { histogram, type HistogramInput } from "./histogram";
export { modelScale, type ModelScaleInput } from "./modelScale";
export { type FittedCurve, fittedCurves, type FittedCurvesInput, type MeasuredPoints } from "./fittedCurves";
export { type ResidualGroup, residuals, type ResidualsInput } from "./residuals";
export { convergence, type ConvergenceInput, type RunningEstimate } from "./convergence";
export { tornado, type TornadoInput } from "./tornado";
export type { BypassAtWork } from "./bypassGeometry";
export { bypassSection, type BypassSectionInput } from "./bypassSection";
export { dischargeAgainstLevel, type DischargeAgainstLevelInput } from "./dischargeAgainstLevel";
export { cleaningTradeOff, type CleaningTradeOffInput } from "./cleaningTradeOff";
export { headLossOverTime, type HeadLossOverTimeInput } from "./headLossOverTime";
