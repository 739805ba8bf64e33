/**
 * The summary at the end of a session: today's answers, cards that come back later, cards to look
 * at again, and what tomorrow brings.
 */

import { type Card, OUTCOMES, type Outcome } from '../../cards/index.ts';
import {
  type Answered,
  daysUntilBack,
  eventsSince,
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

/** A card that comes back later than it did the last time. */
export interface Longer {
  readonly card: Card;
  /** Days between its last two answers; null for a new card. */
  readonly before: number | null;
  /** Days until the next question; null if it is further ahead than the chooser looks. */
  readonly now: number | null;
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
 * Returns the cards answered today that now come back later than they did the last time, greatest
 * gain first. Answers that were taken back do not count, nor does a card that was off or whose line
 * is set aside.
 */
export function holdsLonger(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: Settings,
): readonly Longer[] {
  const touched = new Set(answersOn(log, today).map((answer) => answer.card));
  const right = new Set([...touched].filter((id) => log.memories.get(id)?.lastOutcome !== 'off'));
  const before = memoriesBefore(log, today, right);
  const steps = stepsADay(settings, log, today);
  const wish = wishOf(settings);
  const back = daysUntilBack(cards, log, today, wish, steps, right);
  const learned = new Set(learnedOf(cards, log, wish).cards.map(({ id }) => id));
  return (
    cards
      .filter(({ id }) => right.has(id) && learned.has(id))
      .map((card): Longer => {
        const was = before.get(card.id);
        return { card, before: was ? today - was.lastDay : null, now: back.get(card.id) ?? null };
      })
      // No card comes back earlier than tomorrow, so one day is no gain.
      .filter(({ before: was, now }) => now === null || now > Math.max(1, was ?? 1))
      .sort((a, b) => gainOf(b) - gainOf(a))
  );
}

function gainOf({ before, now }: Longer): number {
  return (now ?? Number.MAX_SAFE_INTEGER) - (before ?? 0);
}

/** Returns a day's answers that were not taken back, newest last. */
export function answersOn(log: LogState, day: number): readonly Answered[] {
  return eventsSince(log, day)
    .filter(isAnswer)
    .filter((answer) => answer.day === day);
}
