/** Zones: thirds of a pattern's starts, for what is practised over a range and not line by line. */

import { type Decimal, type Pattern, toDecimal } from '../charts/index.ts';

export const ZONES = ['low', 'middle', 'high'] as const;
/** By start diamond: from the pattern's first start to its last. */
export type Zone = (typeof ZONES)[number];

/**
 * First and last start of a zone. Thirds are moved to the nearest half diamond; a start on the
 * border belongs to the middle.
 */
export function zoneBounds(
  { starts: [first, last] }: Pattern,
  zone: Zone,
): readonly [Decimal, Decimal] {
  const low = toDecimal(first);
  const high = toDecimal(last);
  const third = (part: number) => toDecimal(Math.round(2 * (first + part * (last - first))) / 2);
  switch (zone) {
    case 'low':
      return [low, third(1 / 3)];
    case 'middle':
      return [third(1 / 3), third(2 / 3)];
    case 'high':
      return [third(2 / 3), high];
  }
}

export function zoneOf(pattern: Pattern, start: Decimal): Zone {
  const [from, to] = zoneBounds(pattern, 'middle');
  if (start < from) return 'low';
  return start <= to ? 'middle' : 'high';
}
