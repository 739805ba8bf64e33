/**
 * A ball against a cushion: rigid ball, one contact point on the nose (above the ball's centre),
 * Coulomb friction at the nose and at the cloth during the impact, energetic restitution.
 * The equations are integrated over the normal impulse, after the model of
 * Mathavan, Jackson & Parkin 2010, Proc. IMechE C 224(9):1863, derived here from vectors.
 *
 * Frame: x along the cushion, y into it, z up. Speeds in m/s; a spin is the rim speed R·ω in m/s, so
 * neither the radius nor the mass enters. Contact normal n = (0, −c, −s), c = cos θ, s = sin θ;
 * friction at the nose acts in the plane of e1 = (1, 0, 0) and e2 = (0, −s, c).
 * Per unit of normal impulse (over m), with k = m R²/I = 5/2, friction μ a at the nose and ν N b at
 * the cloth (|a| ≤ 1, |b| ≤ 1; N = s + μ c a2 is the reaction that holds the ball on the cloth):
 *
 *   dvx = −μ a1 − νN b1          dvy = −c + μ s a2 − νN b2
 *   dwx = k (−μ a2 − νN b2)      dwy = k (−μ s a1 + νN b1)      dwz = k μ c a1
 *
 * A sliding contact has a (or b) along its slip; a contact whose slip vanishes sticks if friction
 * can hold it, and otherwise leaves in the direction in which it is driven. Compression ends when
 * the speed into the cushion is zero, restitution when e² of the work of compression is given back.
 * Velocities are linear in the impulses, so only those and the work are integrated
 * (Dormand & Prince 1980, order 5 with an order 4 error estimate), while the nose slides over
 * ∫dp/|slip at the nose|: see friction.ts, `rates`. How contacts change is decided in contacts.ts.
 *
 * A step's error is at most TOLERANCE of the speed into the cushion, an impact's some tens of that:
 * tests/table/against-ode.test.ts holds whole shots to 0.001 diamond of a general solver.
 */

import { GONE, lasting, settle } from './contacts.ts';
import {
  type Impact,
  type Impulses,
  K,
  NORMAL,
  ROUNDING,
  rates,
  SIZE,
  speedInto,
  WORK,
} from './friction.ts';
import { hypotenuse } from './hypotenuse.ts';
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
  /** sin θ of the contact above the ball's centre. */
  readonly contactSine: number;
}

/** Local error allowed per step, as a fraction of the speed into the cushion. */
const TOLERANCE = 1e-6;
/** A restitution whose square is lost in rounding is none: what it gives back could not be told from 0. */
const DEAD = 1e-6;
/** Work still to be given back: none is known of while the cushion is being compressed. */
const COMPRESSING = Number.NEGATIVE_INFINITY;
/** Impulse this near to the right one is put right in a straight line: the rest is its square. */
const NEARLY = 2e-5;
const MAX_LANDINGS = 20;
/** A path this near to parallel (sine of the angle, 0.2 arc seconds) does not meet the cushion. */
const GRAZING = 1e-6;
const FIRST_STEP = 0.2;
const LONGEST_FIRST = 3;
const MAX_STEPS = 5000;

/**
 * The ball's motion just after it leaves the cushion.
 * Homogeneous of degree one in the speeds: twice as fast in is twice as fast out.
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

/** Friction too small to matter is none: its reciprocal would overflow. */
function frictionOrNone(coefficient: number): number {
  return coefficient < 1e-9 ? 0 : coefficient;
}

/** Advances `now` from the first touch to the end of restitution. */
function integrate(i: Impact, restitution: number): void {
  let kept = COMPRESSING;
  rates(i, now, ratesNow);
  let limit = settle(i);
  let h = firstStep();
  for (let count = 0; count < MAX_STEPS; count++) {
    const tried = Math.min(h, limit);
    const error = step(i, tried);
    const part =
      error > TOLERANCE ? Math.max(0.2, 0.9 * fourthRoot(TOLERANCE / error)) : lasting(i);
    if (part < 1) {
      h = tried * part;
      continue;
    }
    let length = tried;
    if (kept === COMPRESSING && speedInto(i, next) <= 0) {
      length = landAtRest(i, tried);
      kept = (1 - restitution * restitution) * (next[WORK] as number);
      if (restitution < DEAD) kept = Number.POSITIVE_INFINITY;
    }
    if (kept !== COMPRESSING && (next[WORK] as number) <= kept) {
      if (kept < Number.POSITIVE_INFINITY) landAtWork(i, length, kept);
      now.set(next);
      return;
    }
    copy(next, now);
    copy(ratesNext, ratesNow);
    const grown = tried * Math.min(4, 0.8 * fourthRoot(TOLERANCE / (error + 1e-16)));
    h = tried < h ? Math.max(h, grown) : grown;
    const { nose, cloth } = i;
    limit = settle(i);
    if (nose !== i.nose || cloth !== i.cloth) h = firstStep();
  }
  throw new Error(`cushion impact did not end: ${JSON.stringify(i)}`);
}

/** Six numbers are copied faster one by one than by `set`. */
function copy(from: Impulses, to: Impulses): void {
  for (let n = 0; n < SIZE; n++) to[n] = from[n] as number;
}

function firstStep(): number {
  return Math.min(LONGEST_FIRST, FIRST_STEP / (ratesNow[NORMAL] as number));
}

function fourthRoot(x: number): number {
  return Math.sqrt(Math.sqrt(x));
}

/** Shortens the last step so that it ends where the ball is at rest against the cushion. */
function landAtRest(i: Impact, most: number): number {
  let h = zeroOf(
    most,
    speedInto(i, now),
    speedRate(i, ratesNow),
    speedInto(i, next),
    speedRate(i, ratesNext),
  );
  for (let round = 0; round < MAX_LANDINGS; round++) {
    step(i, h);
    const change = -speedInto(i, next) / speedRate(i, ratesNext);
    if (isNear(change)) return h + nudge(change);
    h = Math.min(most, Math.max(0, h + change));
  }
  return h;
}

/** Shortens the last step so that it ends where the work still to be given back is used up. */
function landAtWork(i: Impact, most: number, kept: number): void {
  const from = (now[WORK] as number) - kept;
  const to = (next[WORK] as number) - kept;
  let h = zeroOf(most, from, ratesNow[WORK] as number, to, ratesNext[WORK] as number);
  for (let round = 0; round < MAX_LANDINGS; round++) {
    step(i, h);
    const change = (kept - (next[WORK] as number)) / (ratesNext[WORK] as number);
    if (isNear(change)) {
      nudge(change);
      return;
    }
    h = Math.min(most, Math.max(0, h + change));
  }
}

/** Rate of the speed into the cushion that belongs to a rate of the impulses. */
function speedRate(i: Impact, rate: Impulses): number {
  return -i.c * (rate[NORMAL] as number) + i.s * (rate[1] as number) - (rate[3] as number);
}

/**
 * Where within 0 … h a quantity is zero that falls from `from` > 0 to `to` ≤ 0 with these slopes:
 * the zero of their cubic, by Newton kept inside a bracket.
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

/** Is a change of the step's length so short, as an impulse, that no rate changes over it. */
function isNear(change: number): boolean {
  return Math.abs(change) * (ratesNext[NORMAL] as number) < NEARLY;
}

/** Moves `next` on by a length so short that its rates do not change. */
function nudge(by: number): number {
  for (let n = 0; n < SIZE; n++) next[n] = (next[n] as number) + by * (ratesNext[n] as number);
  return by;
}

/** Motion of the ball after normal impulse p, back in the caller's units. */
function leave(i: Impact, ball: Spinning): Spinning {
  const [a1, a2, b1, b2] = now as unknown as [number, number, number, number];
  const scale = ball.vy;
  return {
    vx: ball.vx + scale * (-a1 - b1),
    vy: scale * speedInto(i, now),
    wx: ball.wx + scale * K * (-a2 - b2),
    wy: ball.wy + scale * K * (-i.s * a1 + b1),
    wz: ball.wz + scale * K * i.c * a1,
  };
}
