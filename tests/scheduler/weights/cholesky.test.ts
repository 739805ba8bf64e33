import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solve } from '../../../src/scheduler/weights/cholesky.ts';

describe('a system of linear equations', () => {
  // By hand: 4x + 2y = 10, 2x + 3y = 9 at x = 1.5, y = 2.
  it('is solved', () => {
    const solution = solve([[4], [2, 3]], [10, 9]);
    expect(solution?.[0]).toBeCloseTo(1.5, 12);
    expect(solution?.[1]).toBeCloseTo(2, 12);
  });

  it.each([
    ['is negative somewhere', [[1], [2, 1]]],
    ['is zero', [[0]]],
    ['is not a number', [[Number.NaN]]],
  ])('has no solution here if the matrix %s', (_, matrix) => {
    expect(
      solve(
        matrix,
        matrix.map(() => 1),
      ),
    ).toBeNull();
  });

  // Law: matrix times solution gives the right side. The matrix is B·Bᵀ + 1, so positive.
  it('is solved whatever its size', () => {
    const rows = fc.integer({ min: 1, max: 8 }).chain((size) =>
      fc.array(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: size, maxLength: size }), {
        minLength: size,
        maxLength: size,
      }),
    );
    fc.assert(
      fc.property(rows, (b) => {
        const matrix = b.map((row, r) => b.map((other, c) => dot(row, other) + (r === c ? 1 : 0)));
        const right = b.map((_, n) => n - 1);
        const x = solve(matrix, right) ?? [];
        for (const [n, row] of matrix.entries()) expect(dot(row, x)).toBeCloseTo(right[n] ?? 0, 6);
      }),
    );
  });
});

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, n) => sum + value * (b[n] ?? Number.NaN), 0);
}
