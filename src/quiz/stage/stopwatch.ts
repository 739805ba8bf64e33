/** Answer time: a stopwatch that stands still while the page is hidden. */

export interface Stopwatch {
  readonly start: () => void;
  readonly pause: () => void;
  readonly resume: () => void;
  /** Whole milliseconds since the start, without the pauses. */
  readonly read: () => number;
}

/** @param now a monotonic clock, milliseconds */
export function createStopwatch(now: () => number): Stopwatch {
  let since: number | null = null;
  let kept = 0;
  return {
    start: () => {
      kept = 0;
      since = now();
    },
    pause: () => {
      if (since !== null) kept += now() - since;
      since = null;
    },
    resume: () => {
      since ??= now();
    },
    // A debugger or a sleeping machine may set the clock back; the time must not be negative.
    read: () => Math.max(0, Math.round(kept + (since === null ? 0 : now() - since))),
  };
}
