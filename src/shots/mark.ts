/**
 * A mark across a ball's path: computes how far from it a shot passes, and which number goes
 * through it.
 */

import {
  continueFlight,
  diamondLength,
  divisions,
  type Edge,
  type Flight,
  missAlong,
  type Point,
  type Setting,
  touchInPocket,
} from '../table/index.ts';
import { passageOf } from './arrival.ts';
import { arrivalPoint } from './beside-pocket.ts';
import type { PlannedShot } from './shot.ts';

/**
 * A point at which the ball is looked for, and a line through that point across the ball's path.
 */
export interface Mark {
  readonly edge: Edge;
  readonly goal: Point;
}

const ROUNDS = 30;
/** A distance from the mark below this counts as none, in meters. */
const CLOSE = 1e-7;
/** Two aims at least this far apart, in diamonds, give a slope. */
const APART = 1e-3;

/**
 * Returns the mark at the place where a shot was seen to arrive, square to the path from its last
 * cushion.
 */
export function markOf(setting: Setting, played: PlannedShot, miss: number): Mark | null {
  const goal = arrivalPoint(setting.table, played.route, played.start, miss);
  const passage = passageOf(setting, played);
  const last = passage?.touches[passage.touches.length - 1];
  if (!last) return null;
  const [x, y] = [goal.x - last.at.x, goal.y - last.at.y];
  const far = Math.hypot(x, y);
  if (!(far > 0)) return null;
  const [nx, ny] = [x / far, y / far];
  return { edge: { nx, ny, offset: nx * goal.x + ny * goal.y }, goal };
}

/**
 * Returns how far beside a mark a shot's path passes, in meters; null if the ball does not get
 * there.
 */
export function besideMark(setting: Setting, played: PlannedShot, mark: Mark): number | null {
  const flight = flightTo(setting, played, mark);
  return flight && missAlong(mark, flight.end);
}

function flightTo(setting: Setting, played: PlannedShot, mark: Mark): Flight | null {
  const passage = passageOf(setting, played);
  if (!passage || touchInPocket(setting.table, passage.touches)) return null;
  const flight = continueFlight(setting, passage, mark.edge);
  return flight.arrived ? flight : null;
}

/**
 * Returns how far the path moves across a mark per diamond of aim, in meters. It is the slope of
 * the chord from a number to the one aimed at.
 */
export function chord(
  setting: Setting,
  played: PlannedShot,
  mark: Mark,
  number: number,
): number | null {
  const near = Math.abs(played.aim - number) < APART;
  const other = near ? number + APART : played.aim;
  const here = besideMark(setting, { ...played, aim: number }, mark);
  const there = besideMark(setting, { ...played, aim: other }, mark);
  const slope = here === null || there === null ? 0 : (there - here) / (other - number);
  return slope === 0 ? null : slope;
}

/**
 * Returns the number with a path through a mark, found by secant steps from the number aimed at.
 * @returns null if the steps leave the rail, or if the ball does not arrive
 */
export function numberThrough(setting: Setting, played: PlannedShot, mark: Mark): number | null {
  const most = divisions(played.route.aim.rail) + 1;
  const besideAt = (aim: number) => besideMark(setting, { ...played, aim }, mark);
  let a = played.aim;
  let atA = besideAt(a);
  let b = a + APART;
  for (let round = 0; round < ROUNDS && atA !== null && b > -1 && b < most; round++) {
    const atB = besideAt(b);
    if (atB === null) return null;
    if (Math.abs(atB) < CLOSE) return b;
    const next = Math.abs(b - a) < 1e-12 ? b : b - (atB * (b - a)) / (atB - atA);
    a = b;
    atA = atB;
    b = next;
  }
  return null;
}

/**
 * Returns the meters across a mark for a diamond along the rail. The eye reads along the rail and
 * the mark counts across the path, so this is a diamond times the sine of the angle between rail
 * and path.
 */
export function acrossPerDiamond(
  setting: Setting,
  played: PlannedShot,
  mark: Mark,
  number: number,
): number {
  const diamond = diamondLength(setting.table, 'left');
  const flight = flightTo(setting, { ...played, aim: number }, mark);
  if (!flight) return diamond;
  const { vx, vy } = flight.end;
  const across = railAxisAt(mark.goal, setting.table) === 'x' ? vy : vx;
  return (Math.abs(across) / Math.hypot(vx, vy)) * diamond;
}

/** Returns whether a ball that touches a rail at this point touches one along x or one along y. */
function railAxisAt({ y }: Point, { width, ballRadius }: Setting['table']): 'x' | 'y' {
  const hair = 1e-9;
  return Math.abs(y - ballRadius) < hair || Math.abs(y - width + ballRadius) < hair ? 'x' : 'y';
}
