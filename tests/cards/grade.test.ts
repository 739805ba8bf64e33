import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gradeAnswer, OUTCOMES, paceOf, toleranceFor } from '../../src/cards/index.ts';
import { type Decimal, toDecimal } from '../../src/charts/index.ts';

const unhurried = { slow: 20_000, quick: null };
const practised = { slow: 20_000, quick: 2_000 };

// The grading rule of this project, a row for each boundary. t is the tolerance. 0.1 is the printed
// step, too, so an answer one whole step off must still be within t, without floating-point surprises.
describe('grading by tolerance', () => {
  it.each([
    ['2.3 for 2.3, quick', 2.3, 2.3, 0.1, 1_500, practised, 'dead center'],
    ['2.3 for 2.3, pace still unknown', 2.3, 2.3, 0.1, 1_500, unhurried, 'pocketed'],
    ['2.3 for 2.3, not quick', 2.3, 2.3, 0.1, 2_001, practised, 'pocketed'],
    ['a quarter of t', 2.325, 2.3, 0.1, 1_500, practised, 'dead center'],
    ['just over a quarter', 2.326, 2.3, 0.1, 1_500, practised, 'pocketed'],
    ['0.6 of t', 2.36, 2.3, 0.1, 5_000, unhurried, 'pocketed'],
    ['just over 0.6', 2.361, 2.3, 0.1, 5_000, unhurried, 'rattled'],
    ['t above, t = printed step', 2.4, 2.3, 0.1, 5_000, unhurried, 'rattled'],
    ['t below, t = printed step', 2.2, 2.3, 0.1, 5_000, unhurried, 'rattled'],
    ['just over t', 2.401, 2.3, 0.1, 5_000, unhurried, 'off'],
    ['exact but slow', 2.3, 2.3, 0.1, 20_001, unhurried, 'rattled'],
    ['exact, at the slow boundary', 2.3, 2.3, 0.1, 20_000, unhurried, 'pocketed'],
    ['strict t', 2.35, 2.3, 0.05, 5_000, unhurried, 'rattled'],
    ['strict t, over', 2.351, 2.3, 0.05, 5_000, unhurried, 'off'],
    ['loose t', 2.42, 2.3, 0.2, 5_000, unhurried, 'pocketed'],
    ['loose t, over 0.6', 2.421, 2.3, 0.2, 5_000, unhurried, 'rattled'],
  ] as const)('%s', (_name, answer, truth, t, ms, pace, outcome) => {
    const grade = gradeAnswer([toDecimal(answer)], [toDecimal(truth)], toDecimal(t), ms, pace);
    expect(grade.outcome).toBe(outcome);
  });

  it('takes the worse of two fields', () => {
    const truth = [toDecimal(-0.1), toDecimal(0.1)];
    const grade = gradeAnswer(
      [toDecimal(-0.1), toDecimal(0.3)],
      truth,
      toDecimal(0.1),
      1,
      unhurried,
    );
    expect(grade.outcome).toBe('off');
    expect(grade.errors).toEqual([toDecimal(0), toDecimal(0.2)]);
  });

  it('is monotone: a larger error never gets a better outcome', () => {
    fc.assert(
      fc.property(error, error, fc.constantFrom(0.05, 0.1, 0.2), fc.nat(30_000), (a, b, t, ms) => {
        const [near, far] = Math.abs(a) <= Math.abs(b) ? [a, b] : [b, a];
        expect(rank(far, t, ms)).toBeLessThanOrEqual(rank(near, t, ms));
      }),
    );
  });

  it('is symmetric in the sign of the error', () => {
    fc.assert(
      fc.property(error, fc.nat(30_000), (e, ms) => {
        expect(rank(e, 0.1, ms)).toBe(rank(-e as Decimal, 0.1, ms));
      }),
    );
  });

  it('throws unless the answer has as many numbers as the question', () => {
    expect(() => gradeAnswer([], [toDecimal(1)], toDecimal(0.1), 1, unhurried)).toThrow();
  });
});

describe('tolerance', () => {
  it('is never finer than the printed step', () => {
    expect(toleranceFor(toDecimal(0.05), toDecimal(0.1))).toBe(toDecimal(0.1));
    expect(toleranceFor(toDecimal(0.2), toDecimal(0.1))).toBe(toDecimal(0.2));
  });
});

describe('pace', () => {
  it('is 20 s with no quick answers until there are 20 answers', () => {
    expect(paceOf(Array(19).fill(1_000))).toEqual({ slow: 20_000, quick: null });
  });

  it('is three medians, and the fastest quarter is quick, from then on', () => {
    const times = Array.from({ length: 21 }, (_, n) => 1_000 * (n + 1));
    // Quantiles of 1…21: median 11, lower quartile 6 (type 7, Hyndman & Fan 1996; by hand).
    expect(paceOf(times)).toEqual({ slow: 33_000, quick: 6_000 });
    expect(paceOf([...times].reverse())).toEqual(paceOf(times));
  });
});

function rank(e: Decimal, t: number, ms: number): number {
  const { outcome } = gradeAnswer([e], [toDecimal(0)], toDecimal(t), ms, practised);
  return OUTCOMES.indexOf(outcome);
}

const error = fc.integer({ min: -4_000, max: 4_000 }).map((n) => n as Decimal);
