import { percent } from "../quantity/format";
import { bars } from "./bars";
import { checkSome } from "./numbers";
import type { FigureSpec } from "./spec";

/** Counts of outcomes in a group, as `trial.efficiencies` gives them. */
export interface DrawnOutcomes {
  readonly group: string;
  readonly fish: number;
  readonly bypassed: number;
  readonly rackPassed: number;
  readonly refused: number;
  readonly impinged: number;
  readonly inactive: number;
}

/** What `outcomeShares` draws. */
export interface OutcomeSharesInput {
  readonly title?: string;
  /** What tells the groups apart: "Cue". */
  readonly by: string;
  readonly groups: readonly DrawnOutcomes[];
  /** What the groups are called where their name does not say it. */
  readonly names?: readonly string[];
  readonly caption?: string;
}

const outcomes = [
  ["bypassed", "bypassed"],
  ["refused", "refused"],
  ["impinged", "impinged"],
  ["rackPassed", "passed the rack"],
  ["inactive", "inactive"],
] as const;

/**
 * What the fish of each group did: shares of all fish released, stacked from bypassed at the bottom to inactive at the top.
 *
 * Returns a figure for `figure`. Throws a `RangeError` where there are no groups, or not as many names as groups.
 *
 * @example
 * figures.outcomeShares({ by: "Cue", groups: [{ group: "light", fish: 8, bypassed: 4, rackPassed: 2, refused: 1,
 *   impinged: 0, inactive: 1 }] }).alt
 * // => "Outcomes by cue, as shares of all fish released. light, 8 fish: bypassed 50 %, refused 13 %, impinged 0 %, passed the rack 25 %, inactive 13 %."
 */
export function outcomeShares({ title, by, groups, names, caption }: OutcomeSharesInput): FigureSpec {
  checkSome("outcomeShares", "groups", groups);
  if (names !== undefined && names.length !== groups.length) {
    throw new RangeError(
      `figures.outcomeShares: names has ${names.length} values; it must have ${groups.length}, one for each group.`,
    );
  }
  const categories = groups.map(({ group }, at) => names?.[at] ?? group);
  const words = groups.map((group, at) => {
    const shares = outcomes.map(([outcome, name]) => `${name} ${percent(group[outcome] / group.fish, 2)}`);
    return `${categories[at]}, ${group.fish} fish: ${shares.join(", ")}.`;
  });
  return bars({
    title,
    x: { title: by, categories },
    y: { title: "Share of all fish released", unit: "%" },
    series: outcomes.map(([outcome, name]) => ({
      name,
      values: groups.map((group) => group[outcome] / group.fish),
    })),
    stacked: true,
    alt: [`Outcomes by ${by.toLowerCase()}, as shares of all fish released.`, ...words].join(" "),
    caption,
  });
}
