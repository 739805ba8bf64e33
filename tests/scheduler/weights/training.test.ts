import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Step, scoredIn, trainingOf } from '../../../src/scheduler/index.ts';
import { before, isScored } from '../../../src/scheduler/weights/training.ts';
import { shuffledCards } from '../players.ts';

const memory = { stability: 3, difficulty: 5 };

function step(card: string, day: number, days: number, change: Partial<Step> = {}): Step {
  const first = { kind: 'number', outcome: 'pocketed', how: 'asked', errors: null } as const;
  return { card, day, days, before: days > 0 ? memory : null, ...first, ...change };
}

describe('what weights are fitted from', () => {
  it('is a card’s answers from its first on', () => {
    const steps = [step('a', 1, 0), step('b', 1, 0), step('a', 3, 2, { outcome: 'off' })];
    expect(trainingOf(steps)).toEqual([
      { card: 'b', on: [1], days: [0], outcomes: ['pocketed'] },
      { card: 'a', on: [1, 3], days: [0, 2], outcomes: ['pocketed', 'off'] },
    ]);
  });

  it.each(['judged', 'proved'] as const)('ends before an answer that was %s', (how) => {
    const steps = [step('a', 1, 0), step('a', 3, 2, { how }), step('a', 5, 2)];
    expect(trainingOf(steps)).toMatchObject([{ on: [1] }]);
  });

  it('begins with nothing that was not asked first', () => {
    expect(trainingOf([step('a', 1, 0, { how: 'proved' }), step('a', 5, 4)])).toEqual([]);
    // Its memory was carried over from another card.
    expect(trainingOf([step('a', 5, 4)])).toEqual([]);
  });

  it('begins anew where the card does', () => {
    const steps = [step('a', 1, 0), step('a', 3, 2), step('a', 9, 0), step('a', 12, 3)];
    expect(trainingOf(steps)).toMatchObject([{ on: [1, 3] }, { on: [9, 12] }]);
  });

  it('takes a same-day answer along and does not score it', () => {
    const again = step('a', 1, 0, { before: memory });
    const [one] = trainingOf([step('a', 1, 0), again, step('a', 4, 3)]);
    expect(one?.on.map((_, n) => one && isScored(one, n))).toEqual([false, false, true]);
  });

  const stepsArb = fc
    .array(
      fc.record({
        card: fc.constantFrom('a', 'b', 'c', 'd'),
        gap: fc.nat(9),
        how: fc.constantFrom('asked', 'asked', 'asked', 'judged', 'proved'),
        anew: fc.boolean(),
      }),
      { maxLength: 30 },
    )
    .map((items) =>
      items.map(({ card, gap, how, anew }, n) =>
        step(card, n, gap, { how, ...(anew ? { before: null } : {}) }),
      ),
    );

  it('is the same whatever the cards are called and in whatever order they came', () => {
    const nameless = (steps: readonly Step[]) =>
      trainingOf(steps).map(({ on, days, outcomes }) => ({ on, days, outcomes }));
    fc.assert(
      fc.property(stepsArb, fc.nat(99), (steps, seed) => {
        expect(nameless(shuffledCards(steps, seed))).toEqual(nameless(steps));
      }),
    );
  });

  it('is cut by day without losing or moving an answer', () => {
    fc.assert(
      fc.property(stepsArb, fc.nat(30), (steps, day) => {
        const all = trainingOf(steps);
        const earlier = before(all, day);
        expect(earlier.every(({ on }) => on.every((one) => one < day))).toBe(true);
        const kept = all.flatMap(({ on }) => on.filter((one) => one < day)).length;
        expect(earlier.flatMap(({ on }) => on)).toHaveLength(kept);
        expect(scoredIn(earlier)).toBeLessThanOrEqual(scoredIn(all));
      }),
    );
  });
});
