/**
 * Coulomb friction at the two contacts of a ball that is against a cushion: at the nose and at the
 * cloth. Frame, symbols and equations: see cushion.ts.
 */

/** m R² / I of a solid ball. */
export const K = 5 / 2;
/**
 * The state of an impact, or its rates: friction impulses of the nose along e1, e2 and of the cloth
 * along x, y; the normal impulse; the work done.
 */
export type Impulses = Float64Array;
export const SIZE = 6;
export const NORMAL = 4;
export const WORK = 5;
/** Slip, as a fraction of the largest slip there was, that is only rounding of no slip at all. */
export const ROUNDING = 1e-13;

/**
 * `sliding`: friction lies along the slip. `stuck`: there is no slip. `leaving`: the slip is so small
 * that it runs along the friction on it, growing where friction has just failed to hold or closing
 * where it is about to.
 */
export type Contact = 'sliding' | 'stuck' | 'leaving';

/** Directions of friction this near to each other agree: far below the error of a step. */
const AGREED = 1e-10;

/** A contact that needs less than this part of the friction there is comes to rest at once. */
export const LOOSE = 0.3;

/** A contact that needs this much more friction than there is slides off at once. */
export const OVERPOWERED = 1.25;

/** Scaled so that the speed into the cushion is 1. Slips' zero points move when a contact sticks. */
export interface Impact {
  readonly mu: number;
  readonly nu: number;
  readonly s: number;
  readonly c: number;
  /** Slip that is only rounding of none. */
  readonly rounding: number;
  nose1: number;
  nose2: number;
  cloth1: number;
  cloth2: number;
  nose: Contact;
  cloth: Contact;
}

/** Slip at the nose (along e1, e2) and at the cloth (along x, y). */
export interface Slip {
  nose1: number;
  nose2: number;
  cloth1: number;
  cloth2: number;
}

/** Directions of friction, each inside the unit disc, and the friction needed to hold, over what there is. */
interface Friction {
  a1: number;
  a2: number;
  b1: number;
  b2: number;
  reaction: number;
  noseNeed: number;
  clothNeed: number;
}

const slip: Slip = { nose1: 0, nose2: 0, cloth1: 0, cloth2: 0 };
const friction: Friction = {
  a1: 0,
  a2: 0,
  b1: 0,
  b2: 0,
  reaction: 0,
  noseNeed: 0,
  clothNeed: 0,
};

/** Speed into the cushion. */
export function speedInto(i: Impact, y: Impulses): number {
  return 1 - i.c * at(y, NORMAL) + i.s * at(y, 1) - at(y, 3);
}

/** The slips. A stuck contact has none. The result is reused by each call. */
export function slipAt(i: Impact, y: Impulses): Slip {
  const p = at(y, NORMAL);
  const a1 = at(y, 0);
  const a2 = at(y, 1);
  const b1 = at(y, 2);
  const b2 = at(y, 3);
  slip.nose1 = i.nose === 'stuck' ? 0 : i.nose1 - (1 + K) * a1 + (K * i.s - 1) * b1;
  slip.nose2 =
    i.nose === 'stuck' ? 0 : i.nose2 + i.s * i.c * p - (i.s * i.s + K) * a2 + (i.s - K) * b2;
  slip.cloth1 = i.cloth === 'stuck' ? 0 : i.cloth1 - (1 - K * i.s) * a1 - (1 + K) * b1;
  slip.cloth2 = i.cloth === 'stuck' ? 0 : i.cloth2 - i.c * p + (i.s - K) * a2 - (1 + K) * b2;
  return slip;
}

/**
 * Rates of the impulses and of the work, into `out`: per unit of normal impulse, but per unit of
 * ∫ dp / |slip at the nose| while the nose slides. So measured, a slip that closes on nothing dies
 * away like e⁻ˣ and turns no faster at the end than before: the steps need not shrink with it.
 */
export function rates(i: Impact, y: Impulses, out: Impulses): void {
  if (i.nose === 'sliding' && i.cloth === 'sliding' && slidingRates(i, y, out)) return;
  const slips = slipAt(i, y);
  const pace =
    i.nose === 'sliding'
      ? Math.max(i.rounding, Math.sqrt(slips.nose1 * slips.nose1 + slips.nose2 * slips.nose2))
      : 1;
  const f = resolve(i, slips);
  const cloth = pace * i.nu * f.reaction;
  out[0] = pace * i.mu * f.a1;
  out[1] = pace * i.mu * f.a2;
  out[2] = cloth * f.b1;
  out[3] = cloth * f.b2;
  out[NORMAL] = pace;
  out[WORK] = pace * i.c * speedInto(i, y);
}

/** The same for two sliding contacts, written out because nearly all evaluations are this one. */
function slidingRates(i: Impact, y: Impulses, out: Impulses): boolean {
  const { s, c, mu } = i;
  const a1 = at(y, 0);
  const a2 = at(y, 1);
  const b1 = at(y, 2);
  const b2 = at(y, 3);
  const p = at(y, NORMAL);
  const nose1 = i.nose1 - (1 + K) * a1 + (K * s - 1) * b1;
  const nose2 = i.nose2 + s * c * p - (s * s + K) * a2 + (s - K) * b2;
  const cloth1 = i.cloth1 - (1 - K * s) * a1 - (1 + K) * b1;
  const cloth2 = i.cloth2 - c * p + (s - K) * a2 - (1 + K) * b2;
  const nose = Math.sqrt(nose1 * nose1 + nose2 * nose2);
  const cloth = Math.sqrt(cloth1 * cloth1 + cloth2 * cloth2);
  if (!(nose > i.rounding && cloth > i.rounding)) return false;
  const onCloth = (i.nu * Math.max(0, s * nose + c * mu * nose2)) / cloth;
  out[0] = mu * nose1;
  out[1] = mu * nose2;
  out[2] = onCloth * cloth1;
  out[3] = onCloth * cloth2;
  out[NORMAL] = nose;
  out[WORK] = c * nose * (1 - c * p + s * a2 - b2);
  return true;
}

/** Rate of the slips that belongs to a rate of the impulses. The result is reused by each call. */
export function slipRate(i: Impact, rate: Impulses): Slip {
  slip.nose1 = -(1 + K) * at(rate, 0) + (K * i.s - 1) * at(rate, 2);
  slip.nose2 =
    i.s * i.c * at(rate, NORMAL) - (i.s * i.s + K) * at(rate, 1) + (i.s - K) * at(rate, 3);
  slip.cloth1 = -(1 - K * i.s) * at(rate, 0) - (1 + K) * at(rate, 2);
  slip.cloth2 = -i.c * at(rate, NORMAL) + (i.s - K) * at(rate, 1) - (1 + K) * at(rate, 3);
  return slip;
}

/**
 * The friction needed to hold a contact without slip, over what there is.
 * The contact is taken to be at rest, whatever its slip.
 */
export function needToHold(i: Impact, contact: 'nose' | 'cloth', y: Impulses): number {
  const was = i[contact];
  i[contact] = 'stuck';
  const { noseNeed, clothNeed } = resolve(i, slipAt(i, y));
  i[contact] = was;
  return contact === 'nose' ? noseNeed : clothNeed;
}

/** How far a small slip at the nose is from running along the friction it is heading for, sine. */
export function offCourse(i: Impact, y: Impulses): number {
  const { nose } = i;
  const { nose1, nose2 } = slipAt(i, y);
  i.nose = 'leaving';
  const f = resolve(i, slipAt(i, y));
  i.nose = nose;
  if (!(f.noseNeed > LOOSE)) return 1;
  const along = nose1 * f.a1 + nose2 * f.a2;
  return along > 0 ? Math.abs(nose1 * f.a2 - nose2 * f.a1) / along : 1;
}

/** Lets a contact that friction cannot hold slip, from no slip at all. */
export function letGo(i: Impact, contact: 'nose' | 'cloth', need: number, y: Impulses): void {
  i[contact] = contact === 'cloth' && need > OVERPOWERED ? 'sliding' : 'leaving';
  const now = slipAt(i, y);
  if (contact === 'nose') {
    i.nose1 -= now.nose1;
    i.nose2 -= now.nose2;
  } else {
    i.cloth1 -= now.cloth1;
    i.cloth2 -= now.cloth2;
  }
}

/** Takes off what is left of a slip by the impulse that does it, and holds the contact. */
export function hold(i: Impact, contact: 'nose' | 'cloth', y: Impulses): void {
  const now = slipAt(i, y);
  if (contact === 'nose') {
    // The jump presses the ball on the cloth too, and the cloth's friction answers.
    const size = Math.sqrt(now.cloth1 * now.cloth1 + now.cloth2 * now.cloth2);
    const onCloth = size > i.rounding ? (i.nu * i.c) / size : 0;
    const b1 = onCloth * now.cloth1;
    const b2 = onCloth * now.cloth2;
    const j2 = now.nose2 / (i.s * i.s + K - (i.s - K) * b2);
    const j1 = (now.nose1 + (K * i.s - 1) * b1 * j2) / (1 + K);
    y[0] = at(y, 0) + j1;
    y[1] = at(y, 1) + j2;
    y[2] = at(y, 2) + b1 * j2;
    y[3] = at(y, 3) + b2 * j2;
  } else {
    y[2] = at(y, 2) + now.cloth1 / (1 + K);
    y[3] = at(y, 3) + now.cloth2 / (1 + K);
  }
  i[contact] = 'stuck';
}

function resolve(i: Impact, slips: Slip): Friction {
  const size = Math.sqrt(slips.nose1 * slips.nose1 + slips.nose2 * slips.nose2);
  if (i.nose === 'sliding' && size > i.rounding) {
    friction.a1 = slips.nose1 / size;
    friction.a2 = slips.nose2 / size;
    pushOnCloth(i, slips);
    return friction;
  }
  return resolveFromRest(i, slips);
}

/** No slip at the nose: friction there and at the cloth depend on each other. */
function resolveFromRest(i: Impact, at: Slip): Friction {
  const size = Math.sqrt(at.cloth1 * at.cloth1 + at.cloth2 * at.cloth2);
  if (i.cloth !== 'sliding' || !(size > i.rounding) || i.mu === 0) return resolveByTurns(i, at);
  friction.b1 = at.cloth1 / size;
  friction.b2 = at.cloth2 / size;
  let more = 0;
  let slope = holdOverSliding(i, more);
  const need = friction.noseNeed;
  // The slip grows (λ > 0, as in `surplus`) or shrinks along the friction. Newton on 1/|a|, which is
  // nearly straight.
  const slips = need > 1 || (i.nose === 'leaving' && need > LOOSE);
  for (let round = 0; slips && round < 60 && Math.abs(friction.noseNeed - 1) > AGREED; round++) {
    more += ((friction.noseNeed - 1) * friction.noseNeed) / -slope;
    slope = holdOverSliding(i, more);
  }
  friction.noseNeed = need;
  return friction;
}

/**
 * The cloth slides in a known direction: the nose's friction for a given surplus is linear.
 * Returns the slope of the friction's size against the surplus.
 */
function holdOverSliding(i: Impact, more: number): number {
  const { s, c, mu, nu } = i;
  const { b1, b2 } = friction;
  const by1 = 1 + K + more;
  const by2 = s * s + K + more - nu * c * (s - K) * b2;
  const x2 = (s * (c + nu * (s - K) * b2)) / by2;
  const reaction = s + c * x2;
  const x1 = (nu * reaction * (K * s - 1) * b1) / by1;
  const slope2 = -x2 / by2;
  const slope1 = (-x1 + nu * c * slope2 * (K * s - 1) * b1) / by1;
  const length = Math.sqrt(x1 * x1 + x2 * x2);
  friction.reaction = reaction;
  friction.a1 = x1 / mu;
  friction.a2 = x2 / mu;
  friction.noseNeed = length / mu;
  friction.clothNeed = 0;
  return (x1 * slope1 + x2 * slope2) / (length * mu);
}

/** Contacts that cannot be told apart in one go take turns until they agree. */
function resolveByTurns(i: Impact, slips: Slip): Friction {
  friction.a1 = 0;
  friction.a2 = 0;
  for (let round = 0; round < 40; round++) {
    pushOnCloth(i, slips);
    const was1 = friction.a1;
    const was2 = friction.a2;
    holdNose(i);
    if (Math.abs(friction.a1 - was1) + Math.abs(friction.a2 - was2) < AGREED) break;
  }
  pushOnCloth(i, slips);
  return friction;
}

/** Friction at the cloth for the given friction at the nose. */
function pushOnCloth(i: Impact, slips: Slip): void {
  friction.reaction = Math.max(0, i.s + i.mu * i.c * friction.a2);
  const size = Math.sqrt(slips.cloth1 * slips.cloth1 + slips.cloth2 * slips.cloth2);
  if (i.cloth === 'sliding' && size > i.rounding) {
    friction.b1 = slips.cloth1 / size;
    friction.b2 = slips.cloth2 / size;
    return;
  }
  const d1 = -i.mu * friction.a1 * (1 - K * i.s);
  const d2 = -i.c + i.mu * friction.a2 * (i.s - K);
  const most = i.nu * friction.reaction * (1 + K);
  const drive = Math.sqrt(d1 * d1 + d2 * d2);
  friction.clothNeed = most > 0 ? drive / most : Number.POSITIVE_INFINITY;
  const by = Math.max(drive, most);
  friction.b1 = by > 0 ? d1 / by : 0;
  friction.b2 = by > 0 ? d2 / by : 0;
}

/** Friction at a nose contact without slip: what holds it, or the direction in which it leaves. */
function holdNose(i: Impact): void {
  const cloth = i.nu * friction.reaction;
  const d1 = cloth * (K * i.s - 1) * friction.b1;
  const d2 = i.s * i.c + cloth * (i.s - K) * friction.b2;
  const m1 = i.mu * (1 + K);
  const m2 = i.mu * (i.s * i.s + K);
  if (i.mu === 0) {
    friction.noseNeed = Number.POSITIVE_INFINITY;
    return;
  }
  friction.noseNeed = Math.sqrt((d1 / m1) ** 2 + (d2 / m2) ** 2);
  const more = friction.noseNeed <= 1 ? 0 : surplus(d1, d2, m1, m2);
  friction.a1 = d1 / (m1 + more);
  friction.a2 = d2 / (m2 + more);
}

/** λ > 0 with |D/(m + λ)| = 1: the slip then grows along the friction. Newton, from below. */
function surplus(d1: number, d2: number, m1: number, m2: number): number {
  let more = 0;
  for (let round = 0; round < 60; round++) {
    const q1 = (d1 / (m1 + more)) ** 2;
    const q2 = (d2 / (m2 + more)) ** 2;
    const step = (q1 + q2 - 1) / (2 * (q1 / (m1 + more) + q2 / (m2 + more)));
    more += step;
    if (Math.abs(step) < AGREED) break;
  }
  return more;
}

/** Typed arrays of fixed size are read within their bounds. */
function at(y: Impulses, index: number): number {
  return y[index] as number;
}
