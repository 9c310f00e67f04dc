export { bySizeClass, type SurvivalBySizeClass } from "./bySizeClass";
export { controlCorrected, delayedShare } from "./estimates";
export { lengthClasses } from "./lengthClasses";
export { type LocalMinima, localMinima, type LocalMinimum } from "./minima/localMinima";
export { type Reading, readings } from "./readings";
export { chain, routes, spillEffectiveness, spillShare } from "./routes";
export type { ProtectionOfWidth, SizeClass, SizeClassLaws, SurvivalOfLength } from "./sizeClass";
export { protectedSurvival, total } from "./total";
export { weighted, type WeightedClass, type WeightedSurvival } from "./weighted";
