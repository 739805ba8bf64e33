/**
 * Finds printed numbers that miss the pocket. A bank aims at the middle of the pocket mouth, but
 * its number is rounded.
 */

import { type Decimal, formatDecimal, toNumber } from '../../charts/index.ts';
import type { MakeWindow } from '../../table/index.ts';

export interface Played {
  readonly printed: Decimal;
  /** The aim numbers that pocket the ball. Null if none does, or if the target is a rail. */
  readonly makeWindow: MakeWindow | null;
}

/** Returns whether the printed number misses although some other number would pocket the ball. */
export function missesAsPrinted({ printed, makeWindow }: Played): boolean {
  const aim = toNumber(printed);
  return makeWindow !== null && (aim < makeWindow.from || aim > makeWindow.to);
}

/**
 * Returns "as printed it misses; the middle of what drops is 1.65". Null if the printed number
 * drops, or if no number does.
 */
export function missWords(number: Played): string | null {
  const { makeWindow } = number;
  if (!makeWindow || !missesAsPrinted(number)) return null;
  const middle = (makeWindow.from + makeWindow.to) / 2;
  return `as printed it misses; the middle of what drops is ${middle.toFixed(2)}`;
}

/** The printed number, with a dotted underline if it misses. */
export function PrintedNumber({ number }: { readonly number: Played }) {
  const said = formatDecimal(number.printed);
  if (!missesAsPrinted(number)) return <>{said}</>;
  return (
    <span class="misses">
      {said}
      <span class="visually-hidden"> as printed it misses the pocket</span>
    </span>
  );
}
