/**
 * Whether a kicked ball hits the object ball, and how full. Standard ball-fraction geometry: with b
 * the distance from the object ball's center to the tangent of the kicked ball's path at the contact,
 * the fullness is 1 − b/(2R): 1 is full, 0.5 half ball, 0 a graze. It follows that the cut angle φ has
 * sin φ = 1 − fullness.
 */

import type { Point, Table } from './geometry.ts';
import { hypotenuse } from './hypotenuse.ts';
import { timeToCircle } from './meeting.ts';
import { pointAlong, type Stretch } from './motion.ts';

export interface Hit {
  /** 0 (a graze) to 1 (full). */
  readonly fullness: number;
  /** Center of the kicked ball as it touches the other, meters: the ghost ball. */
  readonly at: Point;
}

export interface HitOnPath {
  readonly hit: Hit;
  /** The path up to the hit. */
  readonly stretches: readonly Stretch[];
}

/**
 * The first contact with a ball at rest on a path of joined stretches; null if the path passes it.
 * Found to 1e-10 m in the distance of the two centers; a contact that would cut in by less than
 * 3e-10 m is none (meeting.ts). A ball without size hits nothing.
 * @param center of the object ball, meters
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
 * The fullness of a contact.
 * @param at center of the kicked ball, meters
 * @param velocity its velocity, in any unit; not 0
 * @param center of the object ball, meters
 */
export function fullnessAt(table: Table, at: Point, velocity: Point, centre: Point): number {
  const speed = hypotenuse(velocity.x, velocity.y);
  if (!(speed > 0)) throw new RangeError(`no direction to hit in: ${velocity.x}, ${velocity.y}`);
  const b = Math.abs(velocity.x * (centre.y - at.y) - velocity.y * (centre.x - at.x)) / speed;
  // At a graze b is 2R, or a little more by rounding.
  return Math.max(0, 1 - b / (2 * table.ballRadius));
}

/**
 * Does a ball touch the object ball, or lie against it, before its last cushion? Then it is no kick.
 * @param stretchesBeforeLastCushion the path from the start to the last cushion
 * @param point center of the object ball, meters
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
