import type { Length } from "../../quantity/dimension";
import { format } from "../../quantity/format";
import { u } from "../../quantity/u";
import { refuse } from "../../statistics/checks";
import type { CatchRow } from "../catchRecord";
import { grouped } from "../grouped";
import { chosen, someChosen, sumOf } from "../nights";
import type { CalibrationCell } from "./cells";

/** A length class of a species in one night, and the flow in it. */
export type ClassInNight = Pick<
  CatchRow,
  "species" | "lengthFrom" | "lengthTo" | "night" | "turbineFlow" | "bypassFlow"
>;

/**
 * The name of a length class in figures and tables.
 *
 * Returns a text with the bounds in whole millimetres.
 *
 * @example
 * monitoring.className({ species: "roach", lengthFrom: u.mm(60), lengthTo: u.mm(120) }) // => "roach, 60 to 120 mm"
 */
export const className = ({
  species,
  lengthFrom,
  lengthTo,
}: Pick<ClassInNight, "species" | "lengthFrom" | "lengthTo">): string =>
  `${species}, ${Math.round(u.to.mm(lengthFrom))} to ${format(lengthTo, "mm")}`;

/**
 * The wild fish of a plant as `calibration` takes them, class by class and night by night.
 *
 * Returns one cell for each class of which fish were caught in a night, in the order of species, length and night.
 * `predict` gives the predicted share of the bypass among the fish that passed, for a class in a night. Throws a
 * RangeError where no row fits.
 *
 * @example
 * monitoring.calibrationCells(catches.rows, { plant: "Halvern Weir", predict: () => 0.8 })
 */
export function calibrationCells(
  rows: readonly CatchRow[],
  { plant, predict }: { readonly plant: string; readonly predict: (which: ClassInNight) => number },
): CalibrationCell[] {
  const wild = someChosen("monitoring.calibrationCells", rows, { plant, group: "wild" });
  const order = [...new Set(wild.map(({ species }) => species))];
  return [...grouped(wild, (row) => `${row.night} ${className(row)}`).values()]
    .toSorted(
      ([one], [other]) =>
        order.indexOf(one.species) - order.indexOf(other.species) ||
        one.lengthFrom - other.lengthFrom ||
        one.night.localeCompare(other.night),
    )
    .map((some) => ({
      night: some[0].night,
      name: className(some[0]),
      successes: sumOf(chosen(some, { net: "bypass" }), ({ caught }) => caught),
      trials: sumOf(some, ({ caught }) => caught),
      predicted: predict(some[0]),
    }))
    .filter(({ trials }) => trials > 0);
}

/**
 * Mean share over the measured fish of a length class.
 *
 * Returns the mean of `shareAt` over the lengths from the lower bound (included) to the upper: never the share at the
 * middle of the class, which a curved law would put elsewhere. Valid where the measured fish are those of the class. Throws
 * a RangeError where no measured fish lies in the class and for a share outside 0..1.
 *
 * @example
 * monitoring.meanOverClass({ lengths: [u.mm(60), u.mm(100), u.mm(150)], lengthFrom: u.mm(60), lengthTo: u.mm(120),
 *   shareAt: (totalLength) => 5 * totalLength }) // => 0.4
 */
export function meanOverClass({
  lengths,
  lengthFrom,
  lengthTo,
  shareAt,
}: {
  readonly lengths: readonly Length[];
  readonly lengthFrom: Length;
  readonly lengthTo: Length;
  readonly shareAt: (totalLength: Length) => number;
}): number {
  const where = "monitoring.meanOverClass";
  const inside = lengths.filter((length) => length >= lengthFrom && length < lengthTo);
  if (inside.length === 0)
    refuse(
      where,
      `none of ${lengths.length} measured fish is from ${format(lengthFrom, "mm")} to ${format(lengthTo, "mm")} long; measure fish of this class`,
    );
  const shares = inside.map((length) => {
    const share = shareAt(length);
    if (!(share >= 0 && share <= 1))
      refuse(
        where,
        `shareAt gives ${String(share)} at ${format(length, "mm")}; it must be a share from 0 to 1`,
      );
    return share;
  });
  // Rounding must not carry a mean of ones past 1.
  return Math.min(1, sumOf(shares, (share) => share) / shares.length);
}
