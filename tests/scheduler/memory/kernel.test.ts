import fc from 'fast-check';
import { forgetting_curve } from 'ts-fsrs';
import { describe, expect, it } from 'vitest';
import { DEFAULT_WEIGHTS, memoryModel } from '../../../src/scheduler/index.ts';
import { type Grade, kernelOf, MISS, RIGHT } from '../../../src/scheduler/memory/kernel.ts';
import { weightsAround } from '../players.ts';

/** The oracle is the library ts-fsrs 5 (FSRS-6), through memory.ts. It rounds to eight places. */
describe('the formulas of FSRS-6', () => {
  const historyArb = fc.array(
    fc.record({ days: fc.nat(90), grade: fc.constantFrom<Grade>(MISS, RIGHT) }),
    { minLength: 1, maxLength: 12 },
  );

  it.each([
    ['published', DEFAULT_WEIGHTS],
    ['other', weightsAround(3, 0.2)],
    ['further', weightsAround(4, 0.4)],
  ] as const)('agree with the library over any history, by %s weights', (_name, weights) => {
    const kernel = kernelOf(weights);
    const { remember } = memoryModel(weights);
    fc.assert(
      fc.property(historyArb, (history) => {
        let ours = { stability: 0, difficulty: 0 };
        let theirs: Parameters<typeof remember>[0] = null;
        for (const { days, grade } of history) {
          const since = theirs ? days : 0;
          ours = kernel.after(ours, since, grade);
          theirs = remember(theirs, since, grade === RIGHT ? 'pocketed' : 'off');
          expect(Math.abs(ours.stability / theirs.stability - 1)).toBeLessThan(1e-5);
          expect(ours.difficulty).toBeCloseTo(theirs.difficulty, 5);
          expect(kernel.recall(ours.stability, days)).toBeCloseTo(
            forgetting_curve(weights, days, theirs.stability),
            5,
          );
        }
      }),
      { numRuns: 300 },
    );
  });

  it('keep a stability within the bounds of FSRS-6', () => {
    const kernel = kernelOf(DEFAULT_WEIGHTS);
    let memory = kernel.after({ stability: 0, difficulty: 0 }, 0, RIGHT);
    for (let n = 0; n < 200; n++) memory = kernel.after(memory, 36_500, RIGHT);
    expect(memory.stability).toBeLessThanOrEqual(36_500);
    for (let n = 0; n < 200; n++) memory = kernel.after(memory, 0, MISS);
    expect(memory.stability).toBeGreaterThanOrEqual(0.001);
  });
});
