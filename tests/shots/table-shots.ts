/** Test shots on a table that differs a little from the chart's, for tests and the bench. */

import type { Pattern } from '../../src/charts/index.ts';
import { missOf } from '../../src/shots/arrival.ts';
import type { TableShot } from '../../src/shots/index.ts';
import { playIntoPocket, type Setting } from '../../src/table/index.ts';
import { endByOde } from '../oracle/shot.ts';

export interface Errors {
  /** Standard deviation of the aim, diamonds. */
  readonly aim: number;
  /** Arrivals are rounded to this, diamonds; 0 for exact ones. */
  readonly step: number;
}

export const NONE: Errors = { aim: 0, step: 0 };
/** A club player aims to a twentieth and sees arrivals to a quarter. Common practice, no source. */
export const CLUB_PLAYER: Errors = { aim: 0.05, step: 0.25 };

/** A called shot, and how far beside the called number the ball is sent. */
export interface Called extends Omit<TableShot, 'miss'> {
  readonly route: Pattern;
  readonly beside?: number;
}

/** A normally distributed number, by Box & Muller. */
export function bell(dice: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - dice())) * Math.cos(2 * Math.PI * dice());
}

/** Plays a shot on a table and reads its arrival; null if it does not arrive. */
export function readAt(
  setting: Setting,
  { route, beside = 0, ...called }: Called,
  errors: Errors,
  dice: () => number,
): TableShot | null {
  const aim = called.aim + beside + errors.aim * bell(dice);
  const { pattern, start, speed } = called;
  const launch = { ...route.stroke, speed: setting.condition.speeds[speed] };
  const drops = playIntoPocket(setting, route, start, aim, launch)?.kind === 'drops';
  if (drops) return { ...called, miss: null };
  const miss = missOf(setting, { route, start, speed, aim });
  if (miss === null) return null;
  const seen = errors.step === 0 ? miss : Math.round(miss / errors.step) * errors.step;
  return { pattern, start, speed, aim: called.aim, miss: seen };
}

/** By hand: from a diamond, counted from foot and left, to the miss along each rail beside a pocket. */
const BY_HAND = {
  // Off the foot rail, long is nearer to it.
  'foot-to-side': [{ rail: 'right', miss: (d: number) => 4 - d }],
  'foot-to-far-corner': [
    { rail: 'head', miss: (d: number) => d - 4 },
    { rail: 'right', miss: (d: number) => 8 - d },
  ],
  // Across the table, long is further towards the foot.
  'cross-side': [{ rail: 'left', miss: (d: number) => 4 - d }],
  'cross-corner': [
    { rail: 'left', miss: (d: number) => -d },
    { rail: 'foot', miss: (d: number) => d },
  ],
} as const;
export type ByHand = keyof typeof BY_HAND;
export const ODE_PATTERNS = Object.keys(BY_HAND) as readonly ByHand[];
/** 12.5 in: a 9 ft table's 100 in by 8 (WPA equipment specifications). */
const DIAMOND = 0.3175;

/**
 * The same shot by a general ODE solver on an independent version of the model (tests/oracle), read by
 * hand on the 9 ft table, without our own code for arrivals.
 */
export function missByOde(setting: Setting, { route, start, speed, aim }: Called): number {
  const launch = { ...route.stroke, speed: setting.condition.speeds[speed] };
  for (const { rail, miss } of BY_HAND[route.id as ByHand]) {
    const long = rail === 'left' || rail === 'right';
    const count = { rail, from: long ? 'foot' : 'left' } as const;
    const atRail = { ...route, target: { kind: 'rail', count, diamond: 2 } as const };
    const shot = { setting, route: atRail, start, aim, launch };
    const { ball, crossed } = endByOde(shot, { tolerance: 1e-9, creep: 1e-6 });
    const along = miss((long ? ball.x : ball.y) / DIAMOND);
    // Beyond the corner, the ball meets the other rail first.
    const beyond = rail === 'head' || rail === 'left' ? along > 0 : along < 0;
    if (crossed && (BY_HAND[route.id as ByHand].length === 1 || !beyond)) return along;
  }
  throw new Error(`${route.id} from ${start} through ${aim} does not arrive`);
}
