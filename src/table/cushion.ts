/**
 * A ball against a cushion. The model is a rigid ball with one contact point on the nose (above the
 * ball's center), Coulomb friction at the nose and at the cloth during the impact, and energetic
 * restitution. The equations are integrated over the normal impulse, after the model of Mathavan,
 * Jackson & Parkin 2010, Proc. IMechE C 224(9):1863. Here they are derived from vectors.
 *
 * Frame: x runs along the cushion, y into it, z up. Speeds are in m/s. A spin is given as the rim
 * speed R·ω in m/s, so neither the radius nor the mass enters. The contact normal is n = (0, −c,
 * −s) with c = cos θ and s = sin θ. Friction at the nose acts in the plane of e1 = (1, 0, 0) and e2
 * = (0, −s, c).
 *
 * Impulses are divided by the mass m, and k = m R²/I = 5/2. Per unit of normal impulse, the
 * friction is μ a at the nose and ν N b at the cloth, with |a| ≤ 1 and |b| ≤ 1. N = s + μ c a2 is
 * the reaction that holds the ball on the cloth. The rates of the velocities and spins are:
 *
 *   dvx = −μ a1 − νN b1          dvy = −c + μ s a2 − νN b2
 *   dwx = k (−μ a2 − νN b2)      dwy = k (−μ s a1 + νN b1)      dwz = k μ c a1
 *
 * At a sliding contact, a (or b) points along the slip. A contact with a slip that vanishes sticks
 * if friction can hold it; otherwise it slips in the direction in which it is driven. Compression
 * ends when the speed into the cushion is zero. Restitution ends when e² of the work of compression
 * has been given back. Velocities are linear in the impulses, so only the impulses and the work are
 * integrated (impulse-step.ts). While the nose slides, the integration runs over ∫dp/|slip at the
 * nose| (friction.ts, `rates`). contacts.ts decides when contacts change.
 *
 * The error of one step is at most TOLERANCE of the speed into the cushion; the error of an impact
 * is some tens of times that. tests/table/against-ode.test.ts checks that whole shots agree with a
 * general solver to within 0.001 diamond.
 */

import { GONE, settle, shareHeld } from './contacts.ts';
import { rates } from './friction.ts';
import { hypotenuse } from './hypotenuse.ts';
import {
  type Impact,
  type Impulses,
  K,
  NORMAL,
  ROUNDING,
  SIZE,
  speedInto,
  WORK,
} from './impact.ts';
import { next, now, ratesNext, ratesNow, step } from './impulse-step.ts';

export interface Spinning {
  readonly vx: number;
  readonly vy: number;
  /** Rim speeds R·ωx, R·ωy, R·ωz. */
  readonly wx: number;
  readonly wy: number;
  readonly wz: number;
}

export interface CushionLaw {
  /** Energetic coefficient of restitution. */
  readonly restitution: number;
  readonly noseFriction: number;
  /** Friction at the cloth while the ball is against the nose. */
  readonly clothFriction: number;
  /** sin θ, where θ is the angle of the contact above the ball's center. */
  readonly contactSine: number;
}

/** Local error allowed per step, as a fraction of the speed into the cushion. */
const TOLERANCE = 1e-6;
/** A restitution below this counts as 0: the work it would give back is no more than rounding. */
const DEAD = 1e-6;
/**
 * Marks the work left at the end of restitution as not yet known: compression is still going on.
 */
const UNKNOWN = Number.NEGATIVE_INFINITY;
/** Marks that work for a dead cushion, where the impact ends as soon as compression does. */
const AT_ONCE = Number.POSITIVE_INFINITY;
/**
 * An impulse within this distance of the right one is corrected linearly. The error is then of the
 * order of this distance squared.
 */
const NEARLY = 2e-5;
const MAX_LANDINGS = 20;
/**
 * A path does not meet the cushion if the sine of the angle between them is below this (0.2 arc
 * seconds).
 */
const GRAZING = 1e-6;
/** A friction below this counts as 0, because its reciprocal would overflow. */
const FRICTIONLESS = 1e-9;
/**
 * The normal impulse that the first step covers, and the longest first step in the variable of
 * integration.
 */
const FIRST_STEP = 0.2;
const LONGEST_FIRST = 3;
/**
 * A rejected step is retried at no less than LEAST_RETRY times its length. The step after an
 * accepted one is at most MOST_GROWTH times as long.
 */
const LEAST_RETRY = 0.2;
const MOST_GROWTH = 4;
const MAX_STEPS = 5000;

/**
 * Returns the ball's motion just after it leaves the cushion. The result is homogeneous of degree
 * one in the speeds: a ball that comes in twice as fast leaves twice as fast.
 * @param ball motion just before the touch, in the cushion's frame
 * @returns null if the ball does not move into the cushion, or only grazes along it
 */
export function cushionImpact(law: CushionLaw, ball: Spinning): Spinning | null {
  if (!(ball.vy > GRAZING * hypotenuse(ball.vx, ball.vy))) return null;
  const impact = begin(law, ball);
  now.fill(0);
  integrate(impact, law.restitution);
  return leave(impact, ball);
}

function begin(law: CushionLaw, ball: Spinning): Impact {
  const s = law.contactSine;
  const c = Math.sqrt(1 - s * s);
  const nose1 = (ball.vx + ball.wy * s - ball.wz * c) / ball.vy;
  const nose2 = ball.wx / ball.vy - s;
  const cloth1 = (ball.vx - ball.wy) / ball.vy;
  const cloth2 = 1 + ball.wx / ball.vy;
  const nose = hypotenuse(nose1, nose2);
  const cloth = hypotenuse(cloth1, cloth2);
  return {
    mu: frictionOrNone(law.noseFriction),
    nu: frictionOrNone(law.clothFriction),
    s,
    c,
    rounding: ROUNDING * Math.max(1, nose, cloth),
    nose1,
    nose2,
    cloth1,
    cloth2,
    nose: nose < GONE ? 'stuck' : 'sliding',
    cloth: cloth < GONE ? 'stuck' : 'sliding',
  };
}

function frictionOrNone(coefficient: number): number {
  return coefficient < FRICTIONLESS ? 0 : coefficient;
}

/** Advances `now` from the first touch to the end of restitution. */
function integrate(impact: Impact, restitution: number): void {
  rates(impact, now, ratesNow);
  let limit = settle(impact);
  let h = firstStep();
  let workLeft = UNKNOWN;
  for (let count = 0; count < MAX_STEPS; count++) {
    const tried = Math.min(h, limit);
    const error = step(impact, tried);
    const share = shareAccepted(impact, error);
    if (share < 1) {
      h = tried * share;
      continue;
    }
    let length = tried;
    if (workLeft === UNKNOWN && speedInto(impact, next) <= 0) {
      length = landAtRest(impact, tried);
      workLeft = restitution < DEAD ? AT_ONCE : (1 - restitution * restitution) * next[WORK];
    }
    const ended = next[WORK] <= workLeft;
    if (ended && workLeft !== AT_ONCE) landAtWork(impact, length, workLeft);
    copy(next, now);
    if (ended) return;
    copy(ratesNext, ratesNow);
    const { nose, cloth } = impact;
    limit = settle(impact);
    const changed = nose !== impact.nose || cloth !== impact.cloth;
    h = changed ? firstStep() : followingStep(h, tried, error);
  }
  throw new Error(`cushion impact did not end: ${JSON.stringify(impact)}`);
}

/**
 * Returns the share of the last step to keep. It is less than 1 if the step's error is too large or
 * a contact changed.
 */
function shareAccepted(impact: Impact, error: number): number {
  return error > TOLERANCE
    ? Math.max(LEAST_RETRY, 0.9 * fourthRoot(TOLERANCE / error))
    : shareHeld(impact);
}

/**
 * Returns the length of the next step. The last step had the length `tried`, which a limit may have
 * cut down from h.
 */
function followingStep(h: number, tried: number, error: number): number {
  // The small addend prevents a division by 0 after a step without error.
  const grown = tried * Math.min(MOST_GROWTH, 0.8 * fourthRoot(TOLERANCE / (error + 1e-16)));
  return tried < h ? Math.max(h, grown) : grown;
}

/** Copies six numbers. A loop does this faster than `set`. */
function copy(from: Impulses, to: Impulses): void {
  for (let n = 0; n < SIZE; n++) to[n] = from[n] as number;
}

function firstStep(): number {
  return Math.min(LONGEST_FIRST, FIRST_STEP / ratesNow[NORMAL]);
}

function fourthRoot(x: number): number {
  return Math.sqrt(Math.sqrt(x));
}

/**
 * Shortens the last step so that it ends where the ball is at rest against the cushion.
 * @returns the step's new length
 */
function landAtRest(impact: Impact, longest: number): number {
  let h = zeroOf(
    longest,
    speedInto(impact, now),
    speedRate(impact, ratesNow),
    speedInto(impact, next),
    speedRate(impact, ratesNext),
  );
  for (let round = 0; round < MAX_LANDINGS; round++) {
    step(impact, h);
    const change = -speedInto(impact, next) / speedRate(impact, ratesNext);
    if (isNear(change)) {
      nudge(change);
      return h + change;
    }
    h = Math.min(longest, Math.max(0, h + change));
  }
  return h;
}

/** Shortens the last step so that it ends where restitution has given back its work. */
function landAtWork(impact: Impact, longest: number, workLeft: number): void {
  let h = zeroOf(
    longest,
    now[WORK] - workLeft,
    ratesNow[WORK],
    next[WORK] - workLeft,
    ratesNext[WORK],
  );
  for (let round = 0; round < MAX_LANDINGS; round++) {
    step(impact, h);
    const change = (workLeft - next[WORK]) / ratesNext[WORK];
    if (isNear(change)) {
      nudge(change);
      return;
    }
    h = Math.min(longest, Math.max(0, h + change));
  }
}

/** Returns the rate of the speed into the cushion for the given rates of the impulses. */
function speedRate({ s, c }: Impact, rate: Impulses): number {
  return -c * rate[NORMAL] + s * rate[1] - rate[3];
}

/**
 * Returns where in 0 … h a quantity is zero. The quantity falls from `from` > 0 to `to` ≤ 0 and has
 * the given slopes at the two ends. The result is the zero of the cubic that fits both ends, found
 * by Newton's method inside a bracket.
 */
function zeroOf(h: number, from: number, fromSlope: number, to: number, toSlope: number): number {
  if (!(to < from)) return h;
  const fall = to - from;
  const square = 3 * fall - h * (2 * fromSlope + toSlope);
  const cube = -2 * fall + h * (fromSlope + toSlope);
  let low = 0;
  let high = 1;
  let u = from / (from - to);
  for (let round = 0; round < 8; round++) {
    const value = from + u * (h * fromSlope + u * (square + u * cube));
    if (value > 0) low = u;
    else high = u;
    const slope = h * fromSlope + u * (2 * square + u * 3 * cube);
    const better = u - value / slope;
    u = better > low && better < high ? better : (low + high) / 2;
  }
  return u * h;
}

/**
 * Returns whether a change in the step's length is so small, as an impulse, that the rates do not
 * change over it.
 */
function isNear(change: number): boolean {
  return Math.abs(change) * ratesNext[NORMAL] < NEARLY;
}

/** Moves `next` on by a length so small that its rates do not change. */
function nudge(by: number): void {
  for (let n = 0; n < SIZE; n++) next[n] = (next[n] as number) + by * (ratesNext[n] as number);
}

/** Returns the ball's motion after the impulses at `now`, in the caller's units. */
function leave(impact: Impact, ball: Spinning): Spinning {
  const { s, c } = impact;
  const a1 = now[0];
  const a2 = now[1];
  const b1 = now[2];
  const b2 = now[3];
  const scale = ball.vy;
  return {
    vx: ball.vx + scale * (-a1 - b1),
    vy: scale * speedInto(impact, now),
    wx: ball.wx + scale * K * (-a2 - b2),
    wy: ball.wy + scale * K * (-s * a1 + b1),
    wz: ball.wz + scale * K * c * a1,
  };
}
