/** Computes how a sheet's line arrives at medium speed: touch point, entry angle and drift. */

import {
  type Ball,
  diamondLength,
  diamondOf,
  type Flight,
  missAlong,
  playLine,
  type Setting,
  type Stroke,
  targetLine,
} from '../../table/index.ts';
import { type Aimed, playedAim, type SheetRequest } from './sheet-aims.ts';

/** How far the arrival moves if the line is not played as printed. */
export interface Drift {
  /**
   * How many meters the arrival moves along the target's edge per 0.1 diamond of aim, without sign.
   */
  readonly perTenth: number;
  /**
   * How many meters the arrival moves along the target's edge, without sign, if the ball is halfway
   * along the line to the first cushion instead of at the start rail; null if it then does not
   * arrive.
   */
  readonly halfWay: number | null;
}

export interface Arrival {
  /**
   * The diamond level with the ball where the ball touches the first cushion, in the aim's count.
   */
  readonly touch: number;
  /**
   * Angle between the arriving path and straight into the pocket, or the perpendicular of a rail,
   * in degrees.
   */
  readonly entryAngleDeg: number;
  readonly drift: Drift;
}

/**
 * Returns how a line arrives.
 * @returns null if the ball does not arrive
 */
export function arrivalOf(request: SheetRequest, start: number, aimed: Aimed): Arrival | null {
  const { setting, route } = request;
  const { edge } = targetLine(setting.table, route.target);
  const { flight } = aimed;
  if (!flight) return null;
  const [first] = touchesOf(request, start, aimed, flight);
  if (!first) throw new Error('a line touches its first cushion');
  // A solved line does not miss. If no line is solved, drift is measured from the given line's own
  // miss.
  const here = missOf(request, start, playedAim(aimed)) ?? 0;
  return {
    touch: diamondOf(setting.table, route.aim, first.at),
    entryAngleDeg: degreesFrom(edge, flight.end),
    drift: {
      perTenth: perTenth(request, start, aimed, here),
      halfWay: halfWay(request, start, aimed, here),
    },
  };
}

/**
 * Returns where the line's own number touches the cushions, even if the model otherwise plays a
 * different number.
 */
function touchesOf(
  { setting, route, stroke }: SheetRequest,
  start: number,
  { aim, shift }: Aimed,
  { touches }: Flight,
): Flight['touches'] {
  if (shift === 0) return touches;
  const launch = { ...stroke, speed: setting.condition.speeds.medium };
  const own = playLine(setting, route, start, aim, launch)?.touches ?? [];
  return own.length > 0 ? own : touches;
}

function degreesFrom(edge: { readonly nx: number; readonly ny: number }, { vx, vy }: Ball): number {
  const into = edge.nx * vx + edge.ny * vy;
  return (Math.atan2(Math.abs(edge.nx * vy - edge.ny * vx), into) * 180) / Math.PI;
}

/**
 * Returns how far the arrival moves for a tenth of aim. It plays half a tenth to either side, or to
 * one side only if the ball does not arrive from the other. The solver's own drift is too coarse:
 * it can be that of a neighboring line and off by a third.
 */
function perTenth(request: SheetRequest, start: number, aimed: Aimed, here: number): number {
  const moved = [-0.05, 0.05].flatMap((half) => {
    const there = missOf(request, start, playedAim(aimed) + half);
    return there === null ? [] : [Math.abs(there - here)];
  });
  const [one, other = one] = moved;
  return one === undefined || other === undefined ? Math.abs(aimed.drift ?? 0) / 10 : one + other;
}

function halfWay(request: SheetRequest, start: number, aimed: Aimed, here: number) {
  const miss = missOf(request, start, playedAim(aimed), { along: 0.5 });
  return miss === null ? null : Math.abs(miss - here);
}

/**
 * Returns how far from the target a ball at medium speed arrives, in meters; null if it does not
 * arrive.
 */
function missOf(
  { setting, route, stroke }: SheetRequest,
  start: number,
  aim: number,
  change: Stroke = {},
): number | null {
  const launch = { ...stroke, speed: setting.condition.speeds.medium, ...change };
  const flight = playLine(setting, route, start, aim, launch);
  return flight?.arrived ? missAlong(targetLine(setting.table, route.target), flight.end) : null;
}

/** Converts meters to diamonds of the long rail, the usual measure for a miss. */
export function inDiamonds({ table }: Setting, meters: number): number {
  return meters / diamondLength(table, 'left');
}
