/** What a player holds: expected number of cards recalled, from the predicted recall of each. */

import type { Card } from '../cards/index.ts';
import type { LogState } from './log.ts';

export interface Held {
  /** Expected number of cards recalled, ΣR. */
  readonly expected: number;
  /** 90 % interval of that number, whole cards, taking recalls as independent. */
  readonly low: number;
  readonly high: number;
  readonly of: number;
}

/** 95th percentile of the standard normal distribution. */
const Z = 1.645;

/**
 * A card answered off today is not held until it has been right again: recall at no time since an
 * answer is 1 by definition, whatever the answer was.
 * @param day study-day for which to predict
 */
export function heldOn(cards: readonly Card[], log: LogState, day: number): Held {
  let expected = 0;
  let variance = 0;
  for (const card of cards) {
    const memory = log.memories.get(card.id);
    if (!memory || (memory.lastOutcome === 'off' && memory.lastDay === day)) continue;
    const r = log.model.recall(memory, day - memory.lastDay);
    expected += r;
    variance += r * (1 - r);
  }
  const spread = Z * Math.sqrt(variance);
  return {
    expected,
    low: Math.max(0, Math.floor(expected - spread)),
    high: Math.min(cards.length, Math.ceil(expected + spread)),
    of: cards.length,
  };
}
