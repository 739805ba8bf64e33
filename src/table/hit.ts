/**
 * Finds whether a kicked ball hits the object ball, and how full. The geometry is the standard ball
 * fraction. Let b be the distance from the object ball's center to the tangent of the kicked ball's
 * path at the contact. Then the fullness is 1 − b/(2R): 1 is full, 0.5 is half ball, 0 is a graze.
 * It follows that the cut angle φ has sin φ = 1 − fullness.
 */

import type { Point, Table } from './geometry.ts';
import { hypotenuse } from './hypotenuse.ts';
import { timeToCircle } from './meeting.ts';
import { pointAlong, type Stretch } from './motion.ts';

export interface Hit {
  /** The fullness of the hit, from 0 (a graze) to 1 (full). */
  readonly fullness: number;
  /** Center of the kicked ball as it touches the object ball, in meters: the ghost ball. */
  readonly at: Point;
}

export interface HitOnPath {
  readonly hit: Hit;
  /** The path up to the hit. */
  readonly stretches: readonly Stretch[];
}

/**
 * Returns the first contact with a ball at rest along a path of joined stretches; null if the path
 * passes the ball. The distance between the two centers is accurate to 1e-10 m. A contact in which
 * the balls would overlap by less than 3e-10 m does not count (meeting.ts). A ball without size
 * hits nothing.
 * @param centre center of the object ball, in meters
 */
export function hitOnPath(
  table: Table,
  stretches: readonly Stretch[],
  centre: Point,
): HitOnPath | null {
  const reach = 2 * table.ballRadius;
  if (!(reach > 0)) return null;
  for (const [n, stretch] of stretches.entries()) {
    const t = timeToCircle(stretch, centre, reach, stretch.duration);
    if (t === null) continue;
    const at = pointAlong(stretch, t);
    const velocity = { x: stretch.ball.vx + stretch.ax * t, y: stretch.ball.vy + stretch.ay * t };
    const hit = { fullness: fullnessAt(table, at, velocity, centre), at };
    return { hit, stretches: [...stretches.slice(0, n), { ...stretch, duration: t }] };
  }
  return null;
}

/**
 * Returns the fullness of a contact.
 * @param at center of the kicked ball, in meters
 * @param velocity velocity of the kicked ball, in any unit; not 0
 * @param centre center of the object ball, in meters
 */
export function fullnessAt(table: Table, at: Point, velocity: Point, centre: Point): number {
  const speed = hypotenuse(velocity.x, velocity.y);
  if (!(speed > 0)) throw new RangeError(`no direction to hit in: ${velocity.x}, ${velocity.y}`);
  const b = Math.abs(velocity.x * (centre.y - at.y) - velocity.y * (centre.x - at.x)) / speed;
  // At a graze b is 2R, or a little more because of rounding.
  return Math.max(0, 1 - b / (2 * table.ballRadius));
}

/**
 * Returns whether a ball touches the object ball, or rests against it, before its last cushion. If
 * so, the shot is no kick.
 * @param stretchesBeforeLastCushion the path from the start to the last cushion
 * @param point center of the object ball, in meters
 */
export function strikesFirst(
  table: Table,
  stretchesBeforeLastCushion: readonly Stretch[],
  point: Point,
): boolean {
  const reach = 2 * table.ballRadius;
  const touches = ({ x, y }: Point) => hypotenuse(x - point.x, y - point.y) <= reach;
  return (
    stretchesBeforeLastCushion.some(
      (stretch) => touches(stretch.ball) || touches(pointAlong(stretch, stretch.duration)),
    ) || hitOnPath(table, stretchesBeforeLastCushion, point) !== null
  );
}
