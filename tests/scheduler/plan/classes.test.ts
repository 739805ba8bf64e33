import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { classesOf } from '../../../src/scheduler/plan/classes.ts';

describe('classes of weights', () => {
  it('keep few weights as they are', () => {
    const { of, weights } = classesOf(Float64Array.of(2, 0.5, 0, 1, 2));
    expect(weights).toEqual([0.5, 1, 2]);
    expect([...of]).toEqual([2, 0, 0, 1, 2]);
  });

  it('are seven at most and close to their weights', () => {
    const weightArb = fc.double({ min: 1e-3, max: 1e3, noNaN: true });
    fc.assert(
      fc.property(fc.array(weightArb, { minLength: 1, maxLength: 60 }), (list) => {
        const { of, weights } = classesOf(Float64Array.from(list));
        expect(weights.length).toBeLessThanOrEqual(7);
        // Seven equal parts of six decades are a factor of 7.2 wide, and widths grow by a fifth.
        for (const [n, weight] of list.entries())
          expect(Math.abs(Math.log(weight / (weights[of[n] ?? 0] ?? 0)))).toBeLessThan(
            Math.log(10) / 2,
          );
      }),
      { seed: 20_261_125 },
    );
  });

  it('are one where all weights are 0', () => {
    expect(classesOf(new Float64Array(3)).weights).toEqual([1]);
  });
});
