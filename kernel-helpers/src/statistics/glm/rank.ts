import { type Matrix, QrDecomposition, solve } from "ml-matrix";
import { refuse } from "../checks";

/** A column that keeps less than this share of its length beside the columns before it tells nothing of its own. */
const ownShare = 1e-9;

/**
 * Refuses a design in which one column is a combination of the columns before it, and names them.
 *
 * Takes the scaled design, so that a small unit is not mistaken for a small column.
 */
export function checkRank(by: string, names: readonly string[], scaled: Matrix): void {
  if (scaled.rows < scaled.columns) {
    refuse(
      by,
      `${scaled.columns} coefficients (${names.join(", ")}) can't be fitted to ${scaled.rows} rows with trials; ` +
        "leave terms out or add rows",
    );
  }
  const triangle = new QrDecomposition(scaled).upperTriangularMatrix;
  for (let column = 1; column < scaled.columns; column++) {
    if (Math.abs(triangle.get(column, column)) > ownShare * Math.sqrt(scaled.rows)) continue;
    const before = triangle.subMatrix(0, column - 1, 0, column - 1);
    const mix = solve(before, triangle.subMatrix(0, column - 1, column, column)).getColumn(0);
    const others = names.slice(1, column).filter((_, at) => Math.abs(mix[at + 1]) > 1e-6);
    refuse(
      by,
      others.length === 0
        ? `${names[column]} has the same value in every row with trials, so its effect can't be told from the ` +
            "intercept's; leave it out"
        : `${names[column]} follows exactly from ${others.join(", ")} (rank deficiency), so their effects can't be ` +
            "told apart; leave one of them out",
    );
  }
}
