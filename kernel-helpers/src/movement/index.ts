export { trackRecord } from "./trackRecord";
export {
  type Gap,
  type Position,
  type Track,
  trackOf,
  type TrackOptions,
  type TrackRow,
  tracks,
} from "./track";
export { type Place, type Reach, type Site, site } from "./site";
export { type Limits, usualLimits } from "./limits";
export { ending, type Ending, type SeenOutcome } from "./ending";
export { type Approach, approaches, type Closest, closestDistance } from "./approaches";
export { type Flow, scaledFlow, uniformFlow, type WaterVelocity } from "./flow";
export { apparentSpeed, type PlanVelocity, type Step, type StepOptions, steps } from "./steps";
export {
  type Orientation,
  orientation,
  type RheotaxisOptions,
  type RheotaxisShares,
  usualRheotaxis,
} from "./rheotaxis";
export { type Behaviour, type BehaviourOptions, behaviours } from "./behaviours";
export {
  compareWithRecords,
  type ComparisonOptions,
  type Disagreement,
  type DisagreementKind,
  type RecordComparison,
  type RecordedFish,
} from "./compareWithRecords";
export { type BehaviourSummary, summary } from "./summary";
