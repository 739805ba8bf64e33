/**
 * The summary at the end of a session: today's answers, cards with a longer interval, cards to look
 * at again, and what is due next.
 */

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
  /**
   * How often each outcome occurred, best outcome first. Outcomes that did not occur are left out.
   */
  readonly counts: readonly { readonly outcome: Outcome | 'shown'; readonly count: number }[];
  /** Cards that were off today, each listed once. */
  readonly missed: readonly Card[];
  /** In how many days something is due again, and how many questions; null if nothing is due. */
  readonly next: { readonly inDays: number; readonly count: number } | null;
}

/** A card whose next question is more days away than it was before today. */
export interface Longer {
  readonly card: Card;
  /**
   * Days until the next question as of before today; null for a new card. Below it, the same as of
   * now.
   */
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
 * Returns the cards answered today that now have a longer interval, greatest gain first. The
 * interval before is computed from the log without today's events. Answers that were taken back do
 * not count.
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
      // Any first answer that is not off gets an interval of at least a day, so one day is no gain.
      return now !== null && now > (was ?? 1) ? [{ card, before: was, now }] : [];
    })
    .sort((a, b) => b.now - (b.before ?? 0) - (a.now - (a.before ?? 0)));
}

/**
 * Returns a day's answers that were not taken back, newest last. The log is ordered by day, so this
 * reads from the end of the log back to that day.
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
