/** Detects double taps, because the second tap hits whatever has just appeared under the thumb. */

/** Nobody can have read something that appeared less than this many ms ago. */
const DOUBLE_TAP = 350;

/**
 * Tells whether a press was the second half of a double tap, meant for what was there before. For a
 * mouse, the event counts the clicks. Not every platform counts taps, so any tap that comes this
 * soon is taken for a second one.
 * @param since milliseconds since the pressed element appeared
 */
export function isSecondTap(event: MouseEvent, since: number): boolean {
  const tapped = 'pointerType' in event && event.pointerType === 'touch';
  return since < DOUBLE_TAP && (tapped || event.detail > 1);
}
