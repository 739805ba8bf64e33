/**
 * A whole shot by the second implementation of the model: any number of cushions, any spin, any start
 * of the ball along its line. The tests and the bench share it. Only the ball at the start of its line
 * (the two sights and the tip) comes from src.
 */

import {
  type Ball,
  ballOnLine,
  contactSine,
  diamondLength,
  type Edge,
  fly,
  type Launch,
  noseEdge,
  outward,
  type Rail,
  type Route,
  type Setting,
  type Spinning,
  targetEdge,
} from '../../src/table/index.ts';
import { type Ended, runByBruteForce, runByOde } from './cloth.ts';
import { type Accuracy, impactByBruteForce, impactByOde } from './impact.ts';

export interface Shot {
  readonly setting: Setting;
  readonly route: Route;
  readonly start: number;
  readonly aim: number;
  readonly launch: Launch;
}

export function endOfOurs(shot: Shot): Ended {
  const { setting, route } = shot;
  const flight = fly(
    setting,
    ballOf(shot),
    route.cushions,
    targetEdge(setting.table, route.target),
  );
  return { ball: flight.end, crossed: flight.arrived };
}

/** The whole shot by odex. */
export function endByOde(shot: Shot, accuracy: Accuracy): Ended {
  const law = lawOf(shot.setting);
  const on = clothOf(shot.setting);
  return play(
    shot,
    (ball) => impactByOde(law, ball, accuracy),
    (ball, edge) => runByOde(on, ball, edge, Math.min(1e-8, accuracy.tolerance)),
  );
}

/**
 * The whole shot in small steps; impacts are extrapolated from two sizes of creep to none. Slow.
 * @param h step of the impulse, in units of the speed into the cushion
 */
export function endByBruteForce(shot: Shot, h = 2e-5): Ended {
  const law = lawOf(shot.setting);
  const on = clothOf(shot.setting);
  const impact = (ball: Spinning) => {
    const a = impactByBruteForce(law, ball, { h, creep: h });
    const b = impactByBruteForce(law, ball, { h, creep: 2 * h });
    return {
      vx: 2 * a.vx - b.vx,
      vy: 2 * a.vy - b.vy,
      wx: 2 * a.wx - b.wx,
      wy: 2 * a.wy - b.wy,
      wz: 2 * a.wz - b.wz,
    };
  };
  return play(shot, impact, (ball, edge) => runByBruteForce(on, ball, edge));
}

/** Angle from straight in beyond which an arrival is measured across the path. */
const GRAZING = Math.PI / 3;

/**
 * The distance between two ends of one shot, in diamonds of the long rail. Arrivals are compared along
 * the target's edge; where the path meets it at more than 60° from straight in, across the path and
 * doubled (cos 60°), because along the edge any error grows without bound. If either ball lies still,
 * the distance is between their positions, so that a ball that barely arrives and one that barely does
 * not are near each other.
 */
export function apart({ setting, route }: Shot, a: Ended, b: Ended): number {
  const edge = targetEdge(setting.table, route.target);
  const diamond = diamondLength(setting.table, 'left');
  const dx = b.ball.x - a.ball.x;
  const dy = b.ball.y - a.ball.y;
  if (!a.crossed || !b.crossed) return Math.hypot(dx, dy) / diamond;
  const straight = (edge.nx * b.ball.vx + edge.ny * b.ball.vy) / Math.hypot(b.ball.vx, b.ball.vy);
  const along = Math.abs(-edge.ny * dx + edge.nx * dy);
  return (along * Math.min(1, straight / Math.cos(GRAZING))) / diamond;
}

function ballOf({ setting, route, start, aim, launch }: Shot): Ball {
  const ball = ballOnLine(setting, route, start, aim, launch);
  if (!ball) throw new Error(`no line from ${start} through ${aim}`);
  return ball;
}

function clothOf({ condition, table }: Setting) {
  return { condition, ballRadius: table.ballRadius };
}

function lawOf({ condition, table }: Setting) {
  return {
    restitution: condition.restitution,
    noseFriction: condition.noseFriction,
    clothFriction: condition.slideFriction,
    contactSine: contactSine(table),
  };
}

function play(
  shot: Shot,
  impact: (ball: Spinning) => Spinning,
  run: (ball: Ball, edge: Edge) => Ended,
): Ended {
  const { table } = shot.setting;
  let ball = ballOf(shot);
  for (const rail of shot.route.cushions) {
    const nose = noseEdge(table, rail);
    const touch = run(ball, { ...nose, offset: nose.offset - table.ballRadius });
    if (!touch.crossed) return touch;
    ball = turned(touch.ball, rail, impact);
  }
  return run(ball, targetEdge(table, shot.route.target));
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
