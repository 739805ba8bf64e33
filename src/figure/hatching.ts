/** Draws lines that set cushions apart from cloth on paper without color. */

import type { Table } from '../table/index.ts';
import { cushionCorners, type Spot, tidy } from './frame.ts';

/**
 * Returns SVG path data of lines at 45° over the six cushions.
 * @param spacing the distance between lines, in millimeters of the table
 */
export function hatching(table: Table, spacing: number): string {
  if (!(spacing > 0)) throw new RangeError(`not a spacing: ${spacing}`);
  return cushionCorners(table)
    .flatMap((corners) => linesIn(corners, spacing * Math.SQRT2))
    .map(([a, b]) => `M${tidy(a.x)} ${tidy(a.y)}L${tidy(b.x)} ${tidy(b.y)}`)
    .join('');
}

/** Returns the lines x + y = n·step, clipped to a convex shape. */
function linesIn(corners: readonly Spot[], step: number): readonly (readonly [Spot, Spot])[] {
  const sums = corners.map(({ x, y }) => x + y);
  const first = Math.floor(Math.min(...sums) / step) + 1;
  const last = Math.ceil(Math.max(...sums) / step) - 1;
  const lines: (readonly [Spot, Spot])[] = [];
  for (let n = first; n <= last; n++) {
    const [a, b] = crossings(corners, n * step);
    if (a && b) lines.push([a, b]);
  }
  return lines;
}

/**
 * Returns where x + y = sum crosses the outline. A corner belongs to the edge that begins there.
 */
function crossings(corners: readonly Spot[], sum: number): readonly Spot[] {
  return corners.flatMap((from, n) => {
    const to = corners[(n + 1) % corners.length] ?? from;
    const before = from.x + from.y - sum;
    const after = to.x + to.y - sum;
    if (before === after || before * after > 0 || after === 0) return [];
    const part = before / (before - after);
    return [{ x: from.x + part * (to.x - from.x), y: from.y + part * (to.y - from.y) }];
  });
}
