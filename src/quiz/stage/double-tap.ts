/** Double taps: the second tap lands on whatever has just appeared under the thumb. */

/** Nobody has read something that appeared so recently, ms. */
const DOUBLE_TAP = 350;

/**
 * Was a press the second half of a double tap, meant for what was there before. A mouse counts its
 * clicks. Not every platform counts taps, so any tap that comes so soon is taken for one.
 * @param since milliseconds since the pressed element appeared
 */
export function isSecondTap(event: MouseEvent, since: number): boolean {
  const tapped = 'pointerType' in event && event.pointerType === 'touch';
  return since < DOUBLE_TAP && (tapped || event.detail > 1);
}
