/**
 * What a player knows: the expected number of lines recalled, from the predicted recall of each.
 */

import type { Card, LineCard } from '../../cards/index.ts';
import type { LogState } from '../log/state.ts';

export interface Held {
  /** Expected number of lines recalled, ΣR. */
  readonly expected: number;
  /** 90 % interval of that number, whole lines, if recalls are independent. */
  readonly low: number;
  readonly high: number;
  readonly of: number;
}

/** 95th percentile of the standard normal distribution. */
const Z = 1.645;

/** Each number card stands for its line. */
export function numberCards(cards: readonly Card[]): readonly LineCard[] {
  return cards.filter((card): card is LineCard => card.kind === 'number');
}

/** @param day the study-day to predict for */
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
 * Probability that a line's number is known on a day: the recall of its own card. A line that was
 * never asked and lies between two anchors is known if both are recalled and the player works it
 * out right, which is a skill with a recall of its own.
 */
export function holdOfLine(card: LineCard, log: LogState, day: number): number {
  const { interpolation, id } = card;
  if (log.memories.has(id) || !interpolation) return holdOf(id, log, day);
  return [...interpolation.anchors, interpolation.skill].reduce(
    (hold, one) => hold * holdOf(one, log, day),
    1,
  );
}

/**
 * Recall of one card. A card answered off today does not count until it is right again: zero days
 * after an answer recall is 1 by definition, whatever the answer was.
 */
export function holdOf(id: string, log: LogState, day: number): number {
  const memory = log.memories.get(id);
  if (!memory || (memory.lastOutcome === 'off' && memory.lastDay === day)) return 0;
  return log.model.recall(memory, day - memory.lastDay);
}
