/** Keeps the log in memory. */

import { type ReadonlySignal, signal } from '@preact/signals';
import {
  addToLog,
  continues,
  foldLog,
  type LogEvent,
  type LogState,
  mergeLogs,
} from '../../scheduler/index.ts';
import type { Contents } from '../../store/index.ts';

type StoredLog = Pick<Contents, 'events' | 'snapshot'>;

export interface PageLog {
  readonly log: ReadonlySignal<LogState>;
  readonly addEvent: (event: LogEvent) => void;
  /**
   * Waits until the disk has been read. `arrived` has the events that were added during the reading.
   */
  readonly whileReading: <T>(
    read: () => Promise<T>,
  ) => Promise<{ readonly contents: T; readonly arrived: readonly LogEvent[] }>;
  /** Replaces the log with the one on the disk plus the events that arrived while it was read. */
  readonly replaceLog: (contents: StoredLog, arrived: readonly LogEvent[]) => void;
}

/** @param reload reads the disk again; called for an event that changes sealed events */
export function createPageLog(reload: () => void): PageLog {
  const log = signal<LogState>(foldLog([]));
  /** The events that have arrived so far, in one list for each reading under way. */
  const arrivals = new Set<LogEvent[]>();
  return {
    log,
    addEvent: (event) => {
      for (const arrived of arrivals) arrived.push(event);
      if (changesSealed(log.peek(), event)) reload();
      else log.value = addToLog(log.peek(), event);
    },
    whileReading: async (read) => {
      const arrived: LogEvent[] = [];
      arrivals.add(arrived);
      const contents = await read().finally(() => arrivals.delete(arrived));
      return { contents, arrived };
    },
    replaceLog: ({ events, snapshot }, arrived) => {
      // The log only grows, so the union is right even if it has more events than the disk had.
      log.value = foldLog(arrived.length > 0 ? mergeLogs(events, arrived) : events, snapshot);
    },
  };
}

/** Returns whether an event changes what was folded into the snapshot. Hardly any event does. */
function changesSealed({ base, rawEvents }: LogState, event: LogEvent): boolean {
  if (!base) return false;
  const { type, day } = event;
  if (day >= base.before && type !== 'taken back' && type !== 'weights taken') return false;
  return !continues(base, [...rawEvents, event]);
}
