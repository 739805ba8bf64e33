/** Square matrices of two or three rows, with what a least-squares step and its covariance need. */

export type Vector = readonly number[];
export type Matrix = readonly Vector[];

export function identity(size: number): Matrix {
  return Array.from({ length: size }, (_, row) =>
    Array.from({ length: size }, (__, column) => (row === column ? 1 : 0)),
  );
}

export function times(matrix: Matrix, vector: Vector): Vector {
  return matrix.map((row) => dot(row, vector));
}

export function dot(a: Vector, b: Vector): number {
  return a.reduce((sum, value, n) => sum + value * (b[n] ?? 0), 0);
}

/** Returns matrix + weight · vector · vectorᵀ. */
export function plusSquare(matrix: Matrix, vector: Vector, weight: number): Matrix {
  return matrix.map((row, r) =>
    row.map((value, c) => value + weight * (vector[r] ?? 0) * (vector[c] ?? 0)),
  );
}

/**
 * Returns the inverse of a matrix, by Gauss–Jordan elimination with the largest pivot; null if
 * there is none.
 */
export function inverse(matrix: Matrix): Matrix | null {
  const size = matrix.length;
  const left = matrix.map((row) => [...row]);
  const right = identity(size).map((row) => [...row]);
  for (let n = 0; n < size; n++) {
    let pivot = n;
    for (let row = n + 1; row < size; row++)
      if (Math.abs(at(left, row, n)) > Math.abs(at(left, pivot, n))) pivot = row;
    const top = at(left, pivot, n);
    if (!Number.isFinite(top) || top === 0) return null;
    swap(left, n, pivot);
    swap(right, n, pivot);
    for (let row = 0; row < size; row++) {
      if (row === n) continue;
      const share = at(left, row, n) / top;
      takeOff(left, row, n, share);
      takeOff(right, row, n, share);
    }
  }
  return right.map((row, n) => row.map((value) => value / at(left, n, n)));
}

function at(rows: readonly Vector[], row: number, column: number): number {
  return rows[row]?.[column] ?? Number.NaN;
}

function swap(rows: number[][], a: number, b: number): void {
  const kept = rows[a] ?? [];
  rows[a] = rows[b] ?? [];
  rows[b] = kept;
}

function takeOff(rows: number[][], from: number, row: number, share: number): void {
  rows[from] = (rows[from] ?? []).map((value, n) => value - share * at(rows, row, n));
}
