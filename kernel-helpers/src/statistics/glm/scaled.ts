import { Matrix } from "ml-matrix";

/** A design with its columns centred and scaled, and the way back to the columns as they were given. */
export interface ScaledDesign {
  readonly matrix: Matrix;
  /** Coefficients of the given columns = back × coefficients of the scaled columns. */
  readonly back: Matrix;
}

/**
 * Centres every column but the intercept on 0 and scales it to a spread of 1.
 *
 * A year or a temperature in kelvin beside an intercept would otherwise cost half of the digits.
 */
export function scaledDesign(design: Matrix): ScaledDesign {
  const back = Matrix.eye(design.columns);
  const matrix = design.clone();
  for (let column = 1; column < design.columns; column++) {
    const values = design.getColumn(column);
    const centre = values.reduce((sum, value) => sum + value, 0) / values.length;
    const spread = Math.sqrt(values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / values.length);
    // Without spread the column is a multiple of the intercept: it stays at 0, for the check of rank to find.
    const scale = spread > 1e-12 * Math.abs(centre) ? spread : Infinity;
    for (let row = 0; row < design.rows; row++) matrix.set(row, column, (values[row] - centre) / scale);
    back.set(column, column, 1 / scale);
    back.set(0, column, -centre / scale);
  }
  return { matrix, back };
}
