/**
 * What a ball near a pocket meets first on a stretch. A jaw's rubber is convex, so the center of a
 * touching ball lies on one of three joined pieces: a line off the nose, an arc about the tip's center,
 * a line off the facing. The whole circle of that arc lies inside the corner of the two lines, so a
 * path that reaches the circle off the arc has met a line before: the earliest of the three counts.
 */

import type { Edge, Point } from './geometry.ts';
import { hypotenuse } from './hypotenuse.ts';
import { pointAlong, type Stretch, timeTo } from './motion.ts';
import type { Jaw, PocketShape } from './pocket.ts';

export const JAW_PARTS = ['nose', 'tip', 'facing'] as const;
export type JawPart = (typeof JAW_PARTS)[number];

/** `far`: another rail, or a nose too far from its tip to matter. `none`: nothing on this stretch. */
export interface Meeting {
  what: JawPart | 'fall' | 'far' | 'none';
  /** Seconds into the stretch; its end for `none`. */
  t: number;
  /** The jaw, if `what` is a part of one. */
  jaw: 0 | 1;
}

/** A ball this near to a tip touches it, meters. */
const CLOSE = 1e-10;
/**
 * A path this near to parallel (sine) passes a tip without a touch: it would cut in by radius ·
 * sine²/2, little more than CLOSE. A ball that comes along the rail passes in this way.
 */
const GRAZING = 1e-4;
/** Steps in which a grazing ball passes, seconds. If it is pressed in during a step, it touches. */
const PASSING_STEP = 1e-6;
/** Steps towards a tip. A hit takes three to eight, a near miss up to about thirty. */
const MAX_STEPS = 1000;

const found: Meeting = { what: 'none', t: 0, jaw: 0 };

/** The first meeting of a stretch. Each call reuses the result. */
export function firstMeeting(shape: PocketShape, ballRadius: number, stretch: Stretch): Meeting {
  found.what = 'none';
  found.t = stretch.duration;
  keepEarlier('fall', timeTo(stretch, shape.fall), 0);
  for (const edge of shape.otherRails) keepEarlier('far', timeTo(stretch, edge), 0);
  meetLines(shape.jaws[0], 0, stretch);
  meetLines(shape.jaws[1], 1, stretch);
  // Last: the time found so far bounds the search.
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
 * When the ball's center first enters a circle, seconds; null if it does not before `limit`.
 * For distance D with rate D′, D(h) ≥ D + D′h − |a|h²/2, because passing by only adds. A step to where
 * that bound reaches the circle never passes a crossing, however short the cut through the circle,
 * and converges on it like Newton's.
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
  // Only at the circle are steps so short.
  return t;
}

/** Unit vector from the ball's center into the part of the jaw it touches. */
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
