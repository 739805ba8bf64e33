/** Printed numbers that miss: a bank aims at the middle of the mouth, but its number is rounded. */

import { type Decimal, formatDecimal, toNumber } from '../../charts/index.ts';
import type { MakeWindow } from '../../table/index.ts';

export interface Played {
  readonly printed: Decimal;
  /** Null if nothing drops, or the target is a rail. */
  readonly makeWindow: MakeWindow | null;
}

/** Whether some aim drops, but not the printed number. */
export function missesAsPrinted({ printed, makeWindow }: Played): boolean {
  const aim = toNumber(printed);
  return makeWindow !== null && (aim < makeWindow.from || aim > makeWindow.to);
}

/** "as printed it misses; the middle of what drops is 1.65"; null if it drops or nothing does. */
export function missWords(number: Played): string | null {
  const { makeWindow } = number;
  if (!makeWindow || !missesAsPrinted(number)) return null;
  const middle = (makeWindow.from + makeWindow.to) / 2;
  return `as printed it misses; the middle of what drops is ${middle.toFixed(2)}`;
}

/** The number, with a dotted line if it misses. */
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
