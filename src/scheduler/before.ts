/** What was remembered of some cards before a study-day: a fold of their own events alone. */

import type { LogEvent } from './events.ts';
import { type CardMemory, foldLog, type LogState } from './log.ts';

/** Steps of the log are not counted where not all of it is folded. */
export type EarlierMemory = Omit<CardMemory, 'lastStep'>;

/**
 * The memories that folding all events before a day would give of these cards. No card's memory
 * hangs on another card, so the others' answers, as a rule nearly all of the log, are left out.
 */
export function memoriesBefore(
  log: LogState,
  day: number,
  cards: ReadonlySet<string>,
): ReadonlyMap<string, EarlierMemory> {
  const own: LogEvent[] = [];
  for (const event of log.events) {
    if (event.day >= day) break;
    own.push(...partOf(event, cards));
  }
  return foldLog(own).memories;
}

/** What an event says of some cards; nothing if it touches the memory of none of them. */
function partOf(event: LogEvent, cards: ReadonlySet<string>): readonly LogEvent[] {
  switch (event.type) {
    case 'answered':
    case 'proved':
      return cards.has(event.card) ? [event] : [];
    case 'rehearsed': {
      const questions = event.questions.filter(({ card }) => cards.has(card));
      return questions.length > 0 ? [{ ...event, questions }] : [];
    }
    case 'taken back':
      return [event];
    default:
      return [];
  }
}
