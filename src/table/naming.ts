/**
 * Players name a place on the first cushion by the sight the line runs through, or by the point
 * opposite on the nose, where the line crosses it. In the model a number is always through the sight.
 */

import { diamondOf, noseEdge, sightAt, type Table } from './geometry.ts';
import type { Route } from './route.ts';

export const NAMINGS = ['through', 'opposite'] as const;
export type Naming = (typeof NAMINGS)[number];

/**
 * A number through the sight as a chart of the given naming prints it. Exact: the line is straight,
 * so the nose divides it in a ratio that the aim does not change.
 * @param start, aim diamonds of the line's two sights
 */
export function nameAim(
  table: Table,
  route: Route,
  start: number,
  aim: number,
  naming: Naming,
): number {
  if (naming === 'through') return aim;
  const { level, part } = pointOnNose(table, route, start);
  return level + part * (aim - level);
}

/** The number through the sight for a number as printed: the inverse of `nameAim`. */
export function aimNamed(
  table: Table,
  route: Route,
  start: number,
  named: number,
  naming: Naming,
): number {
  if (naming === 'through') return named;
  const { level, part } = pointOnNose(table, route, start);
  // From a sight in the very corner, every line crosses the nose's line at that sight.
  return part > 0 ? level + (named - level) / part : level;
}

/** The diamond level with the start's sight, and the share of the line that lies before the nose. */
function pointOnNose(table: Table, route: Route, start: number) {
  const from = sightAt(table, route.start, start);
  const nose = noseEdge(table, route.aim.rail);
  const depth = nose.offset - nose.nx * from.x - nose.ny * from.y;
  return { level: diamondOf(table, route.aim, from), part: depth / (depth + table.sightSetback) };
}
