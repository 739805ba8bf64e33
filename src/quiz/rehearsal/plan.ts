/** Which questions a rehearsal asks, and in which order. Pure. */

import { type Card, createDice, type Dice, KINDS } from '../../cards/index.ts';
import type { PatternId } from '../../charts/index.ts';
import type { LogState, RehearsalSpec, Rehearsed } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';
import { USE_WEIGHTS, useOf } from '../stage/use.ts';
import { patternIn } from './asked-words.ts';

/** The smallest number of cards that a rehearsal can be drawn from. */
export const FEWEST_CARDS = 5;

/** The lengths a player can choose, in questions. */
export const LENGTHS = [10, 20, 30] as const;

/**
 * A card's weakness is this value minus its recall, so that even a card with a recall of 1 is asked
 * sometimes.
 */
const MOST_WEAKNESS = 1.2;

/**
 * Returns the setup of a finished rehearsal, reconstructed from its record: the patterns and kinds
 * that it asked, and the full length even if questions were left out.
 */
export function specOfFinished({ clock, counts, questions }: Rehearsed): RehearsalSpec {
  const patterns = questions.flatMap((one) => patternIn(one)?.id ?? []);
  const count = LENGTHS.find((length) => length >= questions.length) ?? Math.max(...LENGTHS);
  const kinds = KINDS.filter((kind) => questions.some((one) => one.kind === kind));
  return { patterns: [...new Set(patterns)], kinds, count, clock, counts };
}

export type Drawn = Pick<RehearsalSpec, 'patterns' | 'kinds' | 'counts'>;

/**
 * Returns the cards that a rehearsal may ask. A rehearsal that counts leaves out cards the player
 * has not met, because answers to them would say nothing about memory.
 */
export function rehearsable(
  cards: readonly Card[],
  log: LogState,
  { patterns, kinds, counts }: Drawn,
): readonly Card[] {
  const isMet = (card: Card) => log.memories.has(card.id) || log.met.has(card.lineId);
  return cards.filter(
    (card) =>
      patterns.includes(card.pattern) &&
      kinds.includes(card.kind) &&
      !log.aside.has(card.lineId) &&
      (!counts || isMet(card)),
  );
}

export interface Weighed {
  readonly card: Card;
  readonly weight: number;
}

/**
 * Returns each card with its weight in the draw: how often its pattern comes up, times how weak the
 * card is on that day.
 */
export function weigh(
  cards: readonly Card[],
  log: LogState,
  day: number,
  use: Settings['use'],
): readonly Weighed[] {
  return cards.map((card) => {
    const memory = log.memories.get(card.id);
    const known = memory ? log.model.recall(memory, day - memory.lastDay) : 0;
    const weight = USE_WEIGHTS[useOf(use, card.pattern)] * (MOST_WEAKNESS - known);
    return { card, weight };
  });
}

/**
 * Returns the cards in the order in which they are asked. No card repeats before all others have
 * come once. Two cards of the same pattern follow each other only if it cannot be avoided.
 */
export function planRehearsal(
  weighed: readonly Weighed[],
  count: number,
  seed: number,
): readonly Card[] {
  if (weighed.length === 0) throw new RangeError('a rehearsal of no cards');
  const dice = createDice(seed);
  const drawn: Card[] = [];
  while (drawn.length < count) drawn.push(...drawAll(weighed, dice).slice(0, count - drawn.length));
  return spread(drawn);
}

/**
 * Draws all cards one after another, each time in proportion to the weights of the remaining ones.
 * To do so, it gives each card the key −ln u / weight and sorts by key, smallest first (Efraimidis
 * & Spirakis 2006, Inf. Process. Lett. 97(5):181).
 */
function drawAll(weighed: readonly Weighed[], dice: Dice): readonly Card[] {
  return weighed
    .map(({ card, weight }) => ({ card, key: -Math.log(1 - dice.next()) / weight }))
    .sort((a, b) => a.key - b.key)
    .map(({ card }) => card);
}

/**
 * Keeps the given order, except that no two cards of a pattern follow each other while a card of a
 * different pattern can be put between them.
 */
function spread(drawn: readonly Card[]): readonly Card[] {
  const left = [...drawn];
  const order: Card[] = [];
  while (left.length > 0) {
    const at = nextAt(left, order[order.length - 1]?.pattern ?? null);
    order.push(...left.splice(at, 1));
  }
  return order;
}

/**
 * Returns the index of the first card of a different pattern. A pattern that has more than half of
 * the remaining cards takes precedence.
 */
function nextAt(left: readonly Card[], last: PatternId | null): number {
  const counts = new Map<PatternId, number>();
  for (const { pattern } of left) counts.set(pattern, (counts.get(pattern) ?? 0) + 1);
  const crowded = left.findIndex(
    ({ pattern }) => pattern !== last && 2 * (counts.get(pattern) ?? 0) > left.length,
  );
  if (crowded >= 0) return crowded;
  return Math.max(
    0,
    left.findIndex(({ pattern }) => pattern !== last),
  );
}
