/** Parses events from outside: from the disk, a backup, another tab, or another device. */

import * as v from 'valibot';
import { EVENT_VERSION, eventSchema } from './event-schema.ts';
import type { LogEvent } from './events.ts';

export type ParsedEvent =
  | { readonly ok: true; readonly event: LogEvent }
  | { readonly ok: false; readonly code: 'future version' | 'not an event' };

/** Validates one stored or imported event. An event is used as a whole or not at all. */
export function parseEvent(data: unknown): ParsedEvent {
  const version = (data as { version?: unknown } | null)?.version;
  if (typeof version === 'number' && version > EVENT_VERSION) {
    return { ok: false, code: 'future version' };
  }
  const result = v.safeParse(eventSchema, data);
  if (!result.success) return { ok: false, code: 'not an event' };
  const event: LogEvent = result.output;
  const isOwn = event.id === `${event.device}:${event.seq}`;
  return isOwn && isWhole(event) ? { ok: true, event } : { ok: false, code: 'not an event' };
}

/**
 * Returns whether the parts of an event fit together. Players who judge themselves give no numbers and
 * say only "had it" or "not".
 */
function isWhole(event: LogEvent): boolean {
  if (event.type !== 'answered' || event.judged === undefined) return true;
  const isJudgment = event.outcome === 'pocketed' || event.outcome === 'off';
  return isJudgment && event.answer === null && event.errors === null;
}
