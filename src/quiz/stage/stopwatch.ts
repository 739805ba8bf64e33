/** Measures the answer time with a stopwatch that stands still while the page is hidden. */

export interface Stopwatch {
  readonly start: () => void;
  readonly pause: () => void;
  readonly resume: () => void;
  /** Returns the whole milliseconds since the start, without the pauses. */
  readonly read: () => number;
}

/** @param now returns the time of a monotonic clock, in milliseconds */
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
    // A debugger or a sleeping computer may set the clock back, but the time must not be negative.
    read: () => Math.max(0, Math.round(kept + (since === null ? 0 : now() - since))),
  };
}
