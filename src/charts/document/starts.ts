/** Lists where the lines of a pattern start. */

import { type Decimal, toDecimal } from './decimal.ts';
import type { ChartDocument } from './document.ts';
import type { Pattern } from './patterns.ts';

/** Returns a pattern's start diamonds at the chart's step, in order. */
export function startsOf(
  { startStep }: Pick<ChartDocument, 'startStep'>,
  { starts: [first, last] }: Pattern,
) {
  return startsFrom(toDecimal(first), toDecimal(last), startStep);
}

/**
 * Returns start diamonds a step apart, from one start to another. The last one is included if the
 * steps reach it.
 */
export function startsFrom(from: Decimal, to: Decimal, step: Decimal): readonly Decimal[] {
  const count = Math.floor((to - from) / step) + 1;
  return Array.from({ length: count }, (_, n) => (from + n * step) as Decimal);
}
