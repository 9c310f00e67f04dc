import { refuse } from "../../statistics/checks";
import type { FamilyName } from "./family";
import type { Lapses } from "./model";
import type { WidthCounts } from "./trialFish";

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Refuses counts to which no finite curve of the family fits, saying why and what to do. */
export function checkFits(where: string, family: FamilyName, counts: WidthCounts, lapses: Lapses): void {
  const { widths, held, fish } = counts;
  const passed = fish.map((all, row) => all - held[row]);
  const [allHeld, all] = [sum(held), sum(fish)];
  if (allHeld === 0 || allHeld === all)
    refuse(where, `${allHeld} of ${all} fish were held; a curve needs fish that were and fish that weren't`);

  const meanOf = (weights: readonly number[]): number =>
    sum(widths.map((width, row) => width * weights[row])) / sum(weights);
  if (!(meanOf(held) > meanOf(passed)))
    refuse(where, "the fish held are on average no wider than those that passed; no rising curve fits them");

  const widestPassed = widths.findLast((_, row) => passed[row] > 0) ?? Number.NaN;
  const slimmestHeld = widths.find((_, row) => held[row] > 0) ?? Number.NaN;
  if (widestPassed <= slimmestHeld)
    refuse(
      where,
      `every fish held (from relative width ${slimmestHeld}) is at least as wide as every fish that passed (up to ` +
        `${widestPassed}); a jump there explains all, and no finite curve is the most likely`,
    );
  if (family === "ramp") checkRamp(where, counts, passed, lapses);
}

function checkRamp(
  where: string,
  { widths, held }: WidthCounts,
  passed: readonly number[],
  lapses: Lapses,
): void {
  const through = sum(passed.filter((_, row) => widths[row] >= 1));
  if (through > 0 && !lapses.passedAnyway)
    refuse(
      where,
      `${through} fish of relative width 1 or more passed the rack, which a ramp holds for impossible; measure their ` +
        "bodies, or fit the share that passes however wide with passedAnyway: true",
    );
  const drifting = sum(held.filter((_, row) => widths[row] === 0));
  if (drifting > 0 && !lapses.heldAnyway)
    refuse(
      where,
      `${drifting} fish of relative width 0 were held, which a ramp holds for impossible; fit the share held however ` +
        "slim with heldAnyway: true",
    );
  if (!widths.some((width, row) => width < 1 && held[row] > 0))
    refuse(where, "every fish slimmer than the gap passed; the body alone explains all, and no ramp is left");
}

/** Log-likelihood of so many held and passed at the share that they have. */
const likelihoodOfShare = (held: number, passed: number): number =>
  (held > 0 ? held * Math.log(held / (held + passed)) : 0) +
  (passed > 0 ? passed * Math.log(passed / (held + passed)) : 0);

/**
 * Refuses a fit that a jump explains better: with shares that go against the curve, the likelihood may rise towards ever
 * steeper curves, and a lower top is then no fit.
 */
export function checkNoJump(where: string, counts: WidthCounts, lapses: Lapses, logLikelihood: number): void {
  const { widths, held, fish } = counts;
  let [heldBelow, passedBelow] = [0, 0];
  const [allHeld, all] = [sum(held), sum(fish)];
  for (let row = 1; row < widths.length && widths[row] <= 1; row++) {
    heldBelow += held[row - 1];
    passedBelow += fish[row - 1] - held[row - 1];
    const [heldAbove, passedAbove] = [allHeld - heldBelow, all - allHeld - passedBelow];
    const below = heldBelow > 0 && !lapses.heldAnyway ? -Infinity : likelihoodOfShare(heldBelow, passedBelow);
    const above =
      passedAbove > 0 && !lapses.passedAnyway ? -Infinity : likelihoodOfShare(heldAbove, passedAbove);
    if (below + above > logLikelihood + 1e-6)
      refuse(
        where,
        `a jump between the relative widths ${widths[row - 1]} and ${widths[row]} explains the fish better than any curve: ` +
          "the fish are too few to fit shares that go against it",
      );
  }
}
