/** What was remembered of some cards before a study-day: a fold of their own events alone. */

import type { LogEvent } from './events.ts';
import { type CardMemory, foldDated, type LogState } from './log.ts';

/** Steps of the log are not counted where not all of it is folded. */
export type EarlierMemory = Omit<CardMemory, 'lastStep'>;

/**
 * The memories that folding all events before a day would give of these cards. A card's memory hangs
 * on no other card but one that it took the memory of, so the others' answers, as a rule nearly all
 * of the log, are left out.
 */
export function memoriesBefore(
  log: LogState,
  day: number,
  cards: ReadonlySet<string>,
): ReadonlyMap<string, EarlierMemory> {
  const own: LogEvent[] = [];
  const wanted = withOrigins(cards, log);
  for (const event of sinceSnapshot(log)) {
    if (event.day >= day) break;
    own.push(...partOf(event, wanted));
  }
  const { memories } = foldDated(own, log.onto, log.model);
  return new Map([...memories].filter(([card]) => cards.has(card)));
}

/** Events that are not in the snapshot, dated as they were given. */
function sinceSnapshot({ events, onto }: LogState): readonly LogEvent[] {
  const all = [...events];
  return onto ? all.slice(onto.shownAgain.length) : all;
}

/** The cards, and those whose memory was carried on in them, and so on. */
function withOrigins(cards: ReadonlySet<string>, log: LogState): ReadonlySet<string> {
  const all = new Set(cards);
  const carried = sinceSnapshot(log).flatMap((event) =>
    event.type === 'revised' ? event.moves : [],
  );
  let known = -1;
  while (known < all.size) {
    known = all.size;
    for (const { card, was } of carried) if (was !== undefined && all.has(card)) all.add(was);
  }
  return all;
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
    case 'revised': {
      const moves = event.moves.filter(({ card }) => cards.has(card));
      return moves.length > 0 ? [{ ...event, moves }] : [];
    }
    // Whether a number that moved was seen decides what becomes of its memory.
    case 'met':
    case 'taken back':
      return [event];
    default:
      return [];
  }
}
