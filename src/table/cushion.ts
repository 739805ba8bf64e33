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
 * (Dormand & Prince 1980, order 5 with an order 4 error estimate).
 */

import {
  hold,
  type Impact,
  K,
  letGo,
  needToHold,
  OVERPOWERED,
  ROUNDING,
  rates,
  slipAt,
  slipRate,
  speedInto,
} from './friction.ts';
import { hypotenuse } from './hypotenuse.ts';
import { k1, k7, next, now, step } from './impulse-step.ts';

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
const TOLERANCE = 1e-7;
/**
 * A closing slip this small (same scale) sticks if friction can hold it: the impulse that takes it
 * off is the same whichever way it closes, so what is neglected is of second order.
 */
const VANISHED = 1e-4;
/** A closing slip this small that cannot be held turns round. */
const GONE = 1e-7;
const CHANGED = -1;
/** Two contacts change a few times at most before both agree; more would be rounding. */
const MAX_CHANGES = 12;
type Phase = 'compression' | 'restitution';
/** A path this near to parallel (sine of the angle, 0.2 arc seconds) does not meet the cushion. */
const GRAZING = 1e-6;
const FIRST_STEP = 0.3;
const FOREVER = Number.POSITIVE_INFINITY;
/** Slip (same scale) at which a contact that could not be held has a direction of its own. */
const LEFT = 2e-4;
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
  const compressed = integrate(impact, 0, 'compression', 0);
  const kept = (1 - law.restitution ** 2) * (now[4] as number);
  const end = law.restitution > 0 ? integrate(impact, compressed, 'restitution', kept) : compressed;
  return leave(impact, ball, end);
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

/** Advances `now` from impulse p until the phase ends; returns the impulse there. */
function integrate(i: Impact, from: number, phase: Phase, kept: number): number {
  let p = from;
  let h = FIRST_STEP;
  for (let count = 0; count < MAX_STEPS; count++) {
    const tried = Math.min(h, settle(i, p));
    const error = step(i, p, tried);
    if (error > TOLERANCE || leftTooFar(i, p + tried)) {
      const shrink = 0.9 * (TOLERANCE / (error + 1e-16)) ** 0.2;
      h = tried * Math.min(0.5, Math.max(0.2, shrink));
      continue;
    }
    if (remaining(i, p + tried, phase, kept) <= 0) return p + land(i, p, tried, phase, kept);
    now.set(next);
    p += tried;
    const grow = tried * Math.min(4, 0.8 * (TOLERANCE / (error + 1e-16)) ** 0.2);
    h = tried < h ? Math.max(h, grow) : grow;
  }
  throw new Error(`cushion impact did not end: ${JSON.stringify(i)}`);
}

/** What is left of a phase, at `next`: speed into the cushion, or work still to be given back. */
function remaining(i: Impact, p: number, phase: Phase, kept: number): number {
  return phase === 'compression' ? speedInto(i, p, next) : (next[4] as number) - kept;
}

/** Newton on the last step's length, so that the phase ends with it. */
function land(i: Impact, p: number, most: number, phase: Phase, kept: number): number {
  let h = most;
  for (let round = 0; round < 20; round++) {
    const left = remaining(i, p + h, phase, kept);
    const slope =
      phase === 'compression'
        ? -i.c + i.s * (k7[1] as number) - (k7[3] as number)
        : i.c * speedInto(i, p + h, next);
    const change = -left / slope;
    if (!(Math.abs(change) > 1e-14)) break;
    h = Math.min(most, Math.max(0, h + change));
    step(i, p, h);
  }
  now.set(next);
  return h;
}

/** A leaving contact is followed only until its slip has a direction of its own. */
function leftTooFar(i: Impact, p: number): boolean {
  if (i.nose !== 'leaving' && i.cloth !== 'leaving') return false;
  const slip = slipAt(i, p, next);
  return (
    (i.nose === 'leaving' && hypotenuse(slip.nose1, slip.nose2) > 4 * LEFT) ||
    (i.cloth === 'leaving' && hypotenuse(slip.cloth1, slip.cloth2) > 4 * LEFT)
  );
}

/**
 * Decides how the contacts go on from `now`, leaves the rates there in k1, and returns the longest
 * step that does not run through a vanishing slip.
 */
function settle(i: Impact, p: number): number {
  let limit = FOREVER;
  for (let round = 0; round < MAX_CHANGES; round++) {
    rates(i, p, now, k1);
    const nose = settleContact(i, 'nose', p);
    const cloth = settleContact(i, 'cloth', p);
    limit = Math.min(nose, cloth);
    if (limit !== CHANGED) return 0.98 * limit;
  }
  rates(i, p, now, k1);
  return FOREVER;
}

/** Impulse until the contact's slip vanishes, or CHANGED if it now slips or holds otherwise. */
function settleContact(i: Impact, contact: 'nose' | 'cloth', p: number): number {
  const slips = slipAt(i, p, now);
  const s1 = contact === 'nose' ? slips.nose1 : slips.cloth1;
  const s2 = contact === 'nose' ? slips.nose2 : slips.cloth2;
  const size = hypotenuse(s1, s2);
  if (i[contact] === 'leaving' && size > LEFT) {
    i[contact] = 'sliding';
    return CHANGED;
  }
  if (i[contact] === 'sliding' && size > VANISHED) return timeLeft(i, contact, s1, s2);
  if (i[contact] === 'sliding' && timeLeft(i, contact, s1, s2) === FOREVER) return FOREVER;
  const need = needToHold(i, contact, p, now);
  if (i[contact] === 'stuck' && need <= 1) return FOREVER;
  if (i[contact] === 'leaving' && need > 1) return FOREVER;
  const torn = need > OVERPOWERED;
  if (i[contact] === 'sliding' && torn && size > GONE) return timeLeft(i, contact, s1, s2);
  // Only just too much to hold: the slip all but stops before it turns the way it is driven.
  if (!torn) hold(i, contact, p, now);
  if (need > 1) letGo(i, contact, need, p, now);
  return CHANGED;
}

function timeLeft(i: Impact, contact: 'nose' | 'cloth', s1: number, s2: number): number {
  const rate = slipRate(i, k1);
  return contact === 'nose'
    ? toZero(i, s1, s2, rate.nose1, rate.nose2)
    : toZero(i, s1, s2, rate.cloth1, rate.cloth2);
}

/** Impulse after which a slip (a, b) would vanish at the rate (da, db), if it is closing at all. */
function toZero(i: Impact, a: number, b: number, da: number, db: number): number {
  const square = a * a + b * b;
  const closing = -(a * da + b * db);
  const moves = square > i.rounding * i.rounding && closing > 0;
  return moves ? square / closing : FOREVER;
}

/** Motion of the ball after normal impulse p, back in the caller's units. */
function leave(i: Impact, ball: Spinning, p: number): Spinning {
  const [a1, a2, b1, b2] = now as unknown as [number, number, number, number];
  const scale = ball.vy;
  return {
    vx: ball.vx + scale * (-a1 - b1),
    vy: scale * speedInto(i, p, now),
    wx: ball.wx + scale * K * (-a2 - b2),
    wy: ball.wy + scale * K * (-i.s * a1 + b1),
    wz: ball.wz + scale * K * i.c * a1,
  };
}
