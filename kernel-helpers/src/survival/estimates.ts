import { defineFormula } from "../formula/formula";
import { count, ratio } from "../formula/input";
import { derived, published } from "../formula/source";
import { formatNumber } from "../quantity/format";

/**
 * Survival of treated fish, corrected for what catching and handling did to a control group.
 *
 * Returns an estimate, a plain number that may exceed 1 by chance. Valid where both groups were handled alike; an
 * estimate above 1 enters a further calculation only by your explicit choice.
 *
 * @example
 * survival.controlCorrected({ treatedAlive: 171, treated: 200, controlAlive: 96, control: 100 }) // => 0.890625
 */
export const controlCorrected = defineFormula({
  id: "survival.controlCorrected",
  title: "Survival corrected by a control group",
  symbol: "\\hat S",
  result: "number",
  inputs: {
    treatedAlive: count("a", { atLeast: 0 }),
    treated: count("n", {}),
    controlAlive: count("c", {}),
    control: count("m", {}),
  },
  tex: (q) => `\\frac{${q.treatedAlive}/${q.treated}}{${q.controlAlive}/${q.control}}`,
  source: published("the form: Burnham et al. 1987, Am. Fish. Soc. Monograph 5"),
  refuse: ({ treatedAlive, treated, controlAlive, control }) =>
    treatedAlive > treated
      ? `treatedAlive is ${treatedAlive}; it must be at most treated, ${treated}.`
      : controlAlive > control
        ? `controlAlive is ${controlAlive}; it must be at most control, ${control}.`
        : undefined,
  caution: (counts) => {
    const estimate = relativeSurvival(counts);
    return estimate > 1
      ? [
          `the estimate is ${formatNumber(estimate, 4)}, above 1 by chance; it is no probability, and enters a chain ` +
            "only by your explicit choice.",
        ]
      : [];
  },
  evaluate: (counts) => relativeSurvival(counts),
});

interface Counts {
  readonly treatedAlive: number;
  readonly treated: number;
  readonly controlAlive: number;
  readonly control: number;
}

// Multiplied out: 3/10 over 3/10 must be 1 exactly, or the caution would speak of chance where there is rounding.
const relativeSurvival = ({ treatedAlive, treated, controlAlive, control }: Counts): number =>
  (treatedAlive * control) / (treated * controlAlive);

/**
 * Share of all deaths that come later than the direct ones.
 *
 * Returns an estimate, a plain number at most 1; it falls below 0 where fewer fish survived directly than in total,
 * which only estimates can. Valid where direct and total survival belong to the same fish.
 *
 * @example
 * survival.delayedShare({ totalSurvival: 0.871, directSurvival: 0.93 }) // => 0.4574
 */
export const delayedShare = defineFormula({
  id: "survival.delayedShare",
  title: "Delayed share of mortality",
  symbol: "f_d",
  result: "number",
  inputs: { totalSurvival: ratio("S_t", { below: 1 }), directSurvival: ratio("S_d", {}) },
  tex: (q) => `1 - \\frac{1 - ${q.directSurvival}}{1 - ${q.totalSurvival}}`,
  source: derived("direct and delayed deaths add up to all deaths"),
  caution: ({ totalSurvival, directSurvival }) =>
    directSurvival < totalSurvival
      ? ["direct survival lies below total survival, so the share is below 0: the two estimates disagree."]
      : [],
  evaluate: ({ totalSurvival, directSurvival }) => 1 - (1 - directSurvival) / (1 - totalSurvival),
});
