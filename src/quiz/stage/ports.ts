/** What every kind of session needs from outside. */

import type { ReadonlySignal } from '@preact/signals';
import type { Chart } from '../../charts/index.ts';
import type { EventDraft, LogEvent, LogState } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';
import type { Stopwatch } from './stopwatch.ts';

export interface SessionPorts {
  readonly chart: Chart;
  readonly log: ReadonlySignal<LogState>;
  readonly settings: ReadonlySignal<Settings>;
  /**
   * Resolves when the event is on the disk. Rejects with the reason if the event cannot be written.
   */
  readonly append: (draft: EventDraft) => Promise<LogEvent>;
  /** Milliseconds since 1970-01-01 UTC, as an integer. */
  readonly now: () => number;
  readonly today: () => number;
  readonly stopwatch: Stopwatch;
}
