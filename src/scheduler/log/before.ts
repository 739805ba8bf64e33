/** Computes the memory of some cards before a study day by folding only the events about them. */

import type { LogEvent } from './events.ts';
import { foldDated } from './log.ts';
import type { CardMemory, LogState } from './state.ts';

/** A card's memory without its last step, which only a fold of the whole log can give. */
export type EarlierMemory = Omit<CardMemory, 'lastStep'>;

/**
 * Returns the memories that folding all events before a day would give to these cards. A card's memory
 * depends on no other card, except one that it took its memory from. So the answers to all other cards
 * are left out, which are nearly the whole log.
 */
export function memoriesBefore(
  log: LogState,
  day: number,
  cards: ReadonlySet<string>,
): ReadonlyMap<string, EarlierMemory> {
  const own: LogEvent[] = [];
  const wanted = withOrigins(cards, log);
  for (const event of sinceBase(log)) {
    if (event.day >= day) break;
    own.push(...partOf(event, wanted));
  }
  const { memories } = foldDated(own, log.base, log.model);
  return new Map([...memories].filter(([card]) => cards.has(card)));
}

/** Returns the events that are not in the snapshot, with wrong clocks corrected. */
function sinceBase({ events, base }: LogState): readonly LogEvent[] {
  return base ? events.slice(base.shownAgain.length) : events;
}

/** Returns the cards, the cards that they took their memory from, and so on. */
function withOrigins(cards: ReadonlySet<string>, log: LogState): ReadonlySet<string> {
  const all = new Set(cards);
  const moves = sinceBase(log).flatMap((event) => (event.type === 'revised' ? event.moves : []));
  let known = -1;
  while (known < all.size) {
    known = all.size;
    for (const { card, was } of moves) if (was !== undefined && all.has(card)) all.add(was);
  }
  return all;
}

/** Returns the part of an event that touches the memory of these cards; empty if there is none. */
function partOf(event: LogEvent, cards: ReadonlySet<string>): readonly LogEvent[] {
  switch (event.type) {
    case 'answered':
    case 'proved':
      return cards.has(event.card) ? [event] : [];
    case 'drilled':
      return event.counts !== undefined && cards.has(event.counts) ? [event] : [];
    case 'rehearsed': {
      const questions = event.questions.filter(({ card }) => cards.has(card));
      return questions.length > 0 ? [{ ...event, questions }] : [];
    }
    case 'revised': {
      const moves = event.moves.filter(({ card }) => cards.has(card));
      return moves.length > 0 ? [{ ...event, moves }] : [];
    }
    // The memory of a moved card depends on whether its new number was shown.
    case 'met':
    case 'taken back':
      return [event];
    default:
      return [];
  }
}
