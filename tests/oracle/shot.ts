/**
 * A whole one-cushion shot by the second writing of the model: slide, impact, slide, roll, each
 * handed to a general solver. Shared by the tests and the bench. Results are where the ball's centre
 * crosses the target's edge, metres along that edge.
 */

import {
  type Ball,
  ballOnLine,
  contactSine,
  noseEdge,
  outward,
  playLine,
  type Rail,
  type Route,
  type Setting,
  type Spinning,
  targetEdge,
} from '../../src/table/index.ts';
import { type Accuracy, impactByBruteForce, impactByOde, rollUntil } from './ode.ts';

export interface OneCushionShot {
  readonly route: Route;
  readonly start: number;
  readonly aim: number;
  /** m/s */
  readonly speed: number;
}

export function crossingOfOurs(setting: Setting, shot: OneCushionShot): number {
  const flight = playLine(setting, shot.route, shot.start, shot.aim, { speed: shot.speed });
  if (!flight?.arrived) throw new Error('the shot does not arrive');
  return along(setting, shot, flight.end);
}

/** Everything by odex. */
export function crossingByOde(setting: Setting, shot: OneCushionShot, accuracy: Accuracy): number {
  const law = lawOf(setting);
  return crossing(setting, shot, (ball) => impactByOde(law, ball, accuracy), accuracy.tolerance);
}

/** The impact by small fixed steps, at two sizes of creep, extrapolated towards none. Slow. */
export function crossingByBruteForce(setting: Setting, shot: OneCushionShot): number {
  const law = lawOf(setting);
  const by = (creep: number) =>
    crossing(setting, shot, (ball) => impactByBruteForce(law, ball, 2e-5, creep), 1e-10);
  return 2 * by(2e-5) - by(4e-5);
}

function lawOf({ condition, table }: Setting) {
  return {
    restitution: condition.restitution,
    noseFriction: condition.noseFriction,
    clothFriction: condition.slideFriction,
    contactSine: contactSine(table),
  };
}

function along(setting: Setting, shot: OneCushionShot, at: { x: number; y: number }): number {
  const edge = targetEdge(setting.table, shot.route.target);
  return -edge.ny * at.x + edge.nx * at.y;
}

function crossing(
  setting: Setting,
  shot: OneCushionShot,
  impact: (ball: Spinning) => Spinning,
  tolerance: number,
): number {
  const { table, condition } = setting;
  const ball = ballOnLine(setting, shot.route, shot.start, shot.aim, { speed: shot.speed });
  if (!ball) throw new Error('the shot has no line');
  const [rail] = shot.route.cushions;
  const nose = noseEdge(table, rail);
  const touch = { ...nose, offset: nose.offset - table.ballRadius };
  const back = turned(rollUntil(condition, ball, touch, tolerance), rail, impact);
  const end = rollUntil(condition, back, targetEdge(table, shot.route.target), tolerance);
  return along(setting, shot, end);
}

/** The impact in the cushion's frame: tangent t with t × outward = up. */
function turned(ball: Ball, rail: Rail, impact: (ball: Spinning) => Spinning): Ball {
  const o = outward(rail);
  const t = { x: o.y, y: -o.x };
  const out = impact({
    vx: t.x * ball.vx + t.y * ball.vy,
    vy: o.x * ball.vx + o.y * ball.vy,
    wx: t.x * ball.wx + t.y * ball.wy,
    wy: o.x * ball.wx + o.y * ball.wy,
    wz: ball.wz,
  });
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
