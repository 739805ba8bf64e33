/** Finds which printed numbers differ between two charts. */

import { SPEEDS, type Speed } from '../../table/index.ts';
import { type Decimal, minus } from '../document/decimal.ts';
import { byPlace, type LinePlace, placeKey } from '../document/document.ts';
import { bySpeed } from './by-speed.ts';
import type { Chart } from './chart.ts';
import type { Line } from './line.ts';

/**
 * A line with printed numbers that differ between two charts, or a line that only one of them has.
 */
export interface LineChange extends LinePlace {
  /** Null if the line is new. */
  readonly from: Line | null;
  /** Null if the line is gone. */
  readonly to: Line | null;
  /** How far each printed number moves; null if the line is new or gone. */
  readonly by: Readonly<Record<Speed, Decimal>> | null;
}

/**
 * Returns the lines with a printed number that differs, ordered by pattern and start.
 * @throws if the charts use different namings, because their numbers then cannot be compared
 */
export function changedLines(before: Chart, after: Chart): readonly LineChange[] {
  if (before.naming !== after.naming)
    throw new Error(`numbers ${before.naming} and ${after.naming} are two things`);
  const old = new Map(before.lines.map((line) => [placeKey(line), line]));
  const now = new Map(after.lines.map((line) => [placeKey(line), line]));
  const places = new Map([...old, ...now]);
  return [...places]
    .map(([key, { pattern, start }]): LineChange => {
      const from = old.get(key) ?? null;
      const to = now.get(key) ?? null;
      return { pattern, start, from, to, by: from && to && shifts(from, to) };
    })
    .filter(({ by }) => by === null || SPEEDS.some((speed) => by[speed] !== 0))
    .sort(byPlace);
}

function shifts(from: Line, to: Line): Readonly<Record<Speed, Decimal>> {
  return bySpeed((speed) => minus(to.numbers[speed].printed, from.numbers[speed].printed));
}
