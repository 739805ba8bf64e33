/** Which lines of two charts are one number in the head. */

import { SPEEDS } from '../../table/index.ts';
import { type Decimal, minus, size } from '../document/decimal.ts';
import { type ChartDocument, placeKey } from '../document/document.ts';
import { computeChart, type Shared } from './chart.ts';

/**
 * A line of both charts is shared if its printed numbers differ by no more than this at any speed,
 * diamonds: the usual tolerance, whatever the player's own, so that a changed setting moves no
 * memory.
 */
const ALIKE = 1000 as Decimal;

/** The lines of a chart that use the memory of another chart's; in any naming the same. */
export function sharedLines(document: ChartDocument, other: ChartDocument): Shared {
  const theirs = new Map(computeChart(other).lines.map((line) => [placeKey(line), line]));
  const alike = computeChart(document).lines.filter((line) => {
    const twin = theirs.get(placeKey(line));
    const apart = (speed: (typeof SPEEDS)[number]) =>
      twin && size(minus(line.numbers[speed].printed, twin.numbers[speed].printed));
    return twin !== undefined && SPEEDS.every((speed) => (apart(speed) ?? ALIKE) <= ALIKE);
  });
  return { chart: other.id, lines: new Set(alike.map(placeKey)) };
}
