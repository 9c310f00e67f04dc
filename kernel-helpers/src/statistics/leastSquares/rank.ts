import { type Matrix, QrDecomposition, solve } from "ml-matrix";
import { refuse } from "../checks";
import { columnLengths } from "./problem";

/** A column that keeps less than this share of its length beside the columns before it tells nothing of its own. */
const ownShare = 1e-7;

/** Refuses a fit in which a parameter does nothing, or nothing that the parameters before it can't do. */
export function checkParameters(
  where: string,
  {
    names,
    jacobian,
    ended,
  }: { readonly names: readonly string[]; readonly jacobian: Matrix; readonly ended: string },
): void {
  const lengths = columnLengths(jacobian);
  const longest = Math.max(...lengths);
  const idle = lengths.findIndex((length) => !(length > Number.EPSILON * longest));
  if (idle >= 0) {
    refuse(
      where,
      `${names[idle]} changes no fitted value where the steps ended (${ended}), so these data can't tell it there; ` +
        "leave it out of the model, or start elsewhere",
    );
  }
  const scaled = jacobian.clone();
  lengths.forEach((length, column) => scaled.mulColumn(column, 1 / length));
  const triangle = new QrDecomposition(scaled).upperTriangularMatrix;
  for (let column = 1; column < names.length; column++) {
    if (Math.abs(triangle.get(column, column)) > ownShare) continue;
    const before = triangle.subMatrix(0, column - 1, 0, column - 1);
    const mix = solve(before, triangle.subMatrix(0, column - 1, column, column)).getColumn(0);
    const others = names.slice(0, column).filter((_, at) => Math.abs(mix[at]) > 1e-6);
    refuse(
      where,
      `${names[column]} changes the fitted values in the same way as ${others.join(" and ")} (rank deficiency) where the ` +
        `steps ended (${ended}), so these data can't tell them apart there; leave one of them out, add data in which ` +
        "they differ, or start elsewhere",
    );
  }
}
