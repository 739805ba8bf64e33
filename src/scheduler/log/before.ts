/** What some cards remembered before a study-day: a fold of their own events alone. */

import type { LogEvent } from './events.ts';
import { foldDated } from './log.ts';
import type { CardMemory, LogState } from './state.ts';

/** Without the step, which takes a fold of the whole log. */
export type EarlierMemory = Omit<CardMemory, 'lastStep'>;

/**
 * The memories that folding all events before a day would give to these cards. A card's memory
 * depends on no other card but one whose memory it took over, so the answers to all others, nearly
 * the whole log, are left out.
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

/** The events that are not in the snapshot, with wrong clocks put right. */
function sinceBase({ events, base }: LogState): readonly LogEvent[] {
  return base ? events.slice(base.shownAgain.length) : events;
}

/** The cards, those whose memory they took over, and so on. */
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

/** The part of an event that is about some cards; nothing if it touches the memory of none. */
function partOf(event: LogEvent, cards: ReadonlySet<string>): readonly LogEvent[] {
  switch (event.type) {
    case 'answered':
    case 'proved':
      return cards.has(event.card) ? [event] : [];
    case 'rehearsed': {
      const questions = event.questions.filter(({ card }) => cards.has(card));
      return questions.length > 0 ? [{ ...event, questions }] : [];
    }
    case 'revised': {
      const moves = event.moves.filter(({ card }) => cards.has(card));
      return moves.length > 0 ? [{ ...event, moves }] : [];
    }
    // Whether a moved number was shown decides what becomes of its memory.
    case 'met':
    case 'taken back':
      return [event];
    default:
      return [];
  }
}
