/**
 * The chain of cards and lines that events touched, newest first. A state shares this chain with the
 * state that it continues. So a queue that follows the log looks only at new links.
 */

import type { LogEvent } from './events.ts';

export interface Touched {
  /** The id of a card or a line; null at the start of the chain. */
  readonly id: string | null;
  readonly before: Touched | null;
}

export function nothingTouched(): Touched {
  return { id: null, before: null };
}

/** The types of events that affect neither memory nor the next question. */
const TOUCH_NOTHING: ReadonlySet<LogEvent['type']> = new Set([
  'noted',
  'flagged',
  'drilled',
  'table shot',
  'chart used',
]);

/**
 * Adds what an event touched. An answer or a met line continues the chain. An event that may touch
 * anything begins a new chain.
 */
export function touch(before: Touched, event: LogEvent): Touched {
  if (TOUCH_NOTHING.has(event.type)) return before;
  if (event.type === 'answered') return { id: event.card, before };
  if (event.type === 'met') return { id: event.line, before };
  return nothingTouched();
}

/**
 * Returns the ids touched since an earlier link, newest first. Null if that link is not in the chain.
 */
export function touchedSince(now: Touched, earlier: Touched): readonly string[] | null {
  const ids: string[] = [];
  for (let link: Touched | null = now; link !== null; link = link.before) {
    if (link === earlier) return ids;
    if (link.id !== null) ids.push(link.id);
  }
  return null;
}
