/**
 * The sign that players give a miss: long where the ball came off its last cushion at a wider angle
 * than the target asks for, short where it came off at a narrower one.
 */

import { isLongRail, type Table } from './geometry.ts';
import { missAlong, type Route, targetLine } from './route.ts';
import type { Flight } from './shot.ts';

/**
 * How far along the target's edge a ball that has crossed it is from the right place, metres; long
 * positive, short negative.
 */
export function longBy(table: Table, route: Route, flight: Flight): number {
  const { end, touches } = flight;
  const last = touches[touches.length - 1];
  const target = targetLine(table, route.target);
  const beside = missAlong(target, end);
  if (!last) return beside;
  const { goal } = target;
  // Along the last cushion, the way the ball went: on that side of the target a path is long.
  const along = isLongRail(last.rail) ? { x: 1, y: 0 } : { x: 0, y: 1 };
  const before = touches[touches.length - 2]?.at;
  // Off one cushion the way is the line's, from start to target: a ball may be sent the other way.
  const from = before ?? flight.stretches[0]?.ball ?? last.at;
  const to = before ? last.at : goal;
  const way = Math.sign(along.x * (to.x - from.x) + along.y * (to.y - from.y));
  const speed = Math.hypot(end.vx, end.vy);
  const d = { x: end.vx / speed, y: end.vy / speed };
  const forward = way * (along.x * d.x + along.y * d.y);
  const side = { x: way * along.x - forward * d.x, y: way * along.y - forward * d.y };
  const long = side.x * (end.x - goal.x) + side.y * (end.y - goal.y);
  return Math.sign(long) * Math.abs(beside);
}
