/** Which card is asked next by ear: what is due, then the least held. Never a line not yet met. */

import { type Card, isLineCard, type Kind, type LineCard } from '../cards/index.ts';
import {
  isAnswer,
  type LogState,
  lastEvent,
  nextStep,
  type QueueSettings,
  recall,
} from '../scheduler/index.ts';

/** The kinds that need no picture. */
const EAR_KINDS: readonly Kind[] = ['number', 'window'];

export type EarStep =
  | { readonly type: 'ask'; readonly card: LineCard }
  | { readonly type: 'none met' }
  /** Every line met was asked today, or is set aside. */
  | { readonly type: 'all asked' };

export function nextByEar(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: QueueSettings,
): EarStep {
  const kinds = EAR_KINDS.filter((kind) => settings.kinds.includes(kind));
  const mine = cards.filter(
    (card): card is LineCard => isLineCard(card) && kinds.includes(card.kind),
  );
  if (!mine.some((card) => log.met.has(card.lineId) || log.memories.has(card.id))) {
    return { type: 'none met' };
  }
  const step = nextStep(mine, log, today, { ...settings, kinds, newLinesPerDay: 0 });
  const due = step?.type === 'ask' && isLineCard(step.card) ? step.card : null;
  const other = leastHeld(mine, log, today);
  // One missed just now waits for another, if there is any.
  const justNow = due !== null && lastEvent(log, today, isAnswer)?.card === due.id;
  const card = justNow ? (other ?? due) : (due ?? other);
  return card ? { type: 'ask', card } : { type: 'all asked' };
}

/** Of the cards asked before today, the one most forgotten; one card of a line a day. */
function leastHeld(cards: readonly LineCard[], log: LogState, today: number): LineCard | null {
  const lastDay = (card: LineCard) => log.memories.get(card.id)?.lastDay;
  const shown = new Set(
    cards.filter((card) => (lastDay(card) ?? -1) >= today).map((card) => card.lineId),
  );
  const [least = null] = cards
    .filter((card) => !log.aside.has(card.lineId) && !shown.has(card.lineId))
    .flatMap((card) => {
      const memory = log.memories.get(card.id);
      return memory ? [{ card, hold: recall(memory, today - memory.lastDay) }] : [];
    })
    .sort((a, b) => a.hold - b.hold || (a.card.id < b.card.id ? -1 : 1));
  return least?.card ?? null;
}
