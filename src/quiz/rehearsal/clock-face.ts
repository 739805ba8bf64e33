/** What a shot clock shows of the time that is left. */

/** From here on the clock is marked, seconds. */
const LAST = 5;
/** So many seconds left are said aloud, once. */
const SAID = 10;

export interface ClockFace {
  /** Begun seconds that are left: it shows 0 only when it has run out. */
  readonly seconds: number;
  /** How much of the clock is left, per cent. */
  readonly percent: number;
  /** Are these the last seconds. */
  readonly last: boolean;
  /** The seconds left that a screen reader hears of; null before there is anything to say. */
  readonly said: number | null;
}

/**
 * @param leftMs milliseconds left
 * @param wholeSeconds the whole of the clock, seconds
 */
export function clockFace(leftMs: number, wholeSeconds: number): ClockFace {
  const seconds = Math.ceil(leftMs / 1000);
  return {
    seconds,
    percent: (100 * leftMs) / (1000 * wholeSeconds),
    last: seconds <= LAST,
    said: seconds <= SAID ? SAID : null,
  };
}
