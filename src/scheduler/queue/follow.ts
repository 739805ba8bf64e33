/**
 * What to ask next, answer by answer. `nextStep` looks at every card, this only at those that the
 * newest events touched. Both give the same: a law in its tests.
 */

import { type Card, isLineCard, type LineCard } from '../../cards/index.ts';
import { isStep, lastEvent } from '../log/last-event.ts';
import type { LogState } from '../log/state.ts';
import type { Learned } from './learned.ts';
import { APART, mostRested, type NextStep, type QueueSettings, stepsSince } from './queue.ts';
import {
  continues,
  type Entry,
  inOrder,
  type QueueState,
  queueStateOf,
  roomForFresh,
  updated,
} from './state.ts';

export interface Followed {
  readonly next: NextStep | null;
  /** Questions and new lines that today still has. */
  readonly waiting: number;
  readonly learned: Learned;
}

/**
 * Follows the states of one log on one day; the first look, or a change of day or log, takes
 * longer.
 */
export type Follow = (log: LogState, today: number, settings: QueueSettings) => Followed;

/** @param cards in the order in which their lines are met */
export function followQueue(cards: readonly Card[]): Follow {
  let state: QueueState | null = null;
  let patterns: Patterns | null = null;
  return (log, today, settings) => {
    state =
      state && continues(state, log, today, settings)
        ? updated(state, log)
        : queueStateOf(cards, log, today, settings);
    patterns ??= patternsOf(cards);
    const fresh = freshOf(state);
    const next = nextIn(state, fresh, lastPattern(patterns, log, today));
    const due = [...state.due.values()].reduce((sum, list) => sum + list.length, 0);
    return { next, waiting: due + fresh.length, learned: state.learned };
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

/** The rules of `nextStep`; few cards are not rested, however many are due. */
function nextIn(
  { due, log, settings }: QueueState,
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

/** Lines that may be met today, in order. */
function freshOf(state: QueueState): readonly LineCard[] {
  const { fresh, introduced, ranks, settings } = state;
  if (ranks) {
    const rankOf = ({ id }: Card): number => ranks.get(id) ?? -1;
    return [...fresh.values()]
      .flat()
      .filter(({ card }) => ranks.has(card.id) && !introduced.has(card.lineId))
      .sort((a, b) => rankOf(a.card) - rankOf(b.card) || a.n - b.n)
      .map(({ card }) => card);
  }
  const room = roomForFresh(state);
  if (room === 0 || settings.newLinesPerDay === 0) return [];
  return firstInTurn(state, room);
}

/** The first lines, of which each pattern can contribute no more than there is room for. */
function firstInTurn({ fresh, introduced, met }: QueueState, room: number): readonly LineCard[] {
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
