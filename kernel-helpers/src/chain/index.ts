export { course, type CoursePoint } from "./course";
export type { ChainPlant, Passing, Route } from "./plant";
export { plantRecord } from "./plantRecord";
export { rackRoutes } from "./rackRoutes";
export { reachSurvival } from "./reach";
export {
  type RefitAim,
  type RefitGain,
  type RefitOption,
  refits,
  refitsInTurn,
  type RefitStep,
} from "./refits";
export { type PlantPassage, river, type RiverPassage, type RouteFish } from "./river";
