/** Answer time: runs from when it is started, stands still while the page is hidden. */

export interface Stopwatch {
  readonly start: () => void;
  readonly pause: () => void;
  readonly resume: () => void;
  /** Whole milliseconds since the start, less the pauses. */
  readonly read: () => number;
}

/** @param now a clock that only goes forward, milliseconds */
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
    // A clock that is set back by a debugger or a sleeping machine must not give less than nothing.
    read: () => Math.max(0, Math.round(kept + (since === null ? 0 : now() - since))),
  };
}
