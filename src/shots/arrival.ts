/**
 * Computes where a shot arrives on a table, in diamonds long or short of its pocket
 * (beside-pocket.ts).
 */

import {
  ballOnLine,
  continueFlight,
  onTable,
  type Passage,
  passCushions,
  type Setting,
  touchEdge,
  touchInPocket,
} from '../table/index.ts';
import { missAt, openingOf, railsBeside } from './beside-pocket.ts';
import { launchAt, type PlannedShot } from './shot.ts';

/** The expected arrival of a shot. */
export interface Arrival {
  /**
   * How far it is from the pocket along the rail that it reaches, in diamonds; positive if long.
   */
  readonly miss: number;
  /** How far the arrival moves per diamond of aim, in diamonds. */
  readonly slope: number;
}

/**
 * The step of aim to either side for a difference quotient, in diamonds: the printed step of a
 * chart.
 */
const BESIDE = 0.1;

/**
 * Returns where a shot arrives on a table that plays as the setting says, and how the arrival moves
 * with the aim. The arrival is continuous in the aim, even through the pocket. The slope jumps
 * where the rail turns a corner.
 * @returns null if the ball reaches no rail beside its pocket, or enters another pocket first
 */
export function arrivalOf(setting: Setting, shot: PlannedShot): Arrival | null {
  const miss = missOf(setting, shot);
  if (miss === null) return null;
  const low = missOf(setting, { ...shot, aim: shot.aim - BESIDE });
  const high = missOf(setting, { ...shot, aim: shot.aim + BESIDE });
  const width = (low === null ? 0 : BESIDE) + (high === null ? 0 : BESIDE);
  return width === 0 ? null : { miss, slope: ((high ?? miss) - (low ?? miss)) / width };
}

/** Returns only the miss of a shot, in diamonds; null as in `arrivalOf`. */
export function missOf(setting: Setting, shot: PlannedShot): number | null {
  const passage = passageOf(setting, shot);
  if (!passage || touchInPocket(setting.table, passage.touches)) return null;
  const beside = railsBeside(setting.table, shot.route, shot.start);
  const ends = [beside.short, beside.long].flatMap(({ rail, along }) => {
    const flight = continueFlight(setting, passage, touchEdge(setting.table, rail));
    const time = flight.stretches.reduce((sum, { duration }) => sum + duration, 0);
    return flight.arrived ? [{ along, time, end: flight.end }] : [];
  });
  const first = ends.sort((a, b) => a.time - b.time)[0];
  return first ? missAt(setting.table, beside, first.along, first.end) : null;
}

/** Returns the ball of a shot as it leaves its last cushion; null if there is no such line. */
export function passageOf(setting: Setting, shot: PlannedShot): Passage | null {
  const ball = ballOnLine(setting, shot.route, shot.start, shot.aim, launchAt(setting, shot));
  if (!ball || !onTable(setting.table, ball)) return null;
  const passage = passCushions(setting, ball, shot.route.cushions);
  return passage.ball ? passage : null;
}

/**
 * Returns the seen miss minus the expected one, in diamonds along the rail. For a made shot it
 * tells how far the ball was expected to miss the pocket opening. Null if the ball does not arrive.
 */
export function residualAt(
  setting: Setting,
  shot: PlannedShot,
  seen: number | null,
): number | null {
  const expected = missOf(setting, shot);
  if (expected === null) return null;
  if (seen !== null) return seen - expected;
  const open = openingOf(setting.table, shot.route);
  return -Math.sign(expected) * Math.max(0, Math.abs(expected) - open);
}
