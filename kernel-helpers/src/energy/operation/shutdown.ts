import { checkNumber } from "../../formula/check";
import { discharge } from "../../formula/input";
import type { Discharge } from "../../quantity/dimension";
import { isMonthDay } from "../../river/calendar";
import { isInSeason, type Season } from "../../river/record";

/** The part of a day: fish of many species move by night. */
export type PartOfDay = "day" | "night";

/** Whether the turbines stand still for the fish, by date, part of the day and flow of the river. */
export type Shutdown = (date: string, part: PartOfDay, riverFlow: Discharge) => boolean;

const where = "energy.seasonShutdown";
const flowInput = discharge("Q", { atLeast: 0 });

/**
 * A shutdown of the turbines in a migration season: by night alone or the whole day, at every flow or from a flow on.
 *
 * Returns a function for `energy.operation`. A season may run over the new year. Throws a RangeError for a day of the year
 * that is none and for a negative flow.
 *
 * @example
 * energy.seasonShutdown({ from: "10-01", to: "10-31", part: "night" })("2026-10-05", "night", u.m3ps(30)) // => true
 */
export function seasonShutdown({
  from,
  to,
  part = "both",
  fromFlow,
}: Season & {
  readonly part?: PartOfDay | "both";
  /** The river's flow from which the turbines stand still; at every flow where it is left out. */
  readonly fromFlow?: Discharge;
}): Shutdown {
  for (const [name, day] of Object.entries({ from, to })) {
    if (!isMonthDay(day))
      throw new RangeError(
        `${where}: ${name} is ${JSON.stringify(day)}; a day of the year reads 03-01, the month first.`,
      );
  }
  if (fromFlow !== undefined) checkNumber(where, "fromFlow", fromFlow, flowInput);
  return (date, now, riverFlow) =>
    (part === "both" || part === now) &&
    (fromFlow === undefined || riverFlow >= fromFlow) &&
    isInSeason(date, { from, to });
}
