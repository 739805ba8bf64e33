/**
 * The line solver: from a start diamond, the diamond to aim through so that the ball's path crosses
 * the target. The full model is played for every trial; nothing is mirrored or tabulated.
 */

import { SPEEDS, type Speed } from './condition.ts';
import {
  diamondOf,
  divisions,
  type Edge,
  noseEdge,
  type Point,
  pocketInRail,
  sightAt,
  type Table,
  touchEdge,
} from './geometry.ts';
import { aimOf, missAlong, type Route, targetEdge, targetPoint } from './route.ts';
import { ballOnLine, type Flight, fly, type Launch, type Setting } from './shot.ts';

/** Why there is no number for a start. */
export const UNREACHABLE = [
  'does not reach',
  'lands in the pocket first',
  'no aim on this rail',
] as const;
export type Unreachable = (typeof UNREACHABLE)[number];

/** A number, unrounded diamonds on the first cushion's count; or null with the reason. */
export type SolvedLine =
  | { readonly aim: number; readonly why: null }
  | { readonly aim: null; readonly why: Unreachable };

/** Miss at the target below which an aim is taken, metres: 3e-7 of a diamond. */
const CLOSE = 1e-7;
const ROUNDS = 30;
/** Trials over the rail when the first guess leads nowhere. */
const GRID = 32;

/**
 * The aim-through number of one line at one launch.
 * @param start start diamond in the route's count
 */
export function solveLine(
  setting: Setting,
  route: Route,
  start: number,
  launch: Launch,
): SolvedLine {
  const rail = divisions(route.aim.rail);
  const target = aimOf(setting.table, route.target);
  const miss = (aim: number): number | null => {
    const ball = ballOnLine(setting, route, start, aim, launch);
    const flight = ball && fly(setting, ball, route.cushions, target.edge);
    return flight?.arrived ? missAlong(target, flight.end) : null;
  };
  const aim = secant(miss, mirrorAim(setting.table, route, start), rail) ?? search(miss, rail);
  if (typeof aim !== 'number') return { aim: null, why: aim };
  if (aim < 0 || aim > rail) return { aim: null, why: 'no aim on this rail' };
  const flight = playLine(setting, route, start, aim, launch);
  if (flight && dropsEarly(setting.table, route, flight)) {
    return { aim: null, why: 'lands in the pocket first' };
  }
  return { aim, why: null };
}

export type LineNumbers = Readonly<Record<Speed, SolvedLine>>;

/** The numbers of a line at the condition's three speeds, struck in the centre of the ball. */
export function solveSpeeds(setting: Setting, route: Route, start: number): LineNumbers {
  const [soft, medium, firm] = SPEEDS.map((speed) =>
    solveLine(setting, route, start, { speed: setting.condition.speeds[speed] }),
  ) as [SolvedLine, SolvedLine, SolvedLine];
  return { soft, medium, firm };
}

/** Plays a line up to its target's edge, taking each rail as endless. Null: no such line. */
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

function dropsEarly(table: Table, route: Route, flight: Flight): boolean {
  if (flight.touches.some((touch) => pocketInRail(table, touch.rail, touch.at))) return true;
  const { target } = route;
  return target.kind === 'rail' && pocketInRail(table, target.count.rail, flight.end) !== null;
}

/** The number an ideal mirror would give: the straight line on unfolded tables. A first guess. */
export function mirrorAim(table: Table, route: Route, start: number): number {
  let image = targetPoint(table, route.target);
  for (const rail of [...route.cushions].reverse()) image = reflect(image, touchEdge(table, rail));
  const from = sightAt(table, route.start, start);
  const nose = noseEdge(table, route.aim.rail);
  const edge = { ...nose, offset: nose.offset + table.sightSetback };
  const run = edge.nx * (image.x - from.x) + edge.ny * (image.y - from.y);
  const t = (edge.offset - edge.nx * from.x - edge.ny * from.y) / run;
  const at = { x: from.x + t * (image.x - from.x), y: from.y + t * (image.y - from.y) };
  return diamondOf(table, route.aim, at);
}

function reflect(p: Point, edge: Edge): Point {
  const out = edge.nx * p.x + edge.ny * p.y - edge.offset;
  return { x: p.x - 2 * out * edge.nx, y: p.y - 2 * out * edge.ny };
}

type Miss = (aim: number) => number | null;

/** Secant steps from a guess; null if they leave the rail by far, lose the target or do not end. */
function secant(miss: Miss, guess: number, rail: number): number | null {
  let a = Math.min(rail, Math.max(0, guess));
  let b = a + (a > rail / 2 ? -0.05 : 0.05);
  let atA = miss(a);
  for (let round = 0; round < ROUNDS; round++) {
    const atB = miss(b);
    if (atA === null || atB === null) return null;
    if (Math.abs(atB) < CLOSE) return b;
    const next = b - (atB * (b - a)) / (atB - atA);
    if (!(next > -1 && next < rail + 1)) return null;
    a = b;
    atA = atB;
    b = next;
  }
  return null;
}

/** Looks over the whole rail for a change of sign and closes in on it. */
function search(miss: Miss, rail: number): number | Unreachable {
  let lowAim = 0;
  let low: number | null = null;
  let reached = false;
  for (let n = 0; n <= GRID; n++) {
    const aim = (rail * n) / GRID;
    const here = miss(aim);
    reached ||= here !== null;
    if (low !== null && here !== null && low * here <= 0) return bisect(miss, lowAim, aim, low);
    lowAim = aim;
    low = here;
  }
  return reached ? 'no aim on this rail' : 'does not reach';
}

function bisect(miss: Miss, from: number, to: number, atFrom: number): number {
  let low = from;
  let high = to;
  for (let round = 0; round < 60; round++) {
    const middle = (low + high) / 2;
    const here = miss(middle);
    if (here === null || here * atFrom <= 0) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
