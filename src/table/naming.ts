/**
 * Players name a place on the first cushion in one of two ways: by the sight that the line runs
 * through, or by the point where the line crosses the nose. In the model a number always means the
 * sight.
 */

import { diamondOf, noseEdge, sightAt, type Table } from './geometry.ts';
import type { Route } from './route.ts';

export const NAMINGS = ['through', 'opposite'] as const;
export type Naming = (typeof NAMINGS)[number];

/**
 * Converts a number through the sight to the number that a chart of the given naming prints. This
 * is exact: the line is straight, so the nose divides it in a ratio that does not depend on the
 * aim.
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

/** Converts a printed number to the number through the sight: the inverse of `nameAim`. */
export function aimNamed(
  table: Table,
  route: Route,
  start: number,
  named: number,
  naming: Naming,
): number {
  if (naming === 'through') return named;
  const { level, part } = pointOnNose(table, route, start);
  // If the start's sight is exactly in the corner, every line crosses the nose's line at that
  // sight.
  return part > 0 ? level + (named - level) / part : level;
}

/**
 * Returns the diamond level with the start's sight, and the share of the line that is before the
 * nose.
 */
function pointOnNose(table: Table, route: Route, start: number) {
  const from = sightAt(table, route.start, start);
  const nose = noseEdge(table, route.aim.rail);
  const depth = nose.offset - nose.nx * from.x - nose.ny * from.y;
  return { level: diamondOf(table, route.aim, from), part: depth / (depth + table.sightSetback) };
}
