/** The end of a session: what today's answers were, which lines to look at, what comes next. */

import { type Card, OUTCOMES, type Outcome } from '../cards/index.ts';
import {
  type Answered,
  agendaFor,
  isAnswer,
  type LogState,
  type QueueSettings,
} from '../scheduler/index.ts';
import { type QuizPorts, queueSettings } from './session.ts';

export interface Summary {
  readonly answers: number;
  /** From best to worst, those that occurred. */
  readonly counts: readonly { readonly outcome: Outcome | 'shown'; readonly count: number }[];
  /** Cards that were off today, each once. */
  readonly missed: readonly Card[];
  /** Days from today until something is due again, and how much; null if nothing is. */
  readonly next: { readonly inDays: number; readonly count: number } | null;
}

/** So far ahead something due is looked for, days. */
const HORIZON = 365;

export function summaryOf(ports: QuizPorts): Summary {
  const { cards, log } = ports;
  const answers = answersOn(log.value, ports.today());
  const given = answers.filter((one) => one.answer !== null);
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
    next: nextDue(cards, log.value, ports.today(), queueSettings(ports.settings.value)),
  };
}

/** Answers of a day that still count, newest last. */
function answersOn(log: LogState, day: number): readonly Answered[] {
  return log.events.filter(
    (event): event is Answered =>
      event.day === day && isAnswer(event) && !log.takenBack.has(event.id),
  );
}

/** The next day on which there is something to do. */
export function nextDue(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: QueueSettings,
): Summary['next'] {
  for (let inDays = 1; inDays <= HORIZON; inDays++) {
    const { due, fresh } = agendaFor(cards, log, today + inDays, settings);
    const count = due.length + fresh.length;
    if (count > 0) return { inDays, count };
  }
  return null;
}

/** "Tomorrow: 5 questions.", in the same words wherever it is said. */
export function nextWords(next: Summary['next']): string {
  if (!next) return 'Nothing is due within a year.';
  const when = next.inDays === 1 ? 'Tomorrow' : `In ${next.inDays} days`;
  return `${when}: ${next.count} ${next.count === 1 ? 'question' : 'questions'}.`;
}
