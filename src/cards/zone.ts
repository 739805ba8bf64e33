/** Zones: thirds of a pattern's starts, for skills that are practiced over a range of lines. */

import { type Decimal, minus, type Pattern, plus, toDecimal } from '../charts/index.ts';

export const ZONES = ['low', 'middle', 'high'] as const;
/** By the start's diamond, from the pattern's first start to its last. */
export type Zone = (typeof ZONES)[number];

const TENTH = toDecimal(0.1);

/**
 * First and last start of a zone, in tenths. Thirds are rounded to half diamonds; a start on the
 * border belongs to the middle.
 */
export function zoneBounds(
  { starts: [first, last] }: Pattern,
  zone: Zone,
): readonly [Decimal, Decimal] {
  const third = (part: number) => toDecimal(Math.round(2 * (first + part * (last - first))) / 2);
  switch (zone) {
    case 'low':
      return [toDecimal(first), minus(third(1 / 3), TENTH)];
    case 'middle':
      return [third(1 / 3), third(2 / 3)];
    case 'high':
      return [plus(third(2 / 3), TENTH), toDecimal(last)];
  }
}

export function zoneOf(pattern: Pattern, start: Decimal): Zone {
  const [from, to] = zoneBounds(pattern, 'middle');
  if (start < from) return 'low';
  return start <= to ? 'middle' : 'high';
}
