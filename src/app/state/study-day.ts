/** The study-day by the clock: a new one begins at the player's own hour. */

import { type ReadonlySignal, signal } from '@preact/signals';
import { studyDay } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';

export interface Clock {
  /** Milliseconds since 1970-01-01 UTC, whole. */
  readonly now: () => number;
  /** Minutes by which the local clock is ahead of UTC at an instant. */
  readonly offsetMinutes: (at: number) => number;
}

export interface StudyDays {
  /** The study-day at the last look at the clock; open screens follow it. */
  readonly day: ReadonlySignal<number>;
  readonly lookAtClock: () => void;
  /** The study-day now. Whatever is computed from it follows `day` past midnight. */
  readonly today: () => number;
  readonly now: () => number;
  /** The study-day now as a calendar date (ISO 8601). */
  readonly date: () => string;
}

const DAY_MS = 86_400_000;

export function createStudyDays(clock: Clock, settings: ReadonlySignal<Settings>): StudyDays {
  const day = signal(0);
  const current = (): number => {
    const at = clock.now();
    return studyDay(at, clock.offsetMinutes(at), settings.peek().dayBoundaryHour);
  };
  return {
    day,
    lookAtClock: () => {
      day.value = current();
    },
    today: () => {
      void day.value;
      return current();
    },
    now: clock.now,
    date: () => new Date(current() * DAY_MS).toISOString().slice(0, 10),
  };
}
