/** How memory decays without further answers, and which cards fall due. Nothing is simulated. */

import type { Card } from '../../cards/index.ts';
import { heldOn } from '../insight/held.ts';
import type { LogState } from '../log/state.ts';
import { learnedOf } from './learned.ts';
import { agendaFor, dueDay, type QueueSettings } from './queue.ts';

export interface HeldDay {
  /** Study-day. */
  readonly day: number;
  /** Expected number of lines known, ΣR. */
  readonly held: number;
}

export interface LoadDay {
  readonly day: number;
  readonly answers: number;
}

/**
 * The lines known today and on so many days after, as they are forgotten.
 * @param every the step between the days that are computed
 */
export function forecastDecay(
  cards: readonly Card[],
  log: LogState,
  today: number,
  days: number,
  every = 1,
): readonly HeldDay[] {
  return Array.from({ length: Math.floor(days / every) + 1 }, (_, n) => {
    const day = today + n * every;
    return { day, held: heldOn(cards, log, day).expected };
  });
}

/**
 * The cards that fall due today and on the days after, so many days in all. Each card counts once,
 * on its first day: the next depends on the answer. Cards that today leaves over, because siblings
 * are kept apart, come tomorrow; lines never met count today only.
 */
export function comingDue(
  cards: readonly Card[],
  log: LogState,
  today: number,
  days: number,
  settings: QueueSettings,
): readonly LoadDay[] {
  const { due, fresh } = agendaFor(cards, log, today, settings);
  const load = Array.from({ length: days }, () => 0);
  load[0] = due.length + fresh.length;
  const now = new Set(due.map(({ id }) => id));
  for (const card of learnedOf(cards, log, settings).cards) {
    const memory = log.memories.get(card.id);
    if (!memory || now.has(card.id)) continue;
    const n = Math.max(1, dueDay(memory, settings.targetRecall, log.model) - today);
    if (n < days) load[n] = (load[n] ?? 0) + 1;
  }
  return load.map((answers, n) => ({ day: today + n, answers }));
}
