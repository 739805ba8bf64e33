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

describe('the sequences that weights are fitted to', () => {
  it('are a card’s answers from its first on', () => {
    const steps = [step('a', 1, 0), step('b', 1, 0), step('a', 3, 2, { outcome: 'off' })];
    expect(trainingOf(steps)).toEqual([
      { card: 'b', on: [1], days: [0], outcomes: ['pocketed'] },
      { card: 'a', on: [1, 3], days: [0, 2], outcomes: ['pocketed', 'off'] },
    ]);
  });

  it.each(['judged', 'proved'] as const)('end before an answer that was %s', (how) => {
    const steps = [step('a', 1, 0), step('a', 3, 2, { how }), step('a', 5, 2)];
    expect(trainingOf(steps)).toMatchObject([{ on: [1] }]);
  });

  it('begin only with a card that is asked without memory', () => {
    expect(trainingOf([step('a', 1, 0, { how: 'proved' }), step('a', 5, 4)])).toEqual([]);
    // Its memory was carried from another card.
    expect(trainingOf([step('a', 5, 4)])).toEqual([]);
  });

  it('begin again where the card does', () => {
    const steps = [step('a', 1, 0), step('a', 3, 2), step('a', 9, 0), step('a', 12, 3)];
    expect(trainingOf(steps)).toMatchObject([{ on: [1, 3] }, { on: [9, 12] }]);
  });

  it('include a same-day answer without scoring it', () => {
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
        again: fc.boolean(),
      }),
      { maxLength: 30 },
    )
    .map((items) =>
      items.map(({ card, gap, how, again }, n) =>
        step(card, n, gap, { how, ...(again ? { before: null } : {}) }),
      ),
    );

  it('are the same for any names and order of the cards', () => {
    const nameless = (steps: readonly Step[]) =>
      trainingOf(steps).map(({ on, days, outcomes }) => ({ on, days, outcomes }));
    fc.assert(
      fc.property(stepsArb, fc.nat(99), (steps, seed) => {
        expect(nameless(shuffledCards(steps, seed))).toEqual(nameless(steps));
      }),
    );
  });

  it('are cut by day without losing or moving an answer', () => {
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
