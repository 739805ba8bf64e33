/**
 * The line solver: finds the diamond to aim through, from a start diamond, so that the ball's path
 * crosses the target. Every trial plays the full model; nothing is mirrored or tabulated.
 */

import { SPEEDS, type Speed } from './condition.ts';
import { divisions, type Edge, type Table, touchEdge } from './geometry.ts';
import { mirrorAim } from './mirror.ts';
import { crossesInPocket, missAlong, type Route, targetEdge, targetLine } from './route.ts';
import { ballOnLine, type Flight, fly, type Launch, type Setting, touchInPocket } from './shot.ts';

/** Why there is no number for a start. */
export const UNREACHABLE = [
  'does not reach',
  'lands in the pocket first',
  'no aim on this rail',
] as const;
export type Unreachable = (typeof UNREACHABLE)[number];

/** A number in unrounded diamonds on the first cushion's count, or null with the reason. */
export type SolvedLine =
  | {
      readonly aim: number;
      readonly why: null;
      /**
       * About how far the arrival moves along the target's edge per diamond of aim, in meters,
       * signed. It is the slope of the last secant, or the hint's drift if the hint was near
       * enough. It is good enough for the next guess.
       */
      readonly drift: number;
      /** The ball's path to the target with this number, accurate to CLOSE. */
      readonly flight: Flight;
    }
  | { readonly aim: null; readonly why: Unreachable };

/** A first guess for a line's number, and the drift to expect there. */
interface Hint {
  readonly aim: number;
  readonly drift: number;
}

/**
 * If the miss at the target is below this, in meters, a last secant step gives the number and is
 * not played. The number's error is CLOSE times the error of the slope; it is below 1e-8 diamond.
 */
const CLOSE = 1e-6;
const ROUNDS = 30;
/** How many intervals the rail is divided into for the search when secant steps fail. */
const GRID = 32;
/** The distance between the first two trials when the slope is unknown, in diamonds. */
const FIRST_STRIDE = 0.05;
/** Two shots at least this far apart, in diamonds, give a slope. */
const APART = 1e-4;
/**
 * If a bisected aim misses by more than this, in meters, the miss jumps there and there is no path
 * to the target.
 */
const FOUND = 1e-4;
const BISECTIONS = 60;

/**
 * Returns the aim-through number of one line at one launch.
 * @param start start diamond on the route's start count
 * @param hint a first guess instead of the mirror's. It changes the number by no more than the
 *   error of integration: below 5e-5 diamond, and below 1e-6 with one cushion.
 */
export function solveLine(
  setting: Setting,
  route: Route,
  start: number,
  launch: Launch,
  hint?: Hint,
): SolvedLine {
  const rail = divisions(route.aim.rail);
  const trial = trialOf(setting, route, start, launch);
  const guess = hint ?? { aim: mirrorAim(setting.table, route, start), drift: Number.NaN };
  const found = secant(trial, guess, rail) ?? search(trial, rail);
  if (typeof found === 'string') return { aim: null, why: found };
  const { aim, flight } = found;
  if (aim < 0 || aim > rail) return { aim: null, why: 'no aim on this rail' };
  if (dropsEarly(setting.table, route, flight)) {
    return { aim: null, why: 'lands in the pocket first' };
  }
  return { aim, why: null, drift: found.drift, flight };
}

export type LineNumbers = Readonly<Record<Speed, SolvedLine>>;

/** A launch without its speed. */
export type Stroke = Omit<Launch, 'speed'>;

/**
 * Returns the numbers of a line at the condition's three speeds. By default the ball is struck in
 * the center.
 */
export function solveSpeeds(
  setting: Setting,
  route: Route,
  start: number,
  stroke: Stroke = {},
): LineNumbers {
  const [line] = solveStarts(setting, route, [start], stroke);
  if (!line) throw new Error('one start has one line');
  return line;
}

/**
 * Returns the numbers of a whole pattern. Each search starts from an extrapolation of the starts
 * before it, so that two or three shots find a number.
 * @param starts start diamonds, in order
 */
export function solveStarts(
  setting: Setting,
  route: Route,
  starts: readonly number[],
  stroke: Stroke = {},
): readonly LineNumbers[] {
  const columns = SPEEDS.map((speed) => {
    const launch = { ...stroke, speed: setting.condition.speeds[speed] };
    const column: SolvedLine[] = [];
    starts.forEach((start, n) => {
      column.push(solveLine(setting, route, start, launch, hintFrom(starts, column, n)));
    });
    return column;
  });
  return starts.map((_, n) => {
    const [soft, medium, firm] = columns.map((column) => column[n]);
    if (!soft || !medium || !firm) throw new Error(`no line at ${n}`);
    return { soft, medium, firm };
  });
}

/**
 * Extrapolates the numbers of the starts before, by a parabola, a straight line or the last number
 * alone.
 */
function hintFrom(
  starts: readonly number[],
  solved: readonly SolvedLine[],
  n: number,
): Hint | undefined {
  const last = solved[n - 1];
  const before = solved[n - 2];
  if (last?.why !== null) return undefined;
  const { drift } = last;
  if (before?.why !== null) return { aim: last.aim, drift };
  const [x, x1, x2] = [starts[n], starts[n - 1], starts[n - 2]] as [number, number, number];
  const slope = (last.aim - before.aim) / (x1 - x2);
  const line = last.aim + slope * (x - x1);
  const first = solved[n - 3];
  if (first?.why !== null) return { aim: line, drift };
  const x3 = starts[n - 3] as number;
  const bend = (slope - (before.aim - first.aim) / (x2 - x3)) / (x1 - x3);
  return { aim: line + bend * (x - x1) * (x - x2), drift };
}

interface Trial {
  /**
   * Plays an aim and returns its miss along the target's edge, in meters; null if the ball does not
   * reach the edge.
   */
  readonly miss: (aim: number) => number | null;
  /** Returns whether the last shot stopped before it reached the target's edge. */
  readonly stoppedShort: () => boolean;
  /** Returns the last shot that reached the target's edge. */
  readonly flight: () => Flight;
}

function trialOf(setting: Setting, route: Route, start: number, launch: Launch): Trial {
  const target = targetLine(setting.table, route.target);
  let last: Flight | null = null;
  let short = false;
  return {
    miss: (aim) => {
      const ball = ballOnLine(setting, route, start, aim, launch);
      const flight = ball && fly(setting, ball, route.cushions, target.edge);
      short = flight !== null && stopsShort(setting.table, route, target.edge, flight);
      if (!flight?.arrived) return null;
      last = flight;
      return missAlong(target, flight.end);
    },
    stoppedShort: () => short,
    flight: () => {
      if (!last) throw new Error('no shot has reached the target');
      return last;
    },
  };
}

/** Returns whether the ball stops while it moves toward the next cushion or the last edge. */
function stopsShort(table: Table, route: Route, last: Edge, flight: Flight): boolean {
  const { arrived, end, touches, stretches } = flight;
  const from = stretches[stretches.length - 1]?.ball;
  if (arrived || !from || end.vx !== 0 || end.vy !== 0) return false;
  const next = route.cushions[touches.length];
  const edge = next ? touchEdge(table, next) : last;
  const toGo = edge.offset - edge.nx * end.x - edge.ny * end.y;
  return toGo > 0 && edge.nx * from.vx + edge.ny * from.vy > 0;
}

/**
 * Plays a line to its target's edge; every rail counts as endless. Returns null if there is no such
 * line.
 */
export function playLine(
  setting: Setting,
  route: Route,
  start: number,
  aim: number,
  launch: Launch,
): Flight | null {
  const ball = ballOnLine(setting, route, start, aim, launch);
  return ball && fly(setting, ball, route.cushions, targetEdge(setting.table, route.target));
}

/**
 * Returns whether the ball meets a pocket opening where it should meet a cushion or the target
 * ball.
 */
function dropsEarly(table: Table, route: Route, flight: Flight): boolean {
  if (touchInPocket(table, flight.touches)) return true;
  const { target } = route;
  return target.kind === 'rail' && crossesInPocket(table, target, flight.end);
}

interface Found {
  readonly aim: number;
  readonly drift: number;
  readonly flight: Flight;
}

/**
 * Takes secant steps from a guess. Returns null if they leave the rail by more than a diamond, if a
 * shot does not reach the target, or if they do not converge.
 */
function secant(trial: Trial, guess: Hint, rail: number): Found | null {
  let a = Math.min(rail, Math.max(0, guess.aim));
  let atA = trial.miss(a);
  if (atA === null) return null;
  const stride = a > rail / 2 ? -FIRST_STRIDE : FIRST_STRIDE;
  let b = a + (Number.isNaN(guess.drift) ? stride : -atA / guess.drift);
  let { drift } = guess;
  for (let round = 0; round < ROUNDS; round++) {
    if (!(b > -1 && b < rail + 1)) return null;
    const atB = trial.miss(b);
    if (atB === null) return null;
    // Two shots that are too close together differ by no more than the error of integration.
    if (Number.isNaN(drift) || Math.abs(b - a) > APART) drift = (atB - atA) / (b - a);
    const aim = b - atB / drift;
    if (Math.abs(atB) < CLOSE) return { aim, drift, flight: trial.flight() };
    a = b;
    atA = atB;
    b = aim;
  }
  return null;
}

/** Searches the whole rail for a change in the sign of the miss, and bisects there. */
function search(trial: Trial, rail: number): Found | Unreachable {
  const misses: (number | null)[] = [];
  const short: boolean[] = [];
  let nearest = -1;
  for (let n = 0; n <= GRID; n++) {
    const here = trial.miss((rail * n) / GRID);
    const before = misses[n - 1] ?? null;
    misses.push(here);
    short.push(trial.stoppedShort());
    if (here === null) continue;
    if (before !== null && before * here <= 0) {
      return bisect(trial, (rail * (n - 1)) / GRID, (rail * n) / GRID, before);
    }
    if (nearest < 0 || Math.abs(here) < Math.abs(misses[nearest] ?? 0)) nearest = n;
  }
  // If a shot next to the best one stops short, the ball is too slow to reach the target.
  const slow = nearest < 0 ? short.includes(true) : short[nearest - 1] || short[nearest + 1];
  return slow ? 'does not reach' : 'no aim on this rail';
}

function bisect(trial: Trial, from: number, to: number, atFrom: number): Found | Unreachable {
  let low = from;
  let high = to;
  for (let round = 0; round < BISECTIONS; round++) {
    const middle = (low + high) / 2;
    const here = trial.miss(middle);
    if (here === null || here * atFrom <= 0) high = middle;
    else low = middle;
  }
  const before = trial.miss(low - 10 * APART);
  const here = trial.miss(low);
  if (before === null || here === null || Math.abs(here) > FOUND) return 'no aim on this rail';
  return { aim: low, drift: (here - before) / (10 * APART), flight: trial.flight() };
}
