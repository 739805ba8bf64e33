/** Makes trials of simulated players, for tests of what is learned from them. */

import fc from 'fast-check';
import { KINDS, type Kind } from '../../../src/cards/index.ts';
import { PUBLISHED } from '../../../src/scheduler/index.ts';
import {
  countTrial,
  noTrials,
  type Trial,
  type Trials,
} from '../../../src/scheduler/log/trials.ts';
import { kernelOf } from '../../../src/scheduler/memory/kernel.ts';
import { dice } from '../../oracle/dice.ts';

export const kernel = kernelOf(PUBLISHED.weights);

export const trialArb: fc.Arbitrary<Trial> = fc.record({
  kind: fc.constantFrom(...KINDS),
  pattern: fc.constantFrom('cross-side', 'up-and-back', null),
  right: fc.boolean(),
  before: fc.option(
    fc.record({
      stability: fc.double({ min: 0.1, max: 300, noNaN: true }),
      days: fc.integer({ min: 0, max: 100 }),
      recall: fc.constantFrom(0.5, 0.75, 1),
    }),
  ),
});

export function trialsOf(list: readonly Trial[]): Trials {
  const trials = noTrials();
  for (const one of list) countTrial(trials, one);
  return trials;
}

/** Later answers of a player whose cards of a kind are right with a chance. */
export function laterAnswers(
  kind: Kind,
  count: number,
  chance: (stability: number, days: number) => number,
): readonly Trial[] {
  const roll = dice(7);
  for (let n = 0; n < 10; n++) roll();
  return Array.from({ length: count }, () => {
    const stability = 1 + 20 * roll();
    const days = Math.ceil(2 * stability * roll());
    const recall = kernel.recall(stability, days);
    const right = roll() < chance(stability, days);
    return { kind, pattern: 'cross-side', right, before: { stability, days, recall } };
  });
}
