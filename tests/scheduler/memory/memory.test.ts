import { FSRSAlgorithm } from 'ts-fsrs';
import { describe, expect, it } from 'vitest';
import { DEFAULT_WEIGHTS, PUBLISHED } from '../../../src/scheduler/index.ts';

const { interval, recall, remember } = PUBLISHED;

/**
 * FSRS-6 as published by the open-spaced-repetition organization: vectors from py-fsrs (3abe686)
 * and ts-fsrs (cdec8d2). Our four outcomes are its grades 1–4, from worst to best.
 */
const OF = [undefined, 'off', 'rattled', 'pocketed', 'dead center'] as const;

describe('FSRS-6', () => {
  it('has 21 weights', () => {
    expect(DEFAULT_WEIGHTS).toHaveLength(21);
  });

  it.each([
    [0, 1],
    [1, 0.9],
    [2, 0.84588465],
    [3, 0.8093881],
  ])('R(%d days, S = 1) = %d', (days, expected) => {
    expect(recall({ stability: 1 }, days)).toBeCloseTo(expected, 8);
  });

  it.each([
    [1, 6.4133],
    [2, 5.11217071],
    [3, 2.11810397],
    [4, 1],
  ] as const)('first difficulty of grade %d is %d', (grade, expected) => {
    expect(remember(null, 0, OF[grade]).difficulty).toBeCloseTo(expected, 7);
  });

  it.each([
    [1, 0.9, 1, 25.60252118],
    [2, 0.8, 2, 28.22657096],
    [3, 0.7, 3, 58.65599107],
    [4, 0.6, 4, 127.2266925],
  ])(
    'the pinned library: S′ of a recall from S 5 at D %d, R %d, grade %d',
    (d, r, grade, expected) => {
      const model = new FSRSAlgorithm({ w: DEFAULT_WEIGHTS });
      expect(model.next_recall_stability(d, 5, r, grade)).toBeCloseTo(expected, 6);
    },
  );

  // Published S′ of a recall from S = 5. R is reached after t with R(t, S) = r, solved from the curve.
  it.each([
    [2, 0.8, 2, 28.22657096],
    [3, 0.7, 3, 58.65599107],
    [4, 0.6, 4, 127.2266925],
  ] as const)('recall at D %d, R %d, grade %d gives S %d', (difficulty, r, grade, expected) => {
    const after = remember({ stability: 5, difficulty }, daysUntil(5, r), OF[grade]);
    expect(Math.abs(after.stability - expected) / expected).toBeLessThan(1e-5);
  });

  it('folds 1, 3, 3, 3, 3, 3 at gaps 0, 0, 1, 3, 8, 21 to the published state', () => {
    const grades = [1, 3, 3, 3, 3, 3] as const;
    const gaps = [0, 0, 1, 3, 8, 21];
    const end = grades.reduce(
      (memory, grade, n) => remember(memory, gaps[n] ?? 0, OF[grade]),
      null as ReturnType<typeof remember> | null,
    );
    expect(end?.stability).toBeCloseTo(53.62691, 4);
    expect(end?.difficulty).toBeCloseTo(6.3574867, 5);
  });
});

describe('intervals', () => {
  it('at a target of 0.9 are the stability in whole days (definition of S)', () => {
    expect(interval({ stability: 12.2 }, 0.9)).toBe(12);
    expect(interval({ stability: 0.2 }, 0.9)).toBe(1);
  });

  it('grow as the target falls, and end near the target', () => {
    const memory = { stability: 30, difficulty: 5 };
    let last = 0;
    for (const target of [0.95, 0.9, 0.85, 0.8]) {
      const days = interval(memory, target);
      expect(days).toBeGreaterThan(last);
      expect(Math.abs(recall(memory, days) - target)).toBeLessThan(0.005);
      last = days;
    }
  });

  it('count a clock that was set back as zero days', () => {
    const memory = remember(null, 0, 'pocketed');
    expect(remember(memory, -3, 'pocketed')).toEqual(remember(memory, 0, 'pocketed'));
    expect(recall(memory, -3)).toBe(1);
  });
});

/** FSRS-6: R(t, S) = (1 + f t/S)^(−w20), f = 0.9^(−1/w20) − 1; solved for t. */
function daysUntil(stability: number, r: number): number {
  const decay = -(DEFAULT_WEIGHTS[20] as number);
  const factor = 0.9 ** (1 / decay) - 1;
  return (stability * (r ** (1 / decay) - 1)) / factor;
}
