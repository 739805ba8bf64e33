/**
 * A ball on the cloth: it slides, then rolls, then lies still. For the axes see geometry.ts.
 *
 * While the contact point slips, friction is constant in size and direction, so the center's path
 * is a parabola. For a slip u, the slide lasts 2u/(7 μs g). For rim speeds W, the ball then rolls
 * at 5/7 (Vx + 2/5 Wy, Vy − 2/5 Wx) (Coriolis 1835; Shepard). A rolling ball slows by μr g along a
 * straight line.
 */

import { type Condition, GRAVITY } from './condition.ts';
import type { Edge, Point } from './geometry.ts';
import { hypotenuse } from './hypotenuse.ts';

/** Center (m), velocity (m/s), and spin as rim speeds R·ω (m/s). */
export interface Ball {
  readonly x: number;
  readonly y: number;
  readonly vx: number;
  readonly vy: number;
  readonly wx: number;
  readonly wy: number;
  readonly wz: number;
}

/** A piece of path at constant acceleration: position + v t + a t²/2 for 0 ≤ t ≤ `duration` (s). */
export interface Stretch {
  readonly ball: Ball;
  readonly ax: number;
  readonly ay: number;
  readonly duration: number;
  readonly rolling: boolean;
}

/** Returns the velocity at which the ball will roll once it no longer slips. */
export function settledVelocity(ball: Ball): Point {
  return { x: (5 / 7) * (ball.vx + 0.4 * ball.wy), y: (5 / 7) * (ball.vy - 0.4 * ball.wx) };
}

/**
 * Returns the stretch that begins with this ball; null if the ball lies still. Without friction the
 * stretch has no end.
 */
export function stretchFrom(condition: Condition, ball: Ball): Stretch | null {
  const slipX = ball.vx - ball.wy;
  const slipY = ball.vy + ball.wx;
  const slip = hypotenuse(slipX, slipY);
  const speed = hypotenuse(ball.vx, ball.vy);
  // Slip that only rounding leaves at the end of a slide does not count as a slide.
  if (slip > 1e-9 * (speed + slip)) {
    const deceleration = condition.slideFriction * GRAVITY;
    return {
      ball,
      ax: (-deceleration * slipX) / slip,
      ay: (-deceleration * slipY) / slip,
      duration: (2 * slip) / (7 * deceleration),
      rolling: false,
    };
  }
  if (!(speed > 0)) return null;
  const deceleration = condition.rollFriction * GRAVITY;
  return {
    ball,
    ax: (-deceleration * ball.vx) / speed,
    ay: (-deceleration * ball.vy) / speed,
    duration: speed / deceleration,
    rolling: true,
  };
}

/** Returns the ball's center t seconds into a stretch. */
export function pointAlong({ ball, ax, ay }: Stretch, t: number): Point {
  return { x: ball.x + (ball.vx + (ax * t) / 2) * t, y: ball.y + (ball.vy + (ay * t) / 2) * t };
}

/** Returns the ball t seconds into a stretch, 0 ≤ t ≤ duration. */
export function ballAlong(
  condition: Condition,
  stretch: Stretch,
  t: number,
  ballRadius: number,
): Ball {
  const { ball, ax, ay } = stretch;
  const vx = ball.vx + ax * t;
  const vy = ball.vy + ay * t;
  const lost = condition.spinDecay * ballRadius * t;
  const wz = Math.sign(ball.wz) * Math.max(0, Math.abs(ball.wz) - lost);
  const { x, y } = pointAlong(stretch, t);
  if (stretch.rolling || t >= stretch.duration) return { x, y, vx, vy, wx: -vy, wy: vx, wz };
  return { x, y, vx, vy, wx: ball.wx + 2.5 * ay * t, wy: ball.wy - 2.5 * ax * t, wz };
}

/**
 * Returns when the ball's center first crosses an edge outward during a stretch, in seconds; null
 * if it does not. A ball that starts on the edge and moves inward is not crossing it.
 */
export function timeTo(stretch: Stretch, edge: Edge): number | null {
  const { ball, ax, ay, duration } = stretch;
  const gap = edge.nx * ball.x + edge.ny * ball.y - edge.offset;
  const v = edge.nx * ball.vx + edge.ny * ball.vy;
  const a = edge.nx * ax + edge.ny * ay;
  const square = v * v - 2 * a * gap;
  if (!(square >= 0)) return null;
  const root = Math.sqrt(square);
  // The root at which the outward speed is positive, in the form that avoids cancellation.
  const t = v > 0 ? (-2 * gap) / (v + root) : (root - v) / a;
  return t >= 0 && t <= duration ? t : null;
}
