/** Which questions a rehearsal asks, and in which order. Pure: everything it hangs on is given. */

import { type Card, createDice, type Dice, KINDS } from '../../cards/index.ts';
import { type PatternId, patternOf } from '../../charts/index.ts';
import type { LogState, RehearsalSpec, Rehearsed } from '../../scheduler/index.ts';
import type { Settings, Use } from '../../store/index.ts';
import { patternIn } from './asked-words.ts';

/** Fewer cards than this are no rehearsal. */
export const FEWEST_CARDS = 5;

/** Lengths of a rehearsal, questions. */
export const LENGTHS = [10, 20, 30] as const;

/** How many times as often a pattern is asked: common practice, no source. */
const USE_WEIGHTS: Readonly<Record<Use, number>> = { seldom: 1, 'now and then': 2, often: 4 };

/** What a pattern is worth on the day that counts, beside one that comes up now and then. */
export function worthOf(use: Use): number {
  return USE_WEIGHTS[use] / USE_WEIGHTS['now and then'];
}

/** So much a card weighs that is known for certain is this less 1: even that one is asked at times. */
const MOST_WEAKNESS = 1.2;

/** How often a pattern comes up: as the player says, else by how many cushions it has. */
export function useOf(use: Settings['use'], pattern: PatternId): Use {
  const byCushions = { 1: 'often', 2: 'now and then' } as const;
  const cushions = patternOf(pattern).cushions.length;
  return use[pattern] ?? byCushions[cushions as 1 | 2] ?? 'seldom';
}

/**
 * What a finished rehearsal was set up with, as far as its record tells: of patterns and kinds those
 * that were asked; of a count that some were left out of, the length it was.
 */
export function specOfFinished({ clock, counts, questions }: Rehearsed): RehearsalSpec {
  const patterns = questions.flatMap((one) => patternIn(one)?.id ?? []);
  const count = LENGTHS.find((length) => length >= questions.length) ?? Math.max(...LENGTHS);
  const kinds = KINDS.filter((kind) => questions.some((one) => one.kind === kind));
  return { patterns: [...new Set(patterns)], kinds, count, clock, counts };
}

export type Drawn = Pick<RehearsalSpec, 'patterns' | 'kinds' | 'counts'>;

/**
 * The cards a rehearsal is drawn from. One that counts leaves out what the player has not been
 * introduced to: an answer to it would say nothing about memory.
 */
export function rehearsable(
  cards: readonly Card[],
  log: LogState,
  { patterns, kinds, counts }: Drawn,
): readonly Card[] {
  const introduced = (card: Card) => log.memories.has(card.id) || log.met.has(card.lineId);
  return cards.filter(
    (card) =>
      patterns.includes(card.pattern) &&
      kinds.includes(card.kind) &&
      !log.aside.has(card.lineId) &&
      (!counts || introduced(card)),
  );
}

export interface Weighed {
  readonly card: Card;
  readonly weight: number;
}

/** What a card weighs in the draw: how often its pattern comes up × how weak it is on a day. */
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
 * So many cards in the order in which they are asked. None comes a second time before every other
 * has come once, and two of one pattern follow each other only as often as they must.
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
  return apart(drawn);
}

/**
 * All cards, drawn one after the other in proportion to their weights among those that are left:
 * each gets the key −ln u / weight, and the smallest keys come first (Efraimidis & Spirakis 2006,
 * Inf. Process. Lett. 97(5):181).
 */
function drawAll(weighed: readonly Weighed[], dice: Dice): readonly Card[] {
  return weighed
    .map(({ card, weight }) => ({ card, key: -Math.log(1 - dice.next()) / weight }))
    .sort((a, b) => a.key - b.key)
    .map(({ card }) => card);
}

/** Cards in the order given, but for those that have to wait until another pattern has been. */
function apart(drawn: readonly Card[]): readonly Card[] {
  const left = [...drawn];
  const order: Card[] = [];
  while (left.length > 0) {
    const at = nextAt(left, order[order.length - 1]?.pattern ?? null);
    order.push(...left.splice(at, 1));
  }
  return order;
}

/** The first card of another pattern; but one that fills more than half of what is left goes first. */
function nextAt(left: readonly Card[], last: PatternId | null): number {
  const counts = new Map<PatternId, number>();
  for (const { pattern } of left) counts.set(pattern, (counts.get(pattern) ?? 0) + 1);
  const pressing = left.findIndex(
    ({ pattern }) => pattern !== last && 2 * (counts.get(pattern) ?? 0) > left.length,
  );
  if (pressing >= 0) return pressing;
  return Math.max(
    0,
    left.findIndex(({ pattern }) => pattern !== last),
  );
}
