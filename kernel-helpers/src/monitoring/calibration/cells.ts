import { checkNumber, checkWhole, refuse } from "../../statistics/checks";

/** Fish of one class in one night: how many took the bypass, of how many that passed, and what was predicted. */
export interface CalibrationCell {
  /** Nights of one name are one cluster. */
  readonly night: string;
  /** Name of the class, such as "roach 60 to 120 mm". */
  readonly name: string;
  /** Fish in the net behind the bypass. */
  readonly successes: number;
  /** Fish in both nets. */
  readonly trials: number;
  /** Predicted share of the bypass among the fish that passed, 0..1. */
  readonly predicted: number;
}

/** Refuses cells that can't be, and nights too few to differ. */
export function checkCells(where: string, cells: readonly CalibrationCell[]): void {
  cells.forEach(({ trials, successes, predicted }, at) => {
    checkWhole(where, `cells[${at}].trials`, trials, 0);
    checkWhole(where, `cells[${at}].successes`, successes, 0, trials);
    checkNumber(where, `cells[${at}].predicted`, predicted, { atLeast: 0, atMost: 1 });
  });
  const nights = new Set(cells.filter(({ trials }) => trials > 0).map(({ night }) => night));
  if (nights.size < 3)
    refuse(
      where,
      `${nights.size} nights have fish; intercept and slope with nights as clusters need at least 3`,
    );
}

/** Whether the prediction leaves no room for chance: 0 or 1 has no logit. */
export const isCertain = ({ predicted }: CalibrationCell): boolean => predicted === 0 || predicted === 1;
