/** Zones: thirds of a pattern's starts. Skills are practiced over the lines of one zone. */

import { type Decimal, minus, type Pattern, plus, toDecimal } from '../charts/index.ts';

export const ZONES = ['low', 'middle', 'high'] as const;
/** The third that a start is in, counting from the pattern's first start to its last. */
export type Zone = (typeof ZONES)[number];

const TENTH = toDecimal(0.1);

/**
 * Returns the first and the last start of a zone, in tenths of a diamond. The thirds are rounded to
 * half diamonds. A start on a border belongs to the middle zone.
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
