/**
 * Finds what a ball near a pocket meets first on a stretch. A jaw's rubber is convex, so the center
 * of a ball that touches it is on one of three joined pieces: a line along the nose, an arc around
 * the tip's center, or a line along the facing. The arc's whole circle is inside the corner of the
 * two lines. So a path that reaches the circle outside the arc has crossed a line before, and the
 * earliest of the three meetings counts.
 */

import type { Edge, Point } from './geometry.ts';
import { hypotenuse } from './hypotenuse.ts';
import { pointAlong, type Stretch, timeTo } from './motion.ts';
import type { Jaw, PocketShape } from './pocket.ts';

export const JAW_PARTS = ['nose', 'tip', 'facing'] as const;
export type JawPart = (typeof JAW_PARTS)[number];

/**
 * The first thing that the ball meets on a stretch. `far`: another rail, or a nose at a place too
 * far from its tip to matter. `none`: the ball meets nothing.
 */
export interface Meeting {
  what: JawPart | 'fall' | 'far' | 'none';
  /**
   * When the meeting happens, in seconds from the start of the stretch; for `none`, the stretch's
   * end.
   */
  t: number;
  /** The jaw that the part in `what` belongs to, if it is a part of a jaw. */
  jaw: 0 | 1;
}

/** A ball within this distance of a tip touches it, in meters. */
const CLOSE = 1e-10;
/**
 * A path passes a tip without a touch if the sine of the angle between them is below this. It would
 * cut in by radius · sine²/2, little more than CLOSE. A ball that comes along the rail passes in
 * this way.
 */
const GRAZING = 1e-4;
/**
 * A grazing ball passes the tip in steps of this length, in seconds. If it is pressed into the tip
 * during a step, it touches.
 */
const PASSING_STEP = 1e-6;
/** The most steps toward a tip. A hit takes three to eight, a near miss up to about thirty. */
const MAX_STEPS = 1000;

const found: Meeting = { what: 'none', t: 0, jaw: 0 };

/** Returns the first meeting on a stretch. Every call overwrites and returns the same object. */
export function firstMeeting(shape: PocketShape, ballRadius: number, stretch: Stretch): Meeting {
  found.what = 'none';
  found.t = stretch.duration;
  keepEarlier('fall', timeTo(stretch, shape.fall), 0);
  for (const edge of shape.otherRails) keepEarlier('far', timeTo(stretch, edge), 0);
  meetLines(shape.jaws[0], 0, stretch);
  meetLines(shape.jaws[1], 1, stretch);
  // The tips come last, because the time found so far bounds their search.
  meetTip(shape.jaws[0], 0, ballRadius, stretch);
  meetTip(shape.jaws[1], 1, ballRadius, stretch);
  return found;
}

function keepEarlier(what: Meeting['what'], t: number | null, jaw: 0 | 1): void {
  if (t === null || !(t < found.t)) return;
  found.what = what;
  found.t = t;
  found.jaw = jaw;
}

function meetLines(jaw: Jaw, index: 0 | 1, stretch: Stretch): void {
  const nose = timeTo(stretch, jaw.touchNose);
  if (nose !== null && nose < found.t) {
    const from = distanceAlong(stretch, nose, jaw.tip, jaw.alongNose);
    if (from >= jaw.straightFrom) keepEarlier(from > jaw.far ? 'far' : 'nose', nose, index);
  }
  const facing = timeTo(stretch, jaw.touchFacing);
  if (facing !== null && facing < found.t) {
    const from = distanceAlong(stretch, facing, jaw.tip, jaw.alongFacing);
    if (from >= jaw.straightFrom) keepEarlier('facing', facing, index);
  }
}

function distanceAlong(stretch: Stretch, t: number, origin: Point, direction: Point): number {
  const { x, y } = pointAlong(stretch, t);
  return (x - origin.x) * direction.x + (y - origin.y) * direction.y;
}

function meetTip(jaw: Jaw, index: 0 | 1, ballRadius: number, stretch: Stretch): void {
  const t = timeToCircle(stretch, jaw.centre, jaw.radius + ballRadius, found.t);
  keepEarlier('tip', t, index);
}

/**
 * Returns when the ball's center first enters a circle, in seconds; null if it does not before
 * `limit`. Let D be the distance to the circle's center, D′ its rate and a the acceleration. Then
 * D(h) ≥ D + D′h − |a|h²/2, because sideways motion only adds to D. Each step goes to where that
 * bound reaches the circle. So no step passes a crossing, however short the cut through the circle,
 * and the steps converge like Newton's method.
 */
export function timeToCircle(
  { ball, ax, ay }: Stretch,
  centre: Point,
  radius: number,
  limit: number,
): number | null {
  const a = hypotenuse(ax, ay);
  let t = 0;
  for (let step = 0; step < MAX_STEPS; step++) {
    const x = ball.x + (ball.vx + (ax * t) / 2) * t - centre.x;
    const y = ball.y + (ball.vy + (ay * t) / 2) * t - centre.y;
    const vx = ball.vx + ax * t;
    const vy = ball.vy + ay * t;
    const distance = hypotenuse(x, y);
    const rate = (x * vx + y * vy) / distance;
    const gap = Math.max(0, distance - radius);
    if (gap < CLOSE && rate < -GRAZING * hypotenuse(vx, vy)) return t;
    const root = Math.sqrt(rate * rate + 2 * a * gap);
    const h = rate > 0 ? (rate + root) / a : (2 * gap) / (root - rate);
    t += gap < CLOSE && !(h > PASSING_STEP) ? PASSING_STEP : h;
    if (!(t < limit)) return null;
  }
  // Steps are this short only at the circle.
  return t;
}

/** Returns the unit vector from the ball's center into the part of the jaw that it touches. */
export function intoJaw(jaw: Jaw, part: JawPart, at: Point): Point {
  if (part === 'tip') {
    const x = jaw.centre.x - at.x;
    const y = jaw.centre.y - at.y;
    const distance = hypotenuse(x, y);
    return { x: x / distance, y: y / distance };
  }
  const edge: Edge = part === 'nose' ? jaw.touchNose : jaw.touchFacing;
  return { x: edge.nx, y: edge.ny };
}
