/** A shot: a line named by two sights, played at a speed from its start to where the ball arrives. */

import { type Condition, contactSine } from './condition.ts';
import { cushionImpact } from './cushion.ts';
import {
  type Edge,
  outward,
  type Point,
  pocketInRail,
  RAILS,
  type Rail,
  sightAt,
  type Table,
  touchEdge,
} from './geometry.ts';
import { hypotenuse } from './hypotenuse.ts';
import { runningSense } from './mirror.ts';
import { type Ball, ballAlong, type Stretch, stretchFrom, timeTo } from './motion.ts';
import type { Route } from './route.ts';

/** How the ball is struck. Offsets are fractions of the ball's radius, |offset| ≤ 0.5. */
export interface Launch {
  readonly speed: number;
  /** Positive above center (follow), negative below center (draw). */
  readonly follow?: number;
  /** Positive if the tip is right of center. */
  readonly side?: number;
  /**
   * Positive for side that runs with the first cushion and lengthens the angle, negative for
   * reverse side.
   */
  readonly running?: number;
  /**
   * How far along the line the ball is from the place where it clears the start rail, in meters.
   */
  readonly partWay?: number;
  /**
   * The same distance as a share of the path to the first cushion, 0 ≤ along < 1; added to
   * `partWay`.
   */
  readonly along?: number;
}

export interface Setting {
  readonly table: Table;
  readonly condition: Condition;
}

export interface Touch {
  readonly rail: Rail;
  /** The ball's center as the ball touches the rail. */
  readonly at: Point;
  /** Angle between the incoming path and the perpendicular of the rail, in radians. */
  readonly angle: number;
}

/** The path of a ball that meets only its route's cushions. */
export interface Flight {
  readonly stretches: readonly Stretch[];
  readonly touches: readonly Touch[];
  /** The ball as it crosses the last edge, or the ball at rest before that edge. */
  readonly end: Ball;
  readonly arrived: boolean;
}

/**
 * Returns the ball at the start of a line. It is between the two sights, where it just clears the
 * start rail (its center is one radius from the nose), or part of the way from there to the first
 * cushion.
 * @returns null if the line does not leave the start rail
 */
export function ballOnLine(
  { table }: Setting,
  route: Route,
  start: number,
  aim: number,
  launch: Launch,
): Ball | null {
  const from = sightAt(table, route.start, start);
  const through = sightAt(table, route.aim, aim);
  const span = hypotenuse(through.x - from.x, through.y - from.y);
  const direction = { x: (through.x - from.x) / span, y: (through.y - from.y) / span };
  const out = outward(route.start.rail);
  const leaving = -(out.x * direction.x + out.y * direction.y);
  if (!(leaving > 1e-9)) return null;
  const clear = (table.sightSetback + table.ballRadius) / leaving;
  const { along = 0, partWay = 0, running = 0 } = launch;
  const share = along && along * pathToTouch(table, route, from, direction, clear);
  const run = clear + share + partWay;
  const at = { x: from.x + run * direction.x, y: from.y + run * direction.y };
  const side = (launch.side ?? 0) + (running && running * runningSense(table, route, start));
  return struck(at, direction, launch, side);
}

/**
 * Returns the distance from where the ball clears the start rail to where it touches the first
 * cushion, in meters.
 */
function pathToTouch(
  table: Table,
  route: Route,
  from: Point,
  direction: Point,
  clear: number,
): number {
  const edge = touchEdge(table, route.cushions[0]);
  const gap = edge.offset - edge.nx * from.x - edge.ny * from.y;
  return Math.max(0, gap / (edge.nx * direction.x + edge.ny * direction.y) - clear);
}

/**
 * Returns a ball just after it is struck. A tip offset of b radii gives the rim speed 5/2 b v (the
 * impulse times its lever, over 2/5 m R²). Follow spins the ball about the horizontal axis across
 * the line, side about the vertical axis.
 */
function struck(at: Point, { x, y }: Point, { speed, follow = 0 }: Launch, side: number): Ball {
  return {
    x: at.x,
    y: at.y,
    vx: speed * x,
    vy: speed * y,
    wx: -2.5 * follow * speed * y,
    wy: 2.5 * follow * speed * x,
    wz: 2.5 * side * speed,
  };
}

/** Plays a ball, sliding and rolling, until it crosses an edge or lies still. */
function runTo(
  setting: Setting,
  ball: Ball,
  edge: Edge,
  stretches: Stretch[],
): { ball: Ball; crossed: boolean } {
  const { table, condition } = setting;
  let at = ball;
  for (let stretch = stretchFrom(condition, at); stretch; stretch = stretchFrom(condition, at)) {
    const t = timeTo(stretch, edge);
    const duration = t ?? stretch.duration;
    if (!Number.isFinite(duration)) return { ball: at, crossed: false };
    stretches.push({ ...stretch, duration });
    const end = ballAlong(condition, stretch, duration, table.ballRadius);
    if (t !== null) return { ball: end, crossed: true };
    if (stretch.rolling) return { ball: { ...end, vx: 0, vy: 0, wx: 0, wy: 0 }, crossed: false };
    at = end;
  }
  return { ball: at, crossed: false };
}

/**
 * Returns the ball just after it rebounds from rubber; null if it was not moving into the rubber.
 * @param o unit vector from the ball into the rubber
 */
export function rebound(setting: Setting, ball: Ball, o: Point): Ball | null {
  const { condition, table } = setting;
  // The tangent t has t × o = up. So (t, o, up) is right-handed, and this is a rotation of the
  // axes.
  const t = { x: o.y, y: -o.x };
  const out = cushionImpact(
    {
      restitution: condition.restitution,
      noseFriction: condition.noseFriction,
      clothFriction: condition.slideFriction,
      contactSine: contactSine(table),
    },
    {
      vx: t.x * ball.vx + t.y * ball.vy,
      vy: o.x * ball.vx + o.y * ball.vy,
      wx: t.x * ball.wx + t.y * ball.wy,
      wy: o.x * ball.wx + o.y * ball.wy,
      wz: ball.wz,
    },
  );
  if (!out) return null;
  return {
    x: ball.x,
    y: ball.y,
    vx: t.x * out.vx + o.x * out.vy,
    vy: t.y * out.vx + o.y * out.vy,
    wx: t.x * out.wx + o.x * out.wy,
    wy: t.y * out.wx + o.y * out.wy,
    wz: out.wz,
  };
}

/**
 * Returns the first touch at a place where the rail has a pocket instead of a cushion; undefined if
 * there is none.
 */
export function touchInPocket(table: Table, touches: readonly Touch[]): Touch | undefined {
  return touches.find(({ rail, at }) => pocketInRail(table, rail, at) !== null);
}

/** A ball's path over its cushions. */
export interface Passage {
  readonly stretches: readonly Stretch[];
  readonly touches: readonly Touch[];
  /** The ball as it comes off the last cushion; null if it does not. */
  readonly ball: Ball | null;
  /** The same ball, or the ball where its path ended before. */
  readonly end: Ball;
}

/** Plays a ball over cushions in the given order. Every rail counts as endless. */
export function passCushions(setting: Setting, ball: Ball, cushions: readonly Rail[]): Passage {
  const stretches: Stretch[] = [];
  const touches: Touch[] = [];
  let at = ball;
  for (const rail of cushions) {
    const run = runTo(setting, at, touchEdge(setting.table, rail), stretches);
    if (!run.crossed) return { stretches, touches, ball: null, end: run.ball };
    touches.push(touchOf(rail, run.ball));
    const back = rebound(setting, run.ball, outward(rail));
    if (!back) return { stretches, touches, ball: null, end: run.ball };
    at = back;
  }
  return { stretches, touches, ball: at, end: at };
}

/**
 * Plays a ball over the route's cushions to the given last edge. Every rail counts as endless.
 * Callers must check afterward what the path runs into (solve.ts).
 */
export function fly(setting: Setting, ball: Ball, cushions: readonly Rail[], last: Edge): Flight {
  return continueFlight(setting, passCushions(setting, ball, cushions), last);
}

/** Plays a ball on from its last cushion to the last edge. */
export function continueFlight(setting: Setting, passage: Passage, last: Edge): Flight {
  const { stretches, touches, ball, end } = passage;
  if (!ball) return { stretches, touches, end, arrived: false };
  const ahead: Stretch[] = [];
  const run = runTo(setting, ball, last, ahead);
  return { stretches: [...stretches, ...ahead], touches, end: run.ball, arrived: run.crossed };
}

function touchOf(rail: Rail, ball: Ball): Touch {
  const o = outward(rail);
  const into = o.x * ball.vx + o.y * ball.vy;
  const across = Math.abs(o.y * ball.vx - o.x * ball.vy);
  return { rail, at: { x: ball.x, y: ball.y }, angle: Math.atan2(across, into) };
}

/** Where a ball first reaches a rail after its last cushion, or where it stops before. */
export interface Arrival {
  readonly rail: Rail | null;
  readonly at: Point;
  /** The path from the last cushion on. */
  readonly stretches: readonly Stretch[];
}

export function runToAnyRail(setting: Setting, ball: Ball): Arrival {
  const { table, condition } = setting;
  const stretches: Stretch[] = [];
  let at = ball;
  for (let stretch = stretchFrom(condition, at); stretch; stretch = stretchFrom(condition, at)) {
    let first = { rail: null as Rail | null, t: stretch.duration };
    for (const rail of RAILS) {
      const t = timeTo(stretch, touchEdge(table, rail));
      if (t !== null && t < first.t) first = { rail, t };
    }
    if (!Number.isFinite(first.t)) break;
    stretches.push({ ...stretch, duration: first.t });
    at = ballAlong(condition, stretch, first.t, table.ballRadius);
    if (first.rail || stretch.rolling) return { rail: first.rail, at, stretches };
  }
  return { rail: null, at, stretches };
}
