export { type AlongLine, alongLine, type LineGradient, type LineStation } from "./alongLine";
export { type AlongRack, alongRack, type RackStation } from "./alongRack";
export {
  type CleanedRecord,
  type CleanedSample,
  type CleanOptions,
  cleanRecord,
  type SampleVerdict,
} from "./cleanRecord";
export { type CorrelatedMean, correlatedMean } from "./correlatedMean";
export { effectiveSamples } from "./effectiveSamples";
export { field, type Flow, type FlowVelocity, type VelocityField } from "./field";
export type { PlanLine, PlanPlace } from "./line";
export type { SpikeMethod } from "./phaseSpace";
export { depthAveraged, layer, type PlanVelocity } from "./plan";
export type { PlanPoint, VelocityPoint } from "./point";
export { pointRecord, probeRecord } from "./records";
export { type ComponentStatistics, type RecordStatistics, recordStatistics } from "./recordStatistics";
export type { Component, ProbeSample } from "./sample";
export {
  type SectionDischarge,
  sectionDischarge,
  type SectionPoint,
  type SectionVertical,
} from "./sectionDischarge";
export { turbulentKineticEnergy } from "./turbulentKineticEnergy";
export { type Uniformity, uniformity } from "./uniformity";
export { universalThreshold } from "./universalThreshold";
