/** The end of a session: what today's answers were, what holds longer, what to look at, what is next. */

import { type Card, OUTCOMES, type Outcome } from '../../cards/index.ts';
import {
  type Answered,
  type EarlierMemory,
  isAnswer,
  type LogState,
  memoriesBefore,
} from '../../scheduler/index.ts';
import type { PlannedPorts } from '../stage/ports.ts';
import { nextDue, queueSettings } from './due.ts';

export interface Summary {
  readonly answers: number;
  /** From best to worst, those that occurred. */
  readonly counts: readonly { readonly outcome: Outcome | 'shown'; readonly count: number }[];
  /** Cards that were off today, each once. */
  readonly missed: readonly Card[];
  /** Days from today until something is due again, and how much; null if nothing is. */
  readonly next: { readonly inDays: number; readonly count: number } | null;
}

/** A card that is asked again later than it was before today. */
export interface Longer {
  readonly card: Card;
  /** Days between answers, before today and now; null before the first. */
  readonly before: number | null;
  readonly now: number;
}

export function summaryOf(ports: PlannedPorts & { readonly cards: readonly Card[] }): Summary {
  const { cards, log } = ports;
  const answers = answersOn(log.value, ports.today());
  const given = answers.filter((one) => one.answer !== null || one.judged === 'self');
  const counts = [...OUTCOMES].reverse().map((outcome) => ({
    outcome: outcome as Outcome | 'shown',
    count: given.filter((one) => one.outcome === outcome).length,
  }));
  counts.push({ outcome: 'shown', count: answers.length - given.length });
  const missed = new Set(answers.filter((one) => one.outcome === 'off').map((one) => one.card));
  return {
    answers: answers.length,
    counts: counts.filter(({ count }) => count > 0),
    missed: cards.filter((card) => missed.has(card.id)),
    next: nextDue(
      cards,
      log.value,
      ports.today(),
      queueSettings(ports.settings.value, ports.plan.value),
    ),
  };
}

/**
 * Cards answered today that now hold longer, the most gained first. What they held before is the
 * log folded without today; ids of taken-back answers of today do not count.
 */
export function holdsLonger(
  cards: readonly Card[],
  log: LogState,
  today: number,
  targetRecall: number,
): readonly Longer[] {
  const touched = new Set(answersOn(log, today).map((answer) => answer.card));
  const before = memoriesBefore(log, today, touched);
  const days = (memory: EarlierMemory | undefined) =>
    memory && memory.lastOutcome !== 'off' ? log.model.interval(memory, targetRecall) : null;
  return cards
    .filter((card) => touched.has(card.id))
    .flatMap((card) => {
      const was = days(before.get(card.id));
      const now = days(log.memories.get(card.id));
      // A day is what any first answer gets: that is not longer.
      return now !== null && now > (was ?? 1) ? [{ card, before: was, now }] : [];
    })
    .sort((a, b) => b.now - (b.before ?? 0) - (a.now - (a.before ?? 0)));
}

/**
 * Answers of a day that still count, newest last. The log is in the order of days: it is read from
 * its end, back to that day.
 */
export function answersOn(log: LogState, day: number): readonly Answered[] {
  const answers: Answered[] = [];
  for (let at = log.events.length - 1; at >= 0; at--) {
    const event = log.events.at(at);
    if (!event || event.day < day) break;
    if (event.day === day && isAnswer(event) && !log.takenBack.has(event.id)) answers.push(event);
  }
  return answers.reverse();
}
