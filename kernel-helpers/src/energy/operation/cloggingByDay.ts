import { checkNumber } from "../../formula/check";
import type { CloggedDay } from "../../rack/clogging/operation/headLossOverTime";
import { lossAtLeastNothing } from "./plant";

/** What `cloggingByDay` reads of a day of `clogging.headLossOverTime`. */
export type CloggedLoss = Pick<CloggedDay, "date" | "cleanHeadLoss" | "meanHeadLoss">;

const where = "energy.cloggingByDay";

/**
 * Clogging factors for `energy.operation`, from the days of `clogging.headLossOverTime`.
 *
 * Returns a function that gives the factor of a date: the day's mean loss over that of the clean rack, at least 1, and 1
 * on days without loss. Valid where both were run with the same rack and flows. Throws a RangeError for a negative loss,
 * a date that stands twice, and, when asked, for a date that is not among the days.
 *
 * @example
 * energy.cloggingByDay([{ date: "2026-10-28", cleanHeadLoss: u.cm(1), meanHeadLoss: u.cm(4) }])("2026-10-28") // => 4
 */
export function cloggingByDay(days: readonly CloggedLoss[]): (date: string) => number {
  const factors = new Map<string, number>();
  for (const { date, cleanHeadLoss, meanHeadLoss } of days) {
    checkNumber(where, `cleanHeadLoss of ${date}`, cleanHeadLoss, lossAtLeastNothing);
    checkNumber(where, `meanHeadLoss of ${date}`, meanHeadLoss, lossAtLeastNothing);
    if (factors.has(date)) throw new RangeError(`${where}: ${date} stands twice; keep one of the two.`);
    factors.set(date, cleanHeadLoss === 0 ? 1 : Math.max(1, meanHeadLoss / cleanHeadLoss));
  }
  return (date) => {
    const factor = factors.get(date);
    if (factor === undefined)
      throw new RangeError(
        `${where}: there is no day ${date}; run the clogging over the same days as the flow.`,
      );
    return factor;
  };
}
