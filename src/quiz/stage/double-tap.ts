/** Two taps for one: the second falls on whatever has just come up under the thumb. */

/** So soon after something came nobody has read it, ms. */
const DOUBLE_TAP = 350;

/**
 * Was a press the second half of a double tap, meant for what stood there before. A mouse tells by its
 * count of clicks; taps are not counted on every platform, so any tap so soon is taken for one.
 * @param since milliseconds since what is pressed came up
 */
export function isSecondTap(event: MouseEvent, since: number): boolean {
  const tapped = 'pointerType' in event && event.pointerType === 'touch';
  return since < DOUBLE_TAP && (tapped || event.detail > 1);
}
