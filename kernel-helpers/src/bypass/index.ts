export { broadCrestedWeir, contractedWeir, sharpCrestedWeir, submergence } from "./weirs";
export { sluiceGate, sluiceGateCoefficient, submergedOrifice } from "./openings";
export { drownedSluiceGate } from "./drownedGate";
export { broadCrestedWeirHead, sharpCrestedWeirHead, sluiceGateOpening } from "./setting";
export { criticalDepth, manning, normalDepth } from "./channel";
export { acceleration, entranceVelocityRatio, impactVelocity } from "./entrance";
export {
  type Control,
  type ControlFlow,
  controlFlow,
  type ControlLevels,
  type Orifice,
  type RampedCrest,
  type SharpCrest,
  type SluiceGate,
} from "./control";
export { type Chute, type ChuteFlow, chuteFlow, type ChuteWater, type WaterPoint } from "./chute";
export { type BypassFlow, type BypassStructure, type BypassWater, flowThrough } from "./flowThrough";
export { adjust } from "./adjust";
export { evenRamp, type EvenRampInput, type RampPoint } from "./evenRamp";
export {
  type BypassFish,
  type BypassValues,
  checkPractice,
  editLimits,
  type LimitId,
  practiceLimits,
  type PracticeLimits,
  type PracticeRow,
} from "./practice";
