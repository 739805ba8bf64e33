/** The log in memory. */

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
  /** Waits for a reading of the disk; `arrived`: the events that were added since it began. */
  readonly whileReading: <T>(
    read: () => Promise<T>,
  ) => Promise<{ readonly contents: T; readonly arrived: readonly LogEvent[] }>;
  /** Replaces the log by the one on the disk and the events that arrived while it was read. */
  readonly replaceLog: (contents: StoredLog, arrived: readonly LogEvent[]) => void;
}

/** @param reload reads the disk again, for an event that changes what is sealed */
export function createPageLog(reload: () => void): PageLog {
  const log = signal<LogState>(foldLog([]));
  /** A list for each reading under way. */
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
      // The log only grows: the union is right even if it holds more than the disk did.
      log.value = foldLog(arrived.length > 0 ? mergeLogs(events, arrived) : events, snapshot);
    },
  };
}

/** Whether an event changes what was folded into the snapshot; hardly any does. */
function changesSealed({ base, rawEvents }: LogState, event: LogEvent): boolean {
  if (!base) return false;
  const { type, day } = event;
  if (day >= base.before && type !== 'taken back' && type !== 'weights taken') return false;
  return !continues(base, [...rawEvents, event]);
}
