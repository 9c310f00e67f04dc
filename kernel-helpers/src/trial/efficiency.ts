import type { Outcome } from "./outcome";

/** What an efficiency counts: its successes, and the fish that it is a share of. */
export interface EfficiencyDefinition {
  readonly title: string;
  readonly successes: readonly Outcome[];
  readonly denominator: readonly Outcome[];
  /** The share in words, denominator included. */
  readonly definition: string;
}

const active: readonly Outcome[] = ["bypassed", "rackPassed", "refused", "impinged"];

/** The efficiencies that papers give, each with another denominator or another success. Inactive fish are in none. */
export const efficiencyDefinitions = {
  guidance: {
    title: "guidance",
    successes: ["bypassed"],
    denominator: active,
    definition: "bypassed of all active fish (bypassed, rackPassed, refused, impinged)",
  },
  protection: {
    title: "protection",
    successes: ["bypassed", "refused"],
    denominator: active,
    definition: "bypassed and refused of all active fish (bypassed, rackPassed, refused, impinged)",
  },
  guidanceOfPassed: {
    title: "guidance of those that passed",
    successes: ["bypassed"],
    denominator: ["bypassed", "rackPassed"],
    definition: "bypassed of the fish that passed (bypassed, rackPassed)",
  },
} as const satisfies Readonly<Record<string, EfficiencyDefinition>>;

/** The name of an efficiency. */
export type EfficiencyName = keyof typeof efficiencyDefinitions;
