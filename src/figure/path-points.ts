/** Where a ball is as time goes on, for an animation of it. */

import { pointAlong, type Stretch } from '../table/index.ts';
import { type Frame, type Spot, spot } from './frame.ts';

export interface WayPoint extends Spot {
  /** Part of the whole time that has gone by, 0 to 1. */
  readonly offset: number;
}

/** How long the whole way takes, seconds. */
export function timeOf(stretches: readonly Stretch[]): number {
  return stretches.reduce((sum, stretch) => sum + stretch.duration, 0);
}

/**
 * Spots of a ball's way at increasing times, at least `count` of them, with both ends and every
 * change of stretch among them: between two spots a ball is drawn on a straight line, which would
 * else cut the corner at a cushion. Empty if no time goes by or the way has no end.
 */
export function wayPoints(
  frame: Frame,
  stretches: readonly Stretch[],
  count: number,
): readonly WayPoint[] {
  const total = timeOf(stretches);
  if (!(total > 0) || !Number.isFinite(total)) return [];
  const points: WayPoint[] = [];
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
  return points.with(-1, { ...(points.at(-1) as WayPoint), offset: 1 });
}

/** For each point the part of the way's length that lies behind it, 0 to 1. */
export function lengthsBehind(points: readonly Spot[]): readonly number[] {
  let sum = 0;
  const behind = points.map((point, n) => {
    const before = points[n - 1] ?? point;
    sum += Math.hypot(point.x - before.x, point.y - before.y);
    return sum;
  });
  return behind.map((length) => (sum > 0 ? length / sum : 1));
}

/** The longest that balls are watched, seconds: a longer way is shown faster. */
export const LONGEST = 3.5;

/** Seconds of watching for a second of play, the same for all ways that are shown together. */
export function pace(ways: readonly (readonly Stretch[])[]): number {
  const longest = Math.max(0, ...ways.map(timeOf));
  return longest > LONGEST ? LONGEST / longest : 1;
}
