/** Tells when something is due next, also for screens that ask no questions. */

import type { Card } from '../../cards/index.ts';
import {
  agendaFor,
  type Due,
  type LogState,
  type QueueSettings,
  type TodaysPlan,
} from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';

/** How many days ahead to look for something due. */
const HORIZON = 365;

/** Returns the queue's settings. They include the plan for the day that counts, if there is one. */
export function queueSettings(settings: Settings, plan: TodaysPlan | null = null): QueueSettings {
  const { targetRecall, newLinesPerDay, meetFirst, kinds, byHeart } = settings;
  const anchorsOnly = byHeart === 'anchors';
  return { targetRecall, newLinesPerDay, meetFirst, kinds, anchorsOnly, plan };
}

/**
 * Returns the next day on which something is due, and how much; null if nothing is due within a
 * year.
 */
export function nextDue(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: QueueSettings,
): Due | null {
  // After the last day of a plan, the ordinary due days apply again.
  const planned = settings.plan?.today === today ? settings.plan.next : null;
  if (planned) return planned;
  for (let inDays = 1; inDays <= HORIZON; inDays++) {
    const { due, fresh } = agendaFor(cards, log, today + inDays, settings);
    const count = due.length + fresh.length;
    if (count > 0) return { inDays, count };
  }
  return null;
}

/** Returns, for example, "Tomorrow: 5 questions." Every screen uses these words. */
export function nextDueWords(next: Due | null): string {
  if (!next) return 'Nothing is due within a year.';
  const when = next.inDays === 1 ? 'Tomorrow' : `In ${next.inDays} days`;
  return `${when}: ${next.count} ${next.count === 1 ? 'question' : 'questions'}.`;
}
