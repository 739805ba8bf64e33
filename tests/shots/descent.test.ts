import { describe, expect, it } from 'vitest';
import { type Cost, descend } from '../../src/shots/descent.ts';
import { identity, inverse, plusSquare, times } from '../../src/shots/small-matrix.ts';

/**
 * Misra1a of the NIST Statistical Reference Datasets (nonlinear regression, "lower" difficulty):
 * y = b1 (1 − e^(−b2 x)). Data and certified values from memory; they check each other, because the
 * certified sum of squares agrees with the data to all digits.
 */
const MISRA = [
  [77.6, 10.07],
  [114.9, 14.73],
  [141.1, 17.94],
  [190.8, 23.93],
  [239.9, 29.61],
  [289.0, 35.18],
  [332.8, 40.02],
  [378.4, 44.82],
  [434.8, 50.76],
  [477.3, 55.05],
  [536.8, 61.01],
  [593.1, 66.4],
  [689.1, 75.47],
  [760.0, 81.78],
] as const;

const misra: Cost = {
  value: ([b1 = 0, b2 = 0]) =>
    MISRA.reduce((sum, [x, y]) => sum + (y - b1 * (1 - Math.exp(-b2 * x))) ** 2 / 2, 0),
  derivatives: ([b1 = 0, b2 = 0]) => {
    let curvature = identity(2).map((row) => row.map(() => 0)) as readonly (readonly number[])[];
    let gradient: readonly number[] = [0, 0];
    for (const [x, y] of MISRA) {
      const left = y - b1 * (1 - Math.exp(-b2 * x));
      const slopes = [1 - Math.exp(-b2 * x), b1 * x * Math.exp(-b2 * x)];
      gradient = gradient.map((value, n) => value - left * (slopes[n] ?? 0));
      curvature = plusSquare(curvature, slopes, 1);
    }
    return { gradient, curvature };
  },
};

describe('the descent', () => {
  it.each([
    [500, 0.0001],
    [250, 0.0005],
  ])('finds the certified values of Misra1a from %d, %d', (b1, b2) => {
    const found = descend(misra, [b1, b2]);
    expect(found?.converged).toBe(true);
    expect((found?.at[0] ?? 0) / 238.94212918).toBeCloseTo(1, 6);
    expect((found?.at[1] ?? 0) / 5.5015643181e-4).toBeCloseTo(1, 6);
    expect(2 * (found?.cost ?? 0)).toBeCloseTo(0.12455138894, 8);
  });

  it('never steps where there is no cost, nor beyond a limit', () => {
    const valley: Cost = {
      value: ([x = 0]) => (x > 3 ? null : (x - 5) ** 2),
      derivatives: ([x = 0]) => ({ gradient: [2 * (x - 5)], curvature: [[2]] }),
    };
    const { at: [edge = 9] = [] } = descend(valley, [0]) ?? {};
    expect(edge).toBeLessThanOrEqual(3);
    expect(edge).toBeGreaterThan(2.5);
    const fenced = descend({ ...valley, within: ([x = 0]) => [Math.min(2, x)] }, [0]);
    expect(fenced?.at).toEqual([2]);
    expect(descend(valley, [4])).toBe(null);
  });
});

describe('a matrix', () => {
  it('has the inverse from the literature', () => {
    // The 3 × 3 Hilbert matrix and its inverse, whole numbers (Choi 1983, from memory).
    const hilbert = [
      [1, 1 / 2, 1 / 3],
      [1 / 2, 1 / 3, 1 / 4],
      [1 / 3, 1 / 4, 1 / 5],
    ];
    const whole = [
      [9, -36, 30],
      [-36, 192, -180],
      [30, -180, 180],
    ];
    inverse(hilbert)?.forEach((row, r) => {
      row.forEach((value, c) => {
        expect(value).toBeCloseTo(whole[r]?.[c] ?? Number.NaN, 9);
      });
    });
    expect(times(hilbert, [6, 12, 60])).toEqual([32, 22, 17]);
  });

  it('has an inverse even if rows must be swapped, but not without full rank', () => {
    expect(
      inverse([
        [0, 2],
        [4, 0],
      ]),
    ).toEqual([
      [0, 0.25],
      [0.5, 0],
    ]);
    expect(
      inverse([
        [1, 2],
        [2, 4],
      ]),
    ).toBe(null);
  });
});
