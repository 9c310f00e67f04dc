import { checkNumber, refuse } from "../../statistics/checks";

/** What a fish did in a trial. */
export interface FishOutcome {
  readonly outcome: string;
  readonly relativeWidth: number;
}

/** What is made of impinged fish: held by the rack, left out, or counted as if they had passed. */
export type ImpingedFish = "held" | "leftOut" | "notProtected";

/** Fish that met the rack, each with whether it was held, and what was left out. */
export interface HeldFish<F> {
  readonly fish: readonly (F & { readonly held: boolean })[];
  readonly meaning: string;
  readonly inactive: number;
  readonly impinged: number;
}

const meanings: Readonly<Record<ImpingedFish, string>> = {
  held: "held: bypassed, refused or impinged; an impinged fish did not pass, yet is not protected",
  leftOut: "held: bypassed or refused, of the fish that were neither inactive nor impinged",
  notProtected: "held: bypassed or refused; impinged fish count as if they had passed",
};

/**
 * Which fish of a trial the rack held back, for a fit of protection.
 *
 * Returns every active fish with `held`, which says that it did not pass through the rack, and the numbers of inactive and
 * impinged fish. Inactive fish never met the rack and are left out. Impinged fish did not pass, but the flow pressed them
 * on the bars: `impinged` says whether they count as held (unless told otherwise), are left out, or count as not protected;
 * in the last case even fish wider than the gap fail, which a ramp can follow with `passedAnyway` alone. Throws a
 * RangeError for an outcome that is none of bypassed, rackPassed, refused, impinged and inactive.
 *
 * @example
 * protection.heldByRack({ fish: [{ relativeWidth: 0.5, outcome: "refused" },
 *   { relativeWidth: 0.4, outcome: "inactive" }] }).fish.length // => 1
 */
export function heldByRack<F extends FishOutcome>({
  fish,
  impinged = "held",
}: {
  readonly fish: readonly F[];
  readonly impinged?: ImpingedFish;
}): HeldFish<F> {
  const where = "protection.heldByRack";
  if (!Object.hasOwn(meanings, impinged))
    refuse(where, `impinged is "${impinged}"; it must be held, leftOut or notProtected`);
  const counts = { inactive: 0, impinged: 0 };
  const met = fish.flatMap((one, row) => {
    checkNumber(where, `fish[${row}].relativeWidth`, one.relativeWidth, { atLeast: 0 });
    switch (one.outcome) {
      case "bypassed":
      case "refused":
        return [{ ...one, held: true }];
      case "rackPassed":
        return [{ ...one, held: false }];
      case "inactive":
        counts.inactive += 1;
        return [];
      case "impinged":
        counts.impinged += 1;
        return impinged === "leftOut" ? [] : [{ ...one, held: impinged === "held" }];
      default:
        return refuse(
          where,
          `fish[${row}].outcome is "${one.outcome}"; it must be bypassed, rackPassed, refused, impinged or inactive`,
        );
    }
  });
  return { fish: met, meaning: meanings[impinged], ...counts };
}
