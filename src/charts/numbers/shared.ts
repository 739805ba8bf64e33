/** Finds the lines of two charts that are the same number to a player's memory. */

import { SPEEDS, type Speed } from '../../table/index.ts';
import { type Decimal, minus, size } from '../document/decimal.ts';
import { type ChartDocument, placeKey } from '../document/document.ts';
import { computeChart, type Shared } from './chart.ts';

/**
 * Two lines are shared if their printed numbers differ by no more than this at any speed, in
 * diamonds. It is the default tolerance, not the player's own, so that changing that setting moves
 * no memory.
 */
const ALIKE = 1000 as Decimal;

/**
 * Returns the lines of a chart that share the memory of another chart's lines. The result is the
 * same in any naming.
 */
export function sharedLines(document: ChartDocument, other: ChartDocument): Shared {
  const theirs = new Map(computeChart(other).lines.map((line) => [placeKey(line), line]));
  const alike = computeChart(document).lines.filter((line) => {
    const twin = theirs.get(placeKey(line));
    if (!twin) return false;
    const difference = (speed: Speed) =>
      size(minus(line.numbers[speed].printed, twin.numbers[speed].printed));
    return SPEEDS.every((speed) => difference(speed) <= ALIKE);
  });
  return { chart: other.id, lines: new Set(alike.map(placeKey)) };
}
