/**
 * The sign of a miss, as players give it: long if the ball comes off its last cushion at a wider angle
 * than the target asks for, short if at a narrower one.
 */

import { isLongRail, type Point, type Table } from './geometry.ts';
import { missAlong, type Route, targetLine } from './route.ts';
import type { Flight, Touch } from './shot.ts';

/**
 * How far along the target's edge a ball that has crossed it is from the right place, meters; long
 * positive, short negative.
 */
export function longBy(table: Table, route: Route, flight: Flight): number {
  const { end, touches } = flight;
  const last = touches[touches.length - 1];
  const target = targetLine(table, route.target);
  const miss = missAlong(target, end);
  if (!last) return miss;
  const { goal } = target;
  // Long is the side of the path to which the ball moves along the last cushion.
  const along = alongCushion(last, touches[touches.length - 2], flight, goal);
  const speed = Math.hypot(end.vx, end.vy);
  const path = { x: end.vx / speed, y: end.vy / speed };
  const forward = dot(along, path);
  const long = { x: along.x - forward * path.x, y: along.y - forward * path.y };
  const sign = Math.sign(dot(long, { x: end.x - goal.x, y: end.y - goal.y }));
  return sign * Math.abs(miss);
}

/** Unit vector along the last cushion, in the direction in which the ball moves along it. */
function alongCushion(last: Touch, before: Touch | undefined, flight: Flight, goal: Point): Point {
  // Off one cushion the line decides, from its start to its target: the ball itself may be sent back.
  const from = before?.at ?? flight.stretches[0]?.ball ?? last.at;
  const to = before ? last.at : goal;
  return isLongRail(last.rail)
    ? { x: Math.sign(to.x - from.x), y: 0 }
    : { x: 0, y: Math.sign(to.y - from.y) };
}

function dot(a: Point, b: Point): number {
  return a.x * b.x + a.y * b.y;
}
