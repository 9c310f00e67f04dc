import { refuse } from "../../statistics/checks";

/** A reason to leave a run or a fish out, fixed before the first run. */
export interface ExclusionRule {
  readonly about: "run" | "fish";
  readonly rule: string;
  /** Who decides, without having seen the outcome. */
  readonly decidedBy: string;
  /** When, at the latest. */
  readonly decidedAt: string;
}

/**
 * Reasons to leave out a run or a fish that trials usually fix beforehand: a list to start from, not to copy unread.
 *
 * Every exclusion is recorded with its rule, and its fish stay in the records. What a fish did is never a reason.
 */
export const usualExclusionRules: readonly ExclusionRule[] = [
  {
    about: "run",
    rule: "Discharge or water level left the tolerance written in the plan.",
    decidedBy: "whoever runs the flume, from its log",
    decidedAt: "end of the run, before outcomes are read",
  },
  {
    about: "run",
    rule: "The cue or the light failed, or was not the one of the plan.",
    decidedBy: "whoever runs the flume, from its log",
    decidedAt: "end of the run, before outcomes are read",
  },
  {
    about: "run",
    rule: "People or noise disturbed the flume while the run lasted.",
    decidedBy: "whoever runs the flume",
    decidedAt: "end of the run, before outcomes are read",
  },
  {
    about: "fish",
    rule: "The fish was hurt, sick or dead before its release.",
    decidedBy: "the fish keeper",
    decidedAt: "release",
  },
  {
    about: "fish",
    rule: "The fish is not of the species or the length range of the plan, or was used before.",
    decidedBy: "the fish keeper, from measurement and tag",
    decidedAt: "release",
  },
  {
    about: "fish",
    rule: "No camera and no observer could tell what the fish did: outcome unknown, recorded as unknown.",
    decidedBy: "a reader of the pictures who doesn't know the condition",
    decidedAt: "reading, before conditions are joined to outcomes",
  },
];

/** Refuses rules that leave open what, by whom or when. */
export function checkRules(where: string, rules: readonly ExclusionRule[]): void {
  if (rules.length === 0)
    refuse(
      where,
      "exclusionRules is empty; write at least one rule before the first run, even if it never applies",
    );
  rules.forEach((one, at) => {
    for (const name of ["rule", "decidedBy", "decidedAt"] as const)
      if (typeof one[name] !== "string" || one[name].trim() === "")
        refuse(where, `exclusionRules[${at}].${name} is empty; say it before the first run`);
    if (one.about !== "run" && one.about !== "fish")
      refuse(where, `exclusionRules[${at}].about is "${String(one.about)}"; it must be "run" or "fish"`);
  });
}
