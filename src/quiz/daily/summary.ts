/** The end of a session: today's answers, what holds longer, what to look at, and what is next. */

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
  /** The outcomes that occurred, best first. */
  readonly counts: readonly { readonly outcome: Outcome | 'shown'; readonly count: number }[];
  /** Cards that were off today, each once. */
  readonly missed: readonly Card[];
  /** When something is due again, in days from today, and how much; null if nothing is. */
  readonly next: { readonly inDays: number; readonly count: number } | null;
}

/** A card whose next question is farther off than it was before today. */
export interface Longer {
  readonly card: Card;
  /** Days to the next question, before today (null for a new card) and now. */
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
 * Cards answered today that now hold longer, the greatest gain first. Their memories before are those
 * of the log without today. Answers that were taken back do not count.
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
      // Any first answer gets a day: that is no gain.
      return now !== null && now > (was ?? 1) ? [{ card, before: was, now }] : [];
    })
    .sort((a, b) => b.now - (b.before ?? 0) - (a.now - (a.before ?? 0)));
}

/**
 * Answers of a day that still count, newest last. The log is ordered by day, so this reads from its
 * end back to that day.
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
