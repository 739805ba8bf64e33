/** Finds what was shown or answered last, and decides which events count. */

import type { Answered, LogEvent, Met } from './events.ts';
import type { LogState } from './state.ts';

/**
 * Returns the newest event up to today that counts and fits. Events dated later come from a clock that
 * was ahead. They count for memory, but they were not shown last.
 */
export function lastEvent<E extends LogEvent>(
  log: LogState,
  today: number,
  fits: (event: LogEvent) => event is E,
): E | null {
  for (let n = log.events.length - 1; n >= 0; n--) {
    const event = log.events[n];
    if (event && event.day <= today && fits(event) && counts(event, log.takenBack)) return event;
  }
  return null;
}

/** Returns the events from a study day on that count, newest last. Reads no further back. */
export function eventsSince({ events, takenBack }: LogState, day: number): readonly LogEvent[] {
  const since: LogEvent[] = [];
  for (let n = events.length - 1; n >= 0; n--) {
    const event = events[n];
    if (!event || event.day < day) break;
    if (counts(event, takenBack)) since.push(event);
  }
  return since.reverse();
}

/** Returns whether an event counts. Only answers and table shots can be taken back. */
export function counts(event: LogEvent, takenBack: ReadonlySet<string>): boolean {
  const canBe = event.type === 'answered' || event.type === 'table shot';
  return !canBe || !takenBack.has(event.id);
}

export function isAnswer(event: LogEvent): event is Answered {
  return event.type === 'answered';
}

/** Returns whether an event showed the player something: an answered card or a met line. */
export function isStep(event: LogEvent): event is Answered | Met {
  return event.type === 'answered' || event.type === 'met';
}
