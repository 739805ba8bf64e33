/**
 * The ideal mirror: a bank is a straight line over tables that are unfolded at their cushions
 * (Heron).
 */

import {
  diamondOf,
  type Edge,
  noseEdge,
  outward,
  type Point,
  pointAt,
  sightAt,
  type Table,
  touchEdge,
} from './geometry.ts';
import { type Route, targetPoint } from './route.ts';

/** Returns the number that an ideal mirror would give, as a first guess. */
export function mirrorAim(table: Table, route: Route, start: number): number {
  let image = targetPoint(table, route.target);
  for (const rail of [...route.cushions].reverse()) image = reflect(image, touchEdge(table, rail));
  const from = sightAt(table, route.start, start);
  const nose = noseEdge(table, route.aim.rail);
  const edge = { ...nose, offset: nose.offset + table.sightSetback };
  const run = edge.nx * (image.x - from.x) + edge.ny * (image.y - from.y);
  const t = (edge.offset - edge.nx * from.x - edge.ny * from.y) / run;
  const at = { x: from.x + t * (image.x - from.x), y: from.y + t * (image.y - from.y) };
  return diamondOf(table, route.aim, at);
}

function reflect(p: Point, edge: Edge): Point {
  const out = edge.nx * p.x + edge.ny * p.y - edge.offset;
  return { x: p.x - 2 * out * edge.nx, y: p.y - 2 * out * edge.ny };
}

/**
 * Returns the sign of running side: +1 if the tip is right of center, −1 if left. Running side
 * spins the ball in the direction in which the first cushion would spin a ball that rolls along it.
 */
export function runningSense(table: Table, route: Route, start: number): number {
  const from = sightAt(table, route.start, start);
  const to = pointAt(table, route.aim, mirrorAim(table, route, start));
  const out = outward(route.aim.rail);
  return Math.sign((to.x - from.x) * out.y - (to.y - from.y) * out.x);
}
