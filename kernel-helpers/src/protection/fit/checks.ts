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
  if (widestPassed < slimmestHeld)
    refuse(
      where,
      `every fish held (from relative width ${slimmestHeld}) is wider than every fish that passed (up to ` +
        `${widestPassed}); any jump between the two explains all, and no finite curve is the most likely`,
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
