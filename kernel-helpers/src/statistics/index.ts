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
