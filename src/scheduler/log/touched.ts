/**
 * The cards and lines that events touched, newest first. A state shares this chain with the state
 * that it continues, so a queue that follows the log looks at new links alone.
 */

import type { LogEvent } from './events.ts';

export interface Touched {
  /** A card or a line; null where the chain begins. */
  readonly id: string | null;
  readonly before: Touched | null;
}

export function nothingTouched(): Touched {
  return { id: null, before: null };
}

/** Neither memory nor the next question depends on these. */
const TOUCH_NOTHING: ReadonlySet<LogEvent['type']> = new Set([
  'noted',
  'flagged',
  'drilled',
  'table shot',
  'chart used',
]);

/** An answer or a met line continues the chain; an event that may touch anything begins another. */
export function touch(before: Touched, event: LogEvent): Touched {
  if (TOUCH_NOTHING.has(event.type)) return before;
  if (event.type === 'answered') return { id: event.card, before };
  if (event.type === 'met') return { id: event.line, before };
  return nothingTouched();
}

/**
 * What was touched since an earlier link, newest first; null if the chain is not its continuation.
 */
export function touchedSince(now: Touched, earlier: Touched): readonly string[] | null {
  const ids: string[] = [];
  for (let link: Touched | null = now; link !== null; link = link.before) {
    if (link === earlier) return ids;
    if (link.id !== null) ids.push(link.id);
  }
  return null;
}
