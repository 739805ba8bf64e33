/** Which printed numbers differ between two charts. */

import { SPEEDS, type Speed } from '../../table/index.ts';
import { type Decimal, minus } from '../document/decimal.ts';
import { type LinePlace, placeKey } from '../document/document.ts';
import { PATTERNS } from '../document/patterns.ts';
import type { Chart, Line } from './chart.ts';

/** A line whose printed numbers differ, or that one of the charts has not. */
export interface LineChange extends LinePlace {
  /** Null if the line comes. */
  readonly from: Line | null;
  /** Null if it goes. */
  readonly to: Line | null;
  /** By how much each printed number moves; null if the line comes or goes. */
  readonly by: Readonly<Record<Speed, Decimal>> | null;
}

const ORDER: readonly string[] = PATTERNS.map(({ id }) => id);

/**
 * The lines with a printed number that differs, by pattern and start.
 * @throws if the charts name their numbers in two ways: such numbers cannot be compared
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
    .sort((a, b) => ORDER.indexOf(a.pattern) - ORDER.indexOf(b.pattern) || a.start - b.start);
}

function shifts(from: Line, to: Line): Readonly<Record<Speed, Decimal>> {
  const by = (speed: Speed) => minus(to.numbers[speed].printed, from.numbers[speed].printed);
  return { soft: by('soft'), medium: by('medium'), firm: by('firm') };
}
