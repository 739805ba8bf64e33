/**
 * The summary at the end of a session: today's answers, cards with a longer interval, cards to look
 * at again, and what tomorrow brings.
 */

import { type Card, OUTCOMES, type Outcome } from '../../cards/index.ts';
import {
  type Answered,
  daysUntilBack,
  type EarlierMemory,
  isAnswer,
  type LogState,
  learnedOf,
  memoriesBefore,
} from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';
import type { SessionPorts } from '../stage/ports.ts';
import { stepsADay, tomorrowWords, wishOf } from './wish.ts';

export interface Summary {
  readonly answers: number;
  /**
   * How often each outcome occurred, best outcome first. Outcomes that did not occur are left out.
   */
  readonly counts: readonly { readonly outcome: Outcome | 'shown'; readonly count: number }[];
  /** Cards that were off today, each listed once. */
  readonly missed: readonly Card[];
  /** What tomorrow brings. */
  readonly tomorrow: string;
}

/** A card that the chooser is expected to ask again later than it was before today. */
export interface Longer {
  readonly card: Card;
  /**
   * Days between its last answer and the next, as of before today; null for a new card. Below it,
   * the same as of now.
   */
  readonly before: number | null;
  readonly now: number;
}

export function summaryOf(ports: SessionPorts & { readonly cards: readonly Card[] }): Summary {
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
    tomorrow: tomorrowWords(cards, log.value, ports.today(), ports.settings.value),
  };
}

/**
 * Returns the cards answered today that now come back later, greatest gain first. The
 * time before is computed from the log without today's events. Answers that were taken back do
 * not count, nor do lines that are set aside.
 */
export function holdsLonger(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: Settings,
): readonly Longer[] {
  const touched = new Set(answersOn(log, today).map((answer) => answer.card));
  const before = memoriesBefore(log, today, touched);
  const steps = stepsADay(settings, log, today);
  const wish = wishOf(settings);
  const until = daysUntilBack(cards, log, today, wish, steps);
  const comesBack = new Set(learnedOf(cards, log, wish).cards.map(({ id }) => id));
  const days = (id: string, memory: EarlierMemory | undefined) =>
    memory && memory.lastOutcome !== 'off' ? until(id, memory) : null;
  return cards
    .filter(({ id }) => touched.has(id) && comesBack.has(id))
    .flatMap((card) => {
      const was = days(card.id, before.get(card.id));
      const now = days(card.id, log.memories.get(card.id));
      // No card comes back earlier than tomorrow, so one day is no gain.
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
