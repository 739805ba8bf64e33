/** How a shot clock shows the time left. */

/** The clock is marked from here, seconds. */
const LAST = 5;
/** Screen readers announce the time left here, once, seconds. */
const ANNOUNCED = 10;

export interface ClockFace {
  /** Seconds left, rounded up: 0 only when the clock has run out. */
  readonly seconds: number;
  /** The part of the clock that is left, percent. */
  readonly percent: number;
  /** Are these the last seconds. */
  readonly last: boolean;
  /** The seconds that a screen reader announces; null before that. */
  readonly announced: number | null;
}

/**
 * @param leftMs milliseconds left
 * @param wholeSeconds the full clock, seconds
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
