/** Solves linear equations with a positive definite matrix, such as a penalized curvature. */

/**
 * Solves matrix · x = right by Cholesky factorization.
 * @param matrix a symmetric matrix, by rows; only the diagonal and the part below it are read
 * @returns x; null if the matrix is not positive definite
 */
export function solve(
  matrix: readonly (readonly number[])[],
  right: readonly number[],
): readonly number[] | null {
  const factor = factorOf(matrix);
  if (!factor) return null;
  const size = right.length;
  const x = [...right];
  for (let r = 0; r < size; r++) {
    for (let c = 0; c < r; c++) x[r] = at(x, r) - at(factor[r], c) * at(x, c);
    x[r] = at(x, r) / at(factor[r], r);
  }
  for (let r = size - 1; r >= 0; r--) {
    for (let c = r + 1; c < size; c++) x[r] = at(x, r) - at(factor[c], r) * at(x, c);
    x[r] = at(x, r) / at(factor[r], r);
  }
  return x;
}

/**
 * Returns the lower triangular matrix that, multiplied by its transpose, gives `matrix`. Null if
 * `matrix` is not positive definite.
 */
function factorOf(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] | null {
  const rows: number[][] = [];
  for (const [r, given] of matrix.entries()) {
    const row: number[] = [];
    for (let c = 0; c <= r; c++) {
      const above = rows[c] ?? row;
      let left = at(given, c);
      for (let n = 0; n < c; n++) left -= at(row, n) * at(above, n);
      if (c < r) row.push(left / at(above, c));
      else if (left > 0 && Number.isFinite(left)) row.push(Math.sqrt(left));
      else return null;
    }
    rows.push(row);
  }
  return rows;
}

function at(row: readonly number[] | undefined, n: number): number {
  return row?.[n] ?? Number.NaN;
}
