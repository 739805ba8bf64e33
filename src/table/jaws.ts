/**
 * Plays a ball, after its last cushion, into a pocket. The ball may touch the noses beside the
 * pocket, its rounded tips and its facings, until it falls, stops or leaves.
 *
 * Tips and facings rebound by the law of the cushion (cushion.ts), with the nose's restitution and
 * height. Real facings are often stiffer and deader; no published figure is known. A ball falls as
 * soon as its center crosses the fall line. A tip that it touches later would only turn it further
 * in, and after a facing it has no cloth to come back on.
 */

import type { PocketName, Point } from './geometry.ts';
import { hypotenuse } from './hypotenuse.ts';
import { firstMeeting, intoJaw, type JawPart } from './meeting.ts';
import { type Ball, ballAlong, type Stretch, stretchFrom } from './motion.ts';
import { type PocketShape, pocketShape } from './pocket.ts';
import { rebound, type Setting } from './shot.ts';

export interface JawTouch {
  readonly part: JawPart;
  /** The jaw that the part belongs to, in the order of `pocketTips`. */
  readonly jaw: 0 | 1;
  /** The ball's center as the ball touches that part. */
  readonly at: Point;
}

/**
 * `drops`: the center crossed the fall line. `hangs`: the ball stopped in the jaws, or still
 * rattles after MAX_TOUCHES touches. `comes out`: it touched a tip or a facing and is back on the
 * table. `misses`: it touched neither, and either reached another rail or a far part of the nose,
 * or stopped on the table.
 */
export const POCKET_OUTCOMES = ['drops', 'hangs', 'comes out', 'misses'] as const;
type OutcomeKind = (typeof POCKET_OUTCOMES)[number];

interface Run {
  /** The parts of the pocket, and of the noses beside it, that the ball touched, in order. */
  readonly touches: readonly JawTouch[];
  /** The ball's path if it was recorded, otherwise empty. */
  readonly stretches: readonly Stretch[];
  readonly end: Ball;
}
export type PocketRun =
  | (Run & { readonly kind: Exclude<OutcomeKind, 'hangs'> })
  | (Run & { readonly kind: 'hangs'; readonly why: 'lies still' | 'still rattles' });

/**
 * After this many touches a ball counts as hanging. On the default cloth none of a hundred thousand
 * random balls touched more than eight times. On livelier cushions a ball may rattle longer, but by
 * then it is so slow that it counts as hanging.
 */
const MAX_TOUCHES = 12;
/** The most stretches and touches together. This is far more than MAX_TOUCHES allows. */
const MAX_MEETINGS = 100;

interface Progress {
  readonly setting: Setting;
  readonly shape: PocketShape;
  readonly touches: JawTouch[];
  readonly stretches: Stretch[];
}

/**
 * Plays a ball into a pocket.
 * @param ball a ball in front of the pocket and clear of its jaws, or just off the last cushion
 * @param record whether to keep the stretches, for drawing
 */
export function runIntoPocket(
  setting: Setting,
  ball: Ball,
  pocket: PocketName,
  record = false,
): PocketRun {
  const { condition, table } = setting;
  const shape = pocketShape(table, pocket);
  const run: Progress = { setting, shape, touches: [], stretches: [] };
  let at = ball;
  for (let count = 0; count < MAX_MEETINGS; count++) {
    const stretch = stretchFrom(condition, at);
    if (!stretch) return endAtRest(run, at);
    const { what, t, jaw } = firstMeeting(shape, table.ballRadius, stretch);
    if (!Number.isFinite(t)) return endAtRest(run, at);
    if (record) run.stretches.push({ ...stretch, duration: t });
    at = ballAlong(condition, stretch, t, table.ballRadius);
    if (what === 'fall') return { kind: 'drops', ...ending(run, at) };
    if (what === 'far') return { kind: outOrMiss(run), ...ending(run, at) };
    if (what !== 'none') {
      at = touch(run, at, what, jaw);
      if (run.touches.length >= MAX_TOUCHES) break;
    } else if (stretch.rolling) return endAtRest(run, stopped(at));
  }
  return { kind: 'hangs', why: 'still rattles', ...ending(run, at) };
}

/** Returns the ball just after a touch. A ball that only grazes is kept out of the rubber. */
function touch(run: Progress, ball: Ball, part: JawPart, jaw: 0 | 1): Ball {
  const into = intoJaw(run.shape.jaws[jaw], part, ball);
  const back = rebound(run.setting, ball, into);
  if (!back) return alongside(ball, into);
  run.touches.push({ part, jaw, at: { x: ball.x, y: ball.y } });
  return back;
}

function alongside(ball: Ball, into: Point): Ball {
  const speed = into.x * ball.vx + into.y * ball.vy;
  // The ball moves off the rubber as slowly as a graze moves into it, so that the next stretch can
  // begin.
  const change = speed + 1e-6 * hypotenuse(ball.vx, ball.vy);
  return { ...ball, vx: ball.vx - change * into.x, vy: ball.vy - change * into.y };
}

function stopped(ball: Ball): Ball {
  return { ...ball, vx: 0, vy: 0, wx: 0, wy: 0 };
}

function ending(run: Progress, end: Ball): Run {
  return { touches: run.touches, stretches: run.stretches, end };
}

function endAtRest(run: Progress, ball: Ball): PocketRun {
  if (liesInJaws(run.shape, run.setting.table.ballRadius, ball)) {
    return { kind: 'hangs', why: 'lies still', ...ending(run, ball) };
  }
  return { kind: outOrMiss(run), ...ending(run, ball) };
}

function outOrMiss(run: Progress): 'comes out' | 'misses' {
  return run.touches.some(({ part }) => part !== 'nose') ? 'comes out' : 'misses';
}

/** Returns whether part of the ball is past the line of the mouth, between the tips. */
function liesInJaws({ mouth, jaws }: PocketShape, ballRadius: number, ball: Ball): boolean {
  const [{ tip: a }, { tip: b }] = jaws;
  const depth = mouth.nx * ball.x + mouth.ny * ball.y - mouth.offset;
  const across = (ball.x - a.x) * (b.x - a.x) + (ball.y - a.y) * (b.y - a.y);
  const whole = (b.x - a.x) ** 2 + (b.y - a.y) ** 2;
  return depth > -ballRadius && across > 0 && across < whole;
}
