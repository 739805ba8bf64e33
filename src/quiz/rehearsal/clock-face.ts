/** How a shot clock shows the time left. */

/** When this many seconds are left, the clock is highlighted. */
const LAST = 5;
/** When this many seconds are left, screen readers announce the time, once. */
const ANNOUNCED = 10;

export interface ClockFace {
  /** Seconds left, rounded up, so that 0 appears only when the clock has run out. */
  readonly seconds: number;
  /** Percentage of the full time that is left. */
  readonly percent: number;
  /** Whether these are the last seconds, which are highlighted. */
  readonly last: boolean;
  /** The seconds that a screen reader announces; null until it is time to announce them. */
  readonly announced: number | null;
}

/**
 * @param leftMs the time left, in milliseconds
 * @param wholeSeconds the full time, in seconds
 */
export function clockFace(leftMs: number, wholeSeconds: number): ClockFace {
  const seconds = Math.ceil(leftMs / 1000);
  return {
    seconds,
    percent: (100 * leftMs) / (1000 * wholeSeconds),
    last: seconds <= LAST,
    announced: seconds <= ANNOUNCED ? ANNOUNCED : null,
  };
}
