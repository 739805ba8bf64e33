/** Which questions a rehearsal asks, and in which order. Pure. */

import { type Card, createDice, type Dice, KINDS } from '../../cards/index.ts';
import { type PatternId, patternOf } from '../../charts/index.ts';
import type { LogState, RehearsalSpec, Rehearsed } from '../../scheduler/index.ts';
import type { Settings, Use } from '../../store/index.ts';
import { patternIn } from './asked-words.ts';

/** The fewest cards for a rehearsal. */
export const FEWEST_CARDS = 5;

/** Lengths of a rehearsal, questions. */
export const LENGTHS = [10, 20, 30] as const;

/** Relative frequencies of patterns: common practice, no source. */
const USE_WEIGHTS: Readonly<Record<Use, number>> = { seldom: 1, 'now and then': 2, often: 4 };

/** A pattern's worth on the day that counts, relative to one that comes up now and then. */
export function worthOf(use: Use): number {
  return USE_WEIGHTS[use] / USE_WEIGHTS['now and then'];
}

/** A card's weakness is this minus its recall, so even a card of certain recall is asked sometimes. */
const MOST_WEAKNESS = 1.2;

/** How often a pattern comes up: as the player says, otherwise by its number of cushions. */
export function useOf(use: Settings['use'], pattern: PatternId): Use {
  const byCushions = { 1: 'often', 2: 'now and then' } as const;
  const cushions = patternOf(pattern).cushions.length;
  return use[pattern] ?? byCushions[cushions as 1 | 2] ?? 'seldom';
}

/**
 * The setup of a finished rehearsal, as far as its record says: the patterns and kinds that it asked,
 * and the full length even if questions were left out.
 */
export function specOfFinished({ clock, counts, questions }: Rehearsed): RehearsalSpec {
  const patterns = questions.flatMap((one) => patternIn(one)?.id ?? []);
  const count = LENGTHS.find((length) => length >= questions.length) ?? Math.max(...LENGTHS);
  const kinds = KINDS.filter((kind) => questions.some((one) => one.kind === kind));
  return { patterns: [...new Set(patterns)], kinds, count, clock, counts };
}

export type Drawn = Pick<RehearsalSpec, 'patterns' | 'kinds' | 'counts'>;

/**
 * The cards a rehearsal is drawn from. One that counts leaves out cards the player has not met: their
 * answers would say nothing about memory.
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

/** A card's weight in the draw: how often its pattern comes up × how weak it is on a day. */
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
 * The cards in the order in which they are asked. None repeats before every other has come once, and
 * cards of one pattern are neighbors only as often as they must.
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
 * All cards, drawn one after another in proportion to their weights among the remaining ones: each
 * gets the key −ln u / weight, and the smallest keys come first (Efraimidis & Spirakis 2006,
 * Inf. Process. Lett. 97(5):181).
 */
function drawAll(weighed: readonly Weighed[], dice: Dice): readonly Card[] {
  return weighed
    .map(({ card, weight }) => ({ card, key: -Math.log(1 - dice.next()) / weight }))
    .sort((a, b) => a.key - b.key)
    .map(({ card }) => card);
}

/** The given order, except that a card waits until another pattern has come in between. */
function spread(drawn: readonly Card[]): readonly Card[] {
  const left = [...drawn];
  const order: Card[] = [];
  while (left.length > 0) {
    const at = nextAt(left, order[order.length - 1]?.pattern ?? null);
    order.push(...left.splice(at, 1));
  }
  return order;
}

/** The first card of another pattern; but a pattern with more than half of the remaining cards goes first. */
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
