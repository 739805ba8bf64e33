/** Computes where a ball is as time passes, to animate it. */

import { pointAlong, type Stretch } from '../table/index.ts';
import { type Frame, type Spot, spot } from './frame.ts';

export interface PathPoint extends Spot {
  /** The part of the total time that has passed, 0 to 1. */
  readonly offset: number;
}

/** Returns how long the whole path takes, in seconds. */
export function timeOf(stretches: readonly Stretch[]): number {
  return stretches.reduce((sum, stretch) => sum + stretch.duration, 0);
}

/**
 * Returns at least `count` spots of a ball's path at increasing times. Both ends and every change
 * of stretch are among them, because the animation moves in straight lines between spots and would
 * otherwise cut the corner at a cushion. The list is empty if the path takes no time or has no end.
 */
export function pathPoints(
  frame: Frame,
  stretches: readonly Stretch[],
  count: number,
): readonly PathPoint[] {
  const total = timeOf(stretches);
  if (!(total > 0) || !Number.isFinite(total)) return [];
  const points: PathPoint[] = [];
  let before = 0;
  for (const stretch of stretches) {
    if (!(stretch.duration > 0)) continue;
    const parts = Math.ceil((count * stretch.duration) / total);
    for (let n = points.length === 0 ? 0 : 1; n <= parts; n++) {
      const t = (n / parts) * stretch.duration;
      points.push({
        offset: Math.min(1, (before + t) / total),
        ...spot(frame, pointAlong(stretch, t)),
      });
    }
    before += stretch.duration;
  }
  return points.with(-1, { ...(points.at(-1) as PathPoint), offset: 1 });
}

/** Returns, for each point, the part of the path's length that is behind it, 0 to 1. */
export function lengthsBehind(points: readonly Spot[]): readonly number[] {
  let sum = 0;
  const behind = points.map((point, n) => {
    const before = points[n - 1] ?? point;
    sum += Math.hypot(point.x - before.x, point.y - before.y);
    return sum;
  });
  return behind.map((length) => (sum > 0 ? length / sum : 1));
}

/** The longest animation, in seconds. Longer paths are played faster. */
export const LONGEST = 3.5;

/**
 * Returns the seconds of animation per second of play. It is the same for all paths shown together.
 */
export function pace(paths: readonly (readonly Stretch[])[]): number {
  const longest = Math.max(0, ...paths.map(timeOf));
  return longest > LONGEST ? LONGEST / longest : 1;
}
