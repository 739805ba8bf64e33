/** Follows the study day by the clock. A new study day begins at the hour that the player chose. */

import { type ReadonlySignal, signal } from '@preact/signals';
import { studyDay } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';

export interface Clock {
  /** Returns the current time, in whole milliseconds since 1970-01-01 UTC. */
  readonly now: () => number;
  /** Returns how far the local clock is ahead of UTC at a time, in minutes. */
  readonly offsetMinutes: (at: number) => number;
}

export interface StudyDays {
  /** The study day when the clock was last checked. Open screens follow it. */
  readonly day: ReadonlySignal<number>;
  readonly lookAtClock: () => void;
  /** Returns the current study day. Anything computed from it is computed again when `day` changes. */
  readonly today: () => number;
  readonly now: () => number;
  /** Returns the current study day as a calendar date (ISO 8601). */
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
