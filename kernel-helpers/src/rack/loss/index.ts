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
