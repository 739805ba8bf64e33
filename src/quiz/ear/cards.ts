/**
 * Decides which card comes next by ear: first what is due, then the weakest memories, with patterns
 * mixed. It never asks a line that the player has not met.
 */

import { type Card, hashOf, isLineCard, type Kind, type LineCard } from '../../cards/index.ts';
import {
  agendaFor,
  isAnswer,
  type LogState,
  lastEvent,
  type QueueSettings,
} from '../../scheduler/index.ts';

/** The kinds of questions that need no picture. */
const EAR_KINDS: readonly Kind[] = ['number', 'window'];

/**
 * How many other questions come between two showings of a card, if there are enough (common
 * practice, no source).
 */
const APART = 3;

export type EarStep =
  | { readonly type: 'ask'; readonly card: LineCard }
  | { readonly type: 'none met' }
  /** Every line that the player has met was asked today, or is set aside. */
  | { readonly type: 'all asked' };

export function nextByEar(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: QueueSettings,
): EarStep {
  const kinds = EAR_KINDS.filter((kind) => settings.kinds.includes(kind));
  const mine = cards.filter(
    (card): card is LineCard =>
      isLineCard(card) &&
      kinds.includes(card.kind) &&
      // If a number was revised, the player must see the new one before calling it.
      log.moved.get(card.id)?.shown !== false,
  );
  if (!mine.some((card) => log.met.has(card.lineId) || log.memories.has(card.id))) {
    return { type: 'none met' };
  }
  const agenda = agendaFor(mine, log, today, { ...settings, kinds, newLinesPerDay: 0 });
  const due = inOrder(agenda.due.filter(isLineCard), log, today);
  const waiting = new Set(due.map(({ lineId }) => lineId));
  const further = notAskedToday(mine, log, today).filter(({ lineId }) => !waiting.has(lineId));
  const rest = inOrder(further, log, today);
  const card = mixed(due, rest, log, lastPattern(cards, log, today));
  return card ? { type: 'ask', card } : { type: 'all asked' };
}

/**
 * Returns the next card. It prefers a different pattern from the last one, then a card that was not
 * shown recently, then a card that is due.
 */
function mixed(
  due: readonly LineCard[],
  rest: readonly LineCard[],
  log: LogState,
  last: string | null,
): LineCard | null {
  const rested = (card: LineCard) => stepsSince(card, log) >= APART;
  const other = (card: LineCard) => card.pattern !== last;
  const both = [due, rest];
  for (const tier of both) {
    const fit = tier.filter((card) => other(card) && rested(card));
    if (fit.length > 0) return fromFullest(fit, tier);
  }
  const all = both.flat();
  const others = all.filter(other);
  if (others.length > 0) return mostRested(others, log);
  return all.find(rested) ?? mostRested(all, log);
}

/**
 * Returns the first card, unless a pattern has more than half of all cards. That pattern then goes
 * first, because otherwise only its cards would be left at the end.
 */
function fromFullest(fit: readonly LineCard[], all: readonly LineCard[]): LineCard | null {
  const isFull = ({ pattern }: LineCard) =>
    2 * all.filter((card) => card.pattern === pattern).length > all.length;
  return fit.find(isFull) ?? fit[0] ?? null;
}

function mostRested(cards: readonly LineCard[], log: LogState): LineCard | null {
  return cards.reduce<LineCard | null>(
    (best, card) => (best && stepsSince(best, log) >= stepsSince(card, log) ? best : card),
    null,
  );
}

/**
 * Returns how many answers and new lines have come since a card or its line was last shown;
 * infinite if it never was.
 */
function stepsSince({ id, lineId }: LineCard, log: LogState): number {
  const last = Math.max(asked(id, log)?.lastStep ?? -1, log.met.get(lineId)?.step ?? -1);
  return last < 0 ? Number.POSITIVE_INFINITY : log.steps - 1 - last;
}

/** Returns the pattern of the last answer, of any kind. */
function lastPattern(cards: readonly Card[], log: LogState, today: number): string | null {
  const last = lastEvent(log, today, isAnswer);
  return cards.find(({ id }) => id === last?.card)?.pattern ?? null;
}

/**
 * Returns cards that have a memory and belong to lines not asked today. A line has at most one card
 * a day.
 */
function notAskedToday(
  cards: readonly LineCard[],
  log: LogState,
  today: number,
): readonly LineCard[] {
  const isShown = ({ id }: LineCard) => (asked(id, log)?.lastDay ?? -1) >= today;
  const shown = new Set(cards.filter(isShown).map(({ lineId }) => lineId));
  return cards.filter(
    ({ id, lineId }) => log.memories.has(id) && !log.aside.has(lineId) && !shown.has(lineId),
  );
}

/** Returns the memory of a card that was asked; null if placement only implied it. */
function asked(id: string, log: LogState) {
  const memory = log.memories.get(id);
  return memory && memory.answers > 0 ? memory : null;
}

/**
 * Orders cards by recall, weakest first. Ties are shuffled differently each day, so that no line
 * becomes a cue for the next.
 */
function inOrder(cards: readonly LineCard[], log: LogState, today: number): readonly LineCard[] {
  return cards
    .map((card) => {
      const memory = log.memories.get(card.id);
      const recall = memory ? log.model.recall(memory, today - memory.lastDay) : 0;
      return { card, recall, place: hashOf(`${card.id} ${today}`) };
    })
    .sort((a, b) => a.recall - b.recall || a.place - b.place)
    .map(({ card }) => card);
}
