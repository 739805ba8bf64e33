/**
 * The proportional rule between memorized lines, at one speed. Starts and numbers are in diamonds.
 */

import { type Decimal, toDecimal, toNumber } from '../document/decimal.ts';

/** An anchor at one speed, as the player memorizes it. */
export interface AnchorNumber {
  readonly start: Decimal;
  readonly printed: Decimal;
}

/**
 * Returns the unrounded number at a start by the proportional rule, in diamonds; null before the
 * first anchor and after the last.
 */
export function interpolate(anchors: readonly AnchorNumber[], start: Decimal): number | null {
  requireAscending(anchors);
  const next = anchors.findIndex((anchor) => start <= anchor.start);
  const right = anchors[next];
  if (!right) return null;
  if (start === right.start) return toNumber(right.printed);
  const left = anchors[next - 1];
  return left ? proportional(left, right, start) : null;
}

/**
 * Returns x1 + (x2 − x1)(t − t1)/(t2 − t1). It is computed in whole ten-thousandths up to the
 * division, so it is exact at t2.
 */
export function proportional(left: AnchorNumber, right: AnchorNumber, start: Decimal): number {
  const rise = right.printed - left.printed;
  const units = left.printed + (rise * (start - left.start)) / (right.start - left.start);
  return units / toDecimal(1);
}

/**
 * Checks that the starts ascend.
 * @throws if they do not
 */
export function requireAscending(entries: readonly { readonly start: Decimal }[]): void {
  entries.forEach(({ start }, k) => {
    const before = entries[k - 1]?.start;
    if (before !== undefined && !(before < start)) {
      throw new RangeError(`start ${toNumber(start)} after ${toNumber(before)}`);
    }
  });
}
