/**
 * What to ask next, followed answer by answer. `nextStep` looks at every card; this looks at what the
 * newest events touched, so that the next of 100,000 cards takes no longer than the next of a
 * hundred. It says the same: a law in its tests.
 */

import { type Card, isLineCard, type LineCard } from '../../cards/index.ts';
import { isStep, lastEvent } from '../log/last-event.ts';
import type { LogState } from '../log/state.ts';
import type { Learned } from './learned.ts';
import { APART, mostRested, type NextStep, type QueueSettings, stepsSince } from './queue.ts';
import {
  caughtUp,
  type Entry,
  goesOn,
  inOrder,
  roomForFresh,
  type Standing,
  standingOf,
} from './standing.ts';

export interface Followed {
  readonly next: NextStep | null;
  /** Questions and new lines that today still has. */
  readonly waiting: number;
  readonly learned: Learned;
}

/** Looks from state to state of a log: the first look, and one at another day or log, takes longer. */
export type Follow = (log: LogState, today: number, settings: QueueSettings) => Followed;

/** @param cards in the order in which lines are met, those to be learned first before others */
export function followQueue(cards: readonly Card[]): Follow {
  let standing: Standing | null = null;
  let patterns: Patterns | null = null;
  return (log, today, settings) => {
    standing =
      standing && goesOn(standing, log, today, settings)
        ? caughtUp(standing, log)
        : standingOf(cards, log, today, settings);
    patterns ??= patternsOf(cards);
    const fresh = freshOf(standing);
    const next = nextIn(standing, fresh, lastPattern(patterns, log, today));
    const due = [...standing.due.values()].reduce((sum, list) => sum + list.length, 0);
    return { next, waiting: due + fresh.length, learned: standing.learned };
  };
}

/** By the ids of cards, and of lines. */
interface Patterns {
  readonly cards: ReadonlyMap<string, string>;
  readonly lines: ReadonlyMap<string, string>;
}

function patternsOf(all: readonly Card[]): Patterns {
  return {
    cards: new Map(all.map(({ id, pattern }) => [id, pattern])),
    lines: new Map(all.map(({ lineId, pattern }) => [lineId, pattern])),
  };
}

function lastPattern({ cards, lines }: Patterns, log: LogState, today: number): string | null {
  const last = lastEvent(log, today, isStep);
  if (!last) return null;
  return (last.type === 'answered' ? cards.get(last.card) : lines.get(last.line)) ?? null;
}

/** The rules of `nextStep`; cards that are not rested are few, whatever there is to ask. */
function nextIn(
  { due, log, settings }: Standing,
  fresh: readonly LineCard[],
  last: string | null,
): NextStep | null {
  const all = [...due].map(([pattern, list]) => ({ pattern, list }));
  const others = all.filter(({ pattern }) => pattern !== last);
  const meet = settings.meetFirst ? 'meet' : 'ask';
  const ask = (card: Card): NextStep =>
    settings.meetFirst && isLineCard(card) && movedUnseen(card, log)
      ? { type: 'meet', card }
      : { type: 'ask', card };
  const restedOf = (list: readonly Entry[]): Entry | undefined =>
    list.find(({ card }) => stepsSince(card, log) >= APART);
  const first = leastOf(others.flatMap(({ list }) => restedOf(list) ?? []));
  if (first) {
    const total = all.reduce((sum, { list }) => sum + list.length, 0);
    const fullest = others.find(({ list }) => 2 * list.length > total);
    return ask(((fullest && restedOf(fullest.list)) ?? first).card);
  }
  const otherFresh = fresh.find(({ pattern }) => pattern !== last);
  if (otherFresh) return { type: meet, card: otherFresh };
  const unrested = others.flatMap(({ list }) => list).sort(inOrder);
  if (unrested.length > 0) return ask(mostRested(cardsIn(unrested), log));
  const own = all.flatMap(({ list }) => list);
  const same = restedOf(own);
  if (same) return ask(same.card);
  if (fresh[0]) return { type: meet, card: fresh[0] };
  return own.length > 0 ? ask(mostRested(cardsIn(own), log)) : null;
}

function movedUnseen(card: LineCard, { moved }: LogState): boolean {
  return card.kind !== 'trust' && moved.get(card.id)?.shown === false;
}

function cardsIn(entries: readonly Entry[]): readonly Card[] {
  return entries.map(({ card }) => card);
}

function leastOf(entries: readonly Entry[]): Entry | undefined {
  return entries.reduce<Entry | undefined>(
    (least, one) => (least && inOrder(least, one) <= 0 ? least : one),
    undefined,
  );
}

/** Lines that may be met today, in the order in which they are met. */
function freshOf(standing: Standing): readonly LineCard[] {
  const { fresh, introduced, ranks, settings } = standing;
  if (ranks) {
    const rankOf = ({ id }: Card): number => ranks.get(id) ?? -1;
    return [...fresh.values()]
      .flat()
      .filter(({ card }) => ranks.has(card.id) && !introduced.has(card.lineId))
      .sort((a, b) => rankOf(a.card) - rankOf(b.card) || a.n - b.n)
      .map(({ card }) => card);
  }
  const room = roomForFresh(standing);
  if (room === 0 || settings.newLinesPerDay === 0) return [];
  return firstInTurn(standing, room);
}

/** Of each pattern as many as there is room for are enough to find those that come first. */
function firstInTurn({ fresh, introduced, met }: Standing, room: number): readonly LineCard[] {
  const ranked = [...fresh].flatMap(([pattern, list]) => {
    const some = [];
    for (const one of list) {
      if (some.length === room) break;
      if (!introduced.has(one.card.lineId)) some.push(one);
    }
    const head = some[0]?.n ?? 0;
    return some.map(({ card, n }, place) => ({
      card,
      n,
      head,
      rank: (met.get(pattern) ?? 0) + place,
    }));
  });
  return ranked
    .sort(
      (a, b) =>
        a.card.priority - b.card.priority || a.rank - b.rank || a.head - b.head || a.n - b.n,
    )
    .slice(0, room)
    .map(({ card }) => card);
}
