/**
 * Estimates what a player knows: the expected number of recalled lines, from the predicted recall of
 * each line.
 */

import type { Card, LineCard } from '../../cards/index.ts';
import type { LogState } from '../log/state.ts';

export interface Held {
  /** The expected number of recalled lines, ΣR. */
  readonly expected: number;
  /**
   * The lower end of the 90 % interval of that number, in whole lines, if recalls are independent.
   * `high` is the upper end.
   */
  readonly low: number;
  readonly high: number;
  readonly of: number;
}

/** The 95th percentile of the standard normal distribution. */
const Z = 1.645;

/** Returns the number cards. Each of them stands for its line. */
export function numberCards(cards: readonly Card[]): readonly LineCard[] {
  return cards.filter((card): card is LineCard => card.kind === 'number');
}

/** @param day the study day to predict for */
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
 * Returns the probability that a line's number is known on a day. This is the recall of the line's own
 * card. A line between two anchors that was never asked counts as known if the player recalls both
 * anchors and interpolates correctly, which is a skill with its own recall.
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
 * Returns the recall of one card. A card that was off today does not count until it is right again,
 * because recall is 1 by definition zero days after an answer, whatever the answer was.
 */
export function holdOf(id: string, log: LogState, day: number): number {
  const memory = log.memories.get(id);
  if (!memory || (memory.lastOutcome === 'off' && memory.lastDay === day)) return 0;
  return log.model.recall(memory, day - memory.lastDay);
}
