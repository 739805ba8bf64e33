/** What a player holds: the expected number of lines recalled, from the predicted recall of each. */

import type { Card, LineCard } from '../../cards/index.ts';
import type { LogState } from '../log/state.ts';

export interface Held {
  /** Expected number of lines recalled, ΣR. */
  readonly expected: number;
  /** 90 % interval of that number, whole lines, taking recalls as independent. */
  readonly low: number;
  readonly high: number;
  readonly of: number;
}

/** 95th percentile of the standard normal distribution. */
const Z = 1.645;

/** Number cards: each stands for its line. */
export function numberCards(cards: readonly Card[]): readonly LineCard[] {
  return cards.filter((card): card is LineCard => card.kind === 'number');
}

/** @param day study-day for which to predict */
export function heldOn(cards: readonly Card[], log: LogState, day: number): Held {
  const lines = numberCards(cards);
  let expected = 0;
  let variance = 0;
  for (const line of lines) {
    const hold = holdOfLine(line, log, day);
    expected += hold;
    variance += hold * (1 - hold);
  }
  const spread = Z * Math.sqrt(variance);
  return {
    expected,
    low: Math.max(0, Math.floor(expected - spread)),
    high: Math.min(lines.length, Math.ceil(expected + spread)),
    of: lines.length,
  };
}

/**
 * Probability that a line's number is known on a day: the recall of its own card; for a line that was
 * never asked and hangs between two anchors, that both are recalled and that working it out, a skill
 * that was practised, comes out right.
 */
export function holdOfLine(card: LineCard, log: LogState, day: number): number {
  const { hung, id } = card;
  if (log.memories.has(id) || !hung) return holdOf(id, log, day);
  return [...hung.on, hung.skill].reduce((hold, one) => hold * holdOf(one, log, day), 1);
}

/**
 * Recall of one card. One answered off today is not held until it has been right again: recall at no
 * time since an answer is 1 by definition, whatever the answer was.
 */
export function holdOf(id: string, log: LogState, day: number): number {
  const memory = log.memories.get(id);
  if (!memory || (memory.lastOutcome === 'off' && memory.lastDay === day)) return 0;
  return log.model.recall(memory, day - memory.lastDay);
}
