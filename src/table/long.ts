/**
 * The sign of a miss, as players give it. A shot is long if the ball comes off its last cushion at
 * a wider angle than the target asks for, and short if at a narrower one.
 */

import { isLongRail, type Point, type Table } from './geometry.ts';
import { missAlong, type Route, targetLine } from './route.ts';
import type { Flight, Touch } from './shot.ts';

/**
 * Returns how far from the right place a ball has crossed the target's edge, in meters along that
 * edge; positive if long, negative if short.
 */
export function longBy(table: Table, route: Route, flight: Flight): number {
  const { end, touches } = flight;
  const last = touches[touches.length - 1];
  const target = targetLine(table, route.target);
  const miss = missAlong(target, end);
  if (!last) return miss;
  const { goal } = target;
  // The long side of the path is the side toward which the ball moves along the last cushion.
  const along = alongCushion(last, touches[touches.length - 2], flight, goal);
  const speed = Math.hypot(end.vx, end.vy);
  const path = { x: end.vx / speed, y: end.vy / speed };
  const forward = dot(along, path);
  const long = { x: along.x - forward * path.x, y: along.y - forward * path.y };
  const sign = Math.sign(dot(long, { x: end.x - goal.x, y: end.y - goal.y }));
  return sign * Math.abs(miss);
}

/** Returns the unit vector along the last cushion, in the direction in which the ball moves. */
function alongCushion(last: Touch, before: Touch | undefined, flight: Flight, goal: Point): Point {
  // With one cushion, the direction from the line's start to its target decides, because the ball
  // itself may be sent back.
  const from = before?.at ?? flight.stretches[0]?.ball ?? last.at;
  const to = before ? last.at : goal;
  return isLongRail(last.rail)
    ? { x: Math.sign(to.x - from.x), y: 0 }
    : { x: 0, y: Math.sign(to.y - from.y) };
}

function dot(a: Point, b: Point): number {
  return a.x * b.x + a.y * b.y;
}
