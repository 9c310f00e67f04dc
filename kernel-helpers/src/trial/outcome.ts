/** What a fish can do in a run, in the order in which outcomes are tabled. */
export const outcomes = ["bypassed", "rackPassed", "refused", "impinged", "inactive"] as const;

/** What a fish did: one of `outcomes`. */
export type Outcome = (typeof outcomes)[number];

/** What each outcome means. */
export const outcomeMeanings: Readonly<Record<Outcome, string>> = {
  bypassed: "entered the bypass",
  rackPassed: "passed through the rack",
  refused: "came within the distance of rack or bypass, and had taken neither way when the run ended",
  impinged: "was held against the rack by the flow: active, and not protected",
  inactive: "never came within the distance of rack or bypass: in no denominator",
};
