/** Test shots: as planned, and as played at a real table. */

import { type PatternId, patternOf } from '../charts/index.ts';
import type { Launch, Route, Setting, Speed, Stroke } from '../table/index.ts';

/** One test shot at a real table. */
export interface TableShot {
  readonly pattern: PatternId;
  /** The start, in diamonds. */
  readonly start: number;
  readonly speed: Speed;
  /** The number aimed at, in diamonds through the sight. */
  readonly aim: number;
  /**
   * How far the ball was from the pocket along the rail that it reached, in diamonds: + if long, −
   * if short; null if it was made.
   */
  readonly miss: number | null;
}

/** A line at a speed. */
export type LineSpeed = Pick<TableShot, 'pattern' | 'start' | 'speed'>;

/** What the model plays: a route, a start, an aim and a speed. */
export interface PlannedShot {
  readonly route: Route & { readonly stroke?: Stroke };
  readonly start: number;
  readonly aim: number;
  readonly speed: Speed;
}

export function plannedShot({ pattern, start, speed, aim }: TableShot): PlannedShot {
  return { route: patternOf(pattern), start, speed, aim };
}

export function launchAt({ condition }: Setting, { route, speed }: PlannedShot): Launch {
  return { ...route.stroke, speed: condition.speeds[speed] };
}
