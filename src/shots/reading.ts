/**
 * What a test shot says of the numbers. Everything is told in diamonds of aim: how far the number
 * aimed at is from the one with which the chart's table would have sent the ball where it went. That
 * is the correction the shot asks for by itself.
 */

import type { Chart } from '../charts/index.ts';
import { patternOf, shiftAt, toDecimal } from '../charts/index.ts';
import {
  continueFlight,
  diamondLength,
  divisions,
  type Edge,
  type Flight,
  isSidePocket,
  makeWindowOf,
  missAlong,
  type Point,
  type Setting,
  solveLine,
  type Target,
  targetLine,
  touchInPocket,
} from '../table/index.ts';
import { arrivalPoint, launchAt, passageOf, type TableShot, type Try } from './arrival.ts';
import type { Seen } from './noise.ts';

/** Where a ball is looked for: across its way, at the place it got to. */
export interface Mark {
  readonly edge: Edge;
  readonly goal: Point;
}

export interface Reading {
  readonly shot: TableShot;
  /** As the model plays it: set to agree with the chart's number (set-to-measured.ts). */
  readonly played: Try;
  /** The correction the shot asks for, diamonds of aim. */
  readonly seen: Seen;
  /** The number with which the chart's table would have sent the ball there. */
  readonly number: number;
  readonly mark: Mark;
  /** Metres across the mark for a diamond of aim: the chord from that number to the one aimed at. */
  readonly slope: number;
  /** Diamonds of aim from that number to the middle of what was seen. */
  readonly shift: number;
}

/**
 * How coarsely people say numbers and see arrivals: an aim to 0.1 and an arrival to a quarter of a
 * diamond, each error even over its step, whose standard deviation is step/√12. Common practice, no
 * source; the scale of the errors is estimated on top and is never below this.
 */
export const AIM_ERROR = 0.1 / Math.sqrt(12);
export const ARRIVAL_ERROR = 0.25 / Math.sqrt(12);

const ROUNDS = 30;
/** Metres across the mark that are no difference. */
const CLOSE = 1e-7;
/** Diamonds between two aims that are far enough apart to tell a slope by. */
const APART = 1e-3;

export function tryOf({ pattern, start, speed, aim }: TableShot): Try {
  return { route: patternOf(pattern), start, speed, aim };
}

/** What a shot says of a chart: of its measured numbers, as far as it asks for more than they do. */
export function readOn(chart: Chart, shot: TableShot): Reading | null {
  const { pattern, speed } = shot;
  const shift = shiftAt(chart, { pattern, start: toDecimal(shot.start) }, speed);
  return readShot(chart.setting, shot, shift);
}

/**
 * @param shift what is taken off the aim before it is played, where the chart's number is not the
 *   model's
 * @returns null if on the chart's table the ball does not get there: then it says nothing
 */
export function readShot(setting: Setting, shot: TableShot, shift = 0): Reading | null {
  const called = tryOf(shot);
  const played = { ...called, aim: called.aim - shift };
  return shot.miss === null
    ? readMade(setting, shot, played)
    : readMiss(setting, shot, played, shot.miss);
}

/** The error of an arrival is the eye's and the aim's. */
function readMiss(setting: Setting, shot: TableShot, played: Try, miss: number): Reading | null {
  const mark = markOf(setting, played, miss);
  const found = mark && numberTo(setting, played, mark);
  if (!mark || !found) return null;
  const { number, slope, perDiamond } = found;
  const eye = (ARRIVAL_ERROR * perDiamond) / Math.abs(slope);
  const noise = Math.hypot(AIM_ERROR, eye);
  const seen = { middle: played.aim - number, half: 0, noise };
  return { shot, played, seen, number, mark, slope, shift: 0 };
}

/**
 * A made shot says that its aim was in the make window of tonight's table. The window's width is
 * taken from the chart's table; where nothing is worked out to drop, or not from near the number, it
 * is the width of the mouth. Nobody misreads a made shot, so its error is the aim's alone.
 */
function readMade(setting: Setting, shot: TableShot, played: Try): Reading | null {
  const { route, start } = played;
  const launch = launchAt(setting, played);
  const solved = solveLine(setting, route, start, launch);
  if (solved.aim === null) return null;
  const number = solved.aim;
  const mark = targetLine(setting.table, route.target);
  const slope = chord(setting, played, mark, number);
  if (slope === null) return null;
  const window = makeWindowOf(setting, route, start, launch, number) ?? mouth(number, slope);
  const middle = (window.from + window.to) / 2;
  const half = (window.to - window.from) / 2;
  const seen = { middle: played.aim - middle, half, noise: AIM_ERROR };
  return { shot, played, seen, number, mark, slope, shift: middle - number };

  function mouth(at: number, across: number) {
    const to = mouthOf(setting.table, route.target) / 2 / Math.abs(across);
    return { from: at - to, to: at + to };
  }
}

/** Tip to tip. */
export function mouthOf({ cornerMouth, sideMouth }: Setting['table'], target: Target): number {
  return target.kind === 'pocket' && isSidePocket(target.pocket) ? sideMouth : cornerMouth;
}

/** Square to the way from the last cushion to the place that was read. */
function markOf(setting: Setting, played: Try, miss: number): Mark | null {
  const goal = arrivalPoint(setting.table, played, miss);
  const passage = passageOf(setting, played);
  const last = passage?.touches[passage.touches.length - 1];
  if (!last) return null;
  const [x, y] = [goal.x - last.at.x, goal.y - last.at.y];
  const far = Math.hypot(x, y);
  if (!(far > 0)) return null;
  const [nx, ny] = [x / far, y / far];
  return { edge: { nx, ny, offset: nx * goal.x + ny * goal.y }, goal };
}

/** How far a shot's path passes beside a mark, metres; null if it does not get there. */
export function besideMark(setting: Setting, played: Try, mark: Mark): number | null {
  const flight = flightTo(setting, played, mark);
  return flight && missAlong(mark, flight.end);
}

function flightTo(setting: Setting, played: Try, mark: Mark): Flight | null {
  const passage = passageOf(setting, played);
  if (!passage || touchInPocket(setting.table, passage.touches)) return null;
  const flight = continueFlight(setting, passage, mark.edge);
  return flight.arrived ? flight : null;
}

/** Metres across a mark per diamond of aim, from one number to the one that was aimed at. */
function chord(setting: Setting, played: Try, mark: Mark, number: number): number | null {
  const near = Math.abs(played.aim - number) < APART;
  const other = near ? number + APART : played.aim;
  const here = besideMark(setting, { ...played, aim: number }, mark);
  const there = besideMark(setting, { ...played, aim: other }, mark);
  const slope = here === null || there === null ? 0 : (there - here) / (other - number);
  return slope === 0 ? null : slope;
}

interface Found {
  readonly number: number;
  readonly slope: number;
  /** Metres across the mark for a diamond along the rail. */
  readonly perDiamond: number;
}

/** Secant steps from the number aimed at to the one whose path goes through the mark. */
function numberTo(setting: Setting, played: Try, mark: Mark): Found | null {
  const most = divisions(played.route.aim.rail) + 1;
  const at = (aim: number) => besideMark(setting, { ...played, aim }, mark);
  let a = played.aim;
  let atA = at(a);
  let b = a + APART;
  for (let round = 0; round < ROUNDS && atA !== null && b > -1 && b < most; round++) {
    const atB = at(b);
    if (atB === null) return null;
    const next = Math.abs(b - a) < 1e-12 ? b : b - (atB * (b - a)) / (atB - atA);
    if (Math.abs(atB) < CLOSE) {
      const slope = chord(setting, played, mark, b);
      return slope === null
        ? null
        : { number: b, slope, perDiamond: alongRail(setting, played, mark, b) };
    }
    a = b;
    atA = atB;
    b = next;
  }
  return null;
}

/** Along the rail the eye reads; across the way, the mark counts: the sine between rail and way. */
function alongRail(setting: Setting, played: Try, mark: Mark, number: number): number {
  const { table } = setting;
  const flight = flightTo(setting, { ...played, aim: number }, mark);
  const rail = arrivalRail(mark.goal, table);
  if (!flight) return diamondLength(table, 'left');
  const { vx, vy } = flight.end;
  const sine = Math.abs(rail === 'x' ? vy : vx) / Math.hypot(vx, vy);
  return sine * diamondLength(table, 'left');
}

/** Does a ball that touches there touch a rail that runs along x or along y. */
function arrivalRail({ y }: Point, { width, ballRadius }: Setting['table']): 'x' | 'y' {
  const hair = 1e-9;
  return Math.abs(y - ballRadius) < hair || Math.abs(y - width + ballRadius) < hair ? 'x' : 'y';
}
