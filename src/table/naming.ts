/**
 * The two ways in which players name the first cushion: by the sight that the line runs through, or
 * by the point of the nose where it crosses. Inside the model a number is always through the sight.
 */

import { diamondOf, noseEdge, sightAt, type Table } from './geometry.ts';
import type { Route } from './route.ts';

export const NAMINGS = ['through', 'opposite'] as const;
export type Naming = (typeof NAMINGS)[number];

/**
 * A number through the sight, as a chart of the given naming prints it. Exact: the line is straight,
 * so the point on the nose divides the way from the start's sight in a ratio that the aim does not
 * change.
 * @param start, aim diamonds; both sights are those of the line
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

/** The number through the sight that a chart's number stands for: the inverse of `nameAim`. */
export function aimNamed(
  table: Table,
  route: Route,
  start: number,
  named: number,
  naming: Naming,
): number {
  if (naming === 'through') return named;
  const { level, part } = pointOnNose(table, route, start);
  // From the sight in the very corner every line crosses the nose's line in that sight.
  return part > 0 ? level + (named - level) / part : level;
}

/** The diamond level with the start's sight, and how far along the line the nose is crossed. */
function pointOnNose(table: Table, route: Route, start: number) {
  const from = sightAt(table, route.start, start);
  const nose = noseEdge(table, route.aim.rail);
  const depth = nose.offset - nose.nx * from.x - nose.ny * from.y;
  return { level: diamondOf(table, route.aim, from), part: depth / (depth + table.sightSetback) };
}
