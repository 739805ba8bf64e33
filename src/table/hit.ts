/**
 * Does a kicked ball hit the ball it is sent to, and how full. Standard ball-fraction geometry: with
 * b the perpendicular distance from the kicked ball's path at the contact (its tangent there) to the
 * object ball's centre, the fullness is 1 − b/(2R): 1 is full, 0.5 half ball, 0 a graze. Derived from
 * it, the cut angle φ has sin φ = 1 − fullness.
 */

import type { Point, Table } from './geometry.ts';
import { hypotenuse } from './hypotenuse.ts';
import { timeToCircle } from './meeting.ts';
import { pointAlong, type Stretch } from './motion.ts';

export interface Hit {
  /** 0 (a graze) to 1 (full). */
  readonly fullness: number;
  /** Centre of the kicked ball as it touches the other, metres: the ghost-ball place. */
  readonly at: Point;
}

/** A hit, and the way up to it. */
export interface HitOnWay {
  readonly hit: Hit;
  readonly stretches: readonly Stretch[];
}

/**
 * The first contact with a ball at rest on a way of joined stretches; null if it passes. Decided by
 * the distance of the two centres along the parabolas, to 1e-10 m of 2R; a touch that would cut in
 * by less than 3e-10 m goes by (meeting.ts). A ball without size hits nothing.
 * @param centre of the ball that is to be hit, metres
 */
export function hitOnWay(
  table: Table,
  stretches: readonly Stretch[],
  centre: Point,
): HitOnWay | null {
  const reach = 2 * table.ballRadius;
  if (!(reach > 0)) return null;
  for (const [n, stretch] of stretches.entries()) {
    const t = timeToCircle(stretch, centre, reach, stretch.duration);
    if (t === null) continue;
    const at = pointAlong(stretch, t);
    const way = { x: stretch.ball.vx + stretch.ax * t, y: stretch.ball.vy + stretch.ay * t };
    const hit = { fullness: fullnessAt(table, at, way, centre), at };
    return { hit, stretches: [...stretches.slice(0, n), { ...stretch, duration: t }] };
  }
  return null;
}

/**
 * The fullness of a contact.
 * @param at centre of the kicked ball, metres
 * @param way its velocity, of any size but 0
 * @param centre of the ball that is hit, metres
 */
export function fullnessAt(table: Table, at: Point, way: Point, centre: Point): number {
  const speed = hypotenuse(way.x, way.y);
  if (!(speed > 0)) throw new RangeError(`no way to hit by: ${way.x}, ${way.y}`);
  const b = Math.abs(way.x * (centre.y - at.y) - way.y * (centre.x - at.x)) / speed;
  // At a graze b is 2R, and rounding may leave it a little more.
  return Math.max(0, 1 - b / (2 * table.ballRadius));
}

/**
 * Does a ball touch the object ball, or lie against it, on its way to the last cushion. Such a kick
 * is no kick: the ball is struck before the cushions have done their work.
 * @param stretchesBeforeLastCushion the way from the start up to the last cushion
 * @param point centre of the object ball, metres
 */
export function strikesFirst(
  table: Table,
  stretchesBeforeLastCushion: readonly Stretch[],
  point: Point,
): boolean {
  const reach = 2 * table.ballRadius;
  const lies = ({ x, y }: Point) => hypotenuse(x - point.x, y - point.y) <= reach;
  return (
    stretchesBeforeLastCushion.some(
      (stretch) => lies(stretch.ball) || lies(pointAlong(stretch, stretch.duration)),
    ) || hitOnWay(table, stretchesBeforeLastCushion, point) !== null
  );
}
