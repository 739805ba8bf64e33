/** Computes how accurate the aim of a kick must be to hit the ball full enough. */

import { onTable } from './geometry.ts';
import { hitOnPath } from './hit.ts';
import { type Route, targetPoint } from './route.ts';
import {
  ballOnLine,
  type Launch,
  passCushions,
  runToAnyRail,
  type Setting,
  touchInPocket,
} from './shot.ts';

/** A half-ball hit is full enough for a kick (common practice, no source). */
const FULL_ENOUGH = 0.5;
/**
 * How exactly the ends of the room are found, in diamonds: a tenth of the finest decimal ever
 * printed.
 */
const FINE = 1e-5;

/**
 * Returns half the room in the aim of a kick, in diamonds through the sight: how far the aim may
 * move, on its narrower side, while the target ball is still hit at least half full. The result is
 * clamped to [least, most]. It is `least` if the aim itself does not hit the ball half full. The
 * search assumes that fullness falls on both sides of its peak, and is accurate to 1e-5 diamond.
 * @param start, aim, least, most in diamonds
 * @throws if the target is a pocket, or the bounds are not 0 ≤ least ≤ most
 */
export function hitHalfWidth(
  setting: Setting,
  route: Route,
  start: number,
  launch: Launch,
  aim: number,
  least: number,
  most: number,
): number {
  if (route.target.kind !== 'rail') throw new Error(`no ball to hit at ${route.target.pocket}`);
  if (!(least >= 0 && least <= most && most < Infinity)) {
    throw new RangeError(`not bounds of a width: ${least} to ${most}`);
  }
  const hits = (at: number) => hitsFullEnough(setting, route, start, at, launch);
  if (!hits(aim)) return least;
  const up = roomTo((by) => hits(aim + by), most);
  const down = roomTo((by) => hits(aim - by), up);
  return Math.max(least, down);
}

function hitsFullEnough(
  setting: Setting,
  route: Route,
  start: number,
  aim: number,
  launch: Launch,
): boolean {
  const { table } = setting;
  const ball = ballOnLine(setting, route, start, aim, launch);
  if (!ball || !onTable(table, ball)) return false;
  const passage = passCushions(setting, ball, route.cushions);
  if (!passage.ball || touchInPocket(table, passage.touches)) return false;
  const { stretches } = runToAnyRail(setting, passage.ball);
  const met = hitOnPath(table, stretches, targetPoint(table, route.target));
  return met !== null && met.hit.fullness >= FULL_ENOUGH;
}

/** Returns the largest `by`, up to `most`, for which `holds` is true. `holds` is true at 0. */
function roomTo(holds: (by: number) => boolean, most: number): number {
  if (holds(most)) return most;
  let inside = 0;
  let outside = most;
  while (outside - inside > FINE) {
    const middle = (inside + outside) / 2;
    if (holds(middle)) inside = middle;
    else outside = middle;
  }
  return inside;
}
