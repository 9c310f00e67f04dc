export { grossArea, requiredArea } from "./area";
export { blockage, rackLength as length } from "./geometry";
export { hydrostaticLoad } from "./load";
export {
  checkPractice,
  editLimits,
  type LimitId,
  type PracticeLayout,
  type PracticeLimit,
  practiceLimits,
  type PracticeRow,
} from "./practice";
export { type ScaledRack, toModel, toNature } from "./model";
export {
  barReynoldsLimit,
  type Flume,
  type ModelScales,
  modelScales,
  type ModelScalesInput,
  type ModelSection,
  type ReynoldsLimit,
  type ScaleDemand,
} from "./modelScale";
export { barReynolds, modelBarReynolds } from "./reynolds";
export { froudeScale } from "./scale";
export { sweepTime } from "./sweep";
export { gapVelocity, normalVelocity, tangentialVelocity } from "./velocities";
