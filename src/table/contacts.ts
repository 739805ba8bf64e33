/**
 * How the two contacts of a ball against a cushion go on after a step: sliding, at rest, or leaving
 * rest. Frame and symbols: see cushion.ts. Slips are fractions of the speed into the cushion.
 */

import {
  hold,
  type Impact,
  K,
  LOOSE,
  letGo,
  NORMAL,
  needToHold,
  OVERPOWERED,
  offCourse,
  rates,
  type Slip,
  slipAt,
  slipRate,
} from './friction.ts';
import { hypotenuse } from './hypotenuse.ts';
import { next, now, ratesNow } from './impulse-step.ts';

/**
 * A slip that closes within this much impulse comes to rest at once if friction holds it with ease:
 * what is neglected is of second order, unless the ball leaves the cushion just then. The less ease,
 * the less impulse.
 */
const SOON = 1e-4;
/** Slip that may be that near to its end. */
const SLOW = 1e-3;
/** A slip this small comes to rest whenever friction can hold it. */
const AT_REST = 1e-5;
/** A closing slip this small that cannot be held turns round. */
export const GONE = 1e-7;
/** A slip at the nose this small that runs along its friction is only followed in size. */
const SMALL = 5e-3;
/** Sine of the angle within which it does. */
const ON_COURSE = 0.01;
/** A contact is let go within this much of the friction there is. */
const OVERDRAWN = 1.005;
const CHANGED = -1;
/** Two contacts change a few times at most before both agree; more would be rounding. */
const MAX_CHANGES = 12;
const FOREVER = Number.POSITIVE_INFINITY;
/** Part of the way to a vanishing slip that one step goes. */
const NEARLY_THERE = 0.98;

/**
 * Decides how the contacts go on from `now` (rates there in ratesNow, put right if they change) and
 * returns the longest step that does not run through a vanishing slip.
 */
export function settle(i: Impact): number {
  for (let round = 0; round < MAX_CHANGES; round++) {
    const nose = settleNose(i);
    const cloth = settleCloth(i);
    if (nose !== CHANGED && cloth !== CHANGED) return NEARLY_THERE * Math.min(nose, cloth);
    rates(i, now, ratesNow);
  }
  return FOREVER;
}

/** Length of step until the slip at the nose vanishes, or CHANGED if it now slips or holds otherwise. */
function settleNose(i: Impact): number {
  // The pace of a sliding nose is its slip.
  if (i.nose === 'sliding' && (ratesNow[NORMAL] as number) > SMALL) return FOREVER;
  const { nose1, nose2 } = slipAt(i, now);
  const size = hypotenuse(nose1, nose2);
  if (i.nose === 'stuck') return settleStuck(i, 'nose');
  if (i.nose === 'leaving') {
    if (size <= 1.5 * SMALL) return settleLeaving(i, 'nose');
    i.nose = 'sliding';
    return CHANGED;
  }
  if (size > AT_REST && offCourse(i, now) < ON_COURSE) {
    i.nose = 'leaving';
    return CHANGED;
  }
  const left = noseLeft(i);
  if (size > SLOW || left === FOREVER) return FOREVER;
  return settleClosing(i, 'nose', size, left * (ratesNow[NORMAL] as number), FOREVER);
}

/** The same for the cloth. */
function settleCloth(i: Impact): number {
  if (i.cloth === 'stuck') return settleStuck(i, 'cloth');
  const { cloth1, cloth2 } = slipAt(i, now);
  const size = hypotenuse(cloth1, cloth2);
  if (i.cloth === 'leaving') {
    if (size <= 1.5 * SMALL) return settleLeaving(i, 'cloth');
    i.cloth = 'sliding';
    return CHANGED;
  }
  if (!(size > i.rounding)) return FOREVER;
  const left = clothLeft(i);
  // A small slip turns quickly: no step much longer than what turns it.
  const limit = Math.min(left, (10 * size) / (ratesNow[NORMAL] as number));
  if (size > SLOW || left === FOREVER) return limit;
  return settleClosing(i, 'cloth', size, left * (ratesNow[NORMAL] as number), limit);
}

function settleStuck(i: Impact, contact: Which): number {
  const need = needToHold(i, contact, now);
  if (need <= 1) return FOREVER;
  return turn(i, contact, need);
}

function settleLeaving(i: Impact, contact: Which): number {
  const need = needToHold(i, contact, now);
  if (need > 1) return FOREVER;
  const { along, closing } = slipAlongFriction(i, contact);
  return need > LOOSE && along > AT_REST && closing > 0 ? along / closing : turn(i, contact, need);
}

/**
 * The slip of a leaving contact along the friction on it, and how fast it closes. A little slip
 * across is left over from when the contact slid, and nothing takes it off: it is not waited for.
 */
function slipAlongFriction(i: Impact, contact: Which): { along: number; closing: number } {
  const n = contact === 'nose' ? 0 : 2;
  const size = hypotenuse(ratesNow[n] as number, ratesNow[n + 1] as number);
  const f1 = (ratesNow[n] as number) / size;
  const f2 = (ratesNow[n + 1] as number) / size;
  const part = (slip: Slip) =>
    contact === 'nose' ? f1 * slip.nose1 + f2 * slip.nose2 : f1 * slip.cloth1 + f2 * slip.cloth2;
  const along = part(slipAt(i, now));
  return { along, closing: -part(slipRate(i, ratesNow)) };
}

/** A small slip that closes: on, to rest, or round. */
function settleClosing(
  i: Impact,
  contact: Which,
  size: number,
  impulse: number,
  limit: number,
): number {
  const need = needToHold(i, contact, now);
  const least = need > OVERPOWERED ? GONE : AT_REST;
  const soon = need < 1 && impulse < SOON * (1 - need);
  return size > least && !soon ? limit : turn(i, contact, need);
}

/** The contact comes to rest, or turns the way it is driven. */
function turn(i: Impact, contact: Which, need: number): number {
  if (need <= OVERPOWERED) hold(i, contact, now);
  if (need > 1) letGo(i, contact, need, now);
  return CHANGED;
}

type Which = 'nose' | 'cloth';

/** Length of step after which the slip at the nose would vanish at its rate, if it is closing. */
function noseLeft(i: Impact): number {
  const { nose1, nose2 } = slipAt(i, now);
  const rate = slipRate(i, ratesNow);
  const square = nose1 * nose1 + nose2 * nose2;
  const closing = -(nose1 * rate.nose1 + nose2 * rate.nose2);
  return square > i.rounding * i.rounding && closing > 0 ? square / closing : FOREVER;
}

function clothLeft(i: Impact): number {
  const { cloth1, cloth2 } = slipAt(i, now);
  const rate1 = -(1 - K * i.s) * (ratesNow[0] as number) - (1 + K) * (ratesNow[2] as number);
  const rate2 =
    -i.c * (ratesNow[NORMAL] as number) +
    (i.s - K) * (ratesNow[1] as number) -
    (1 + K) * (ratesNow[3] as number);
  const closing = -(cloth1 * rate1 + cloth2 * rate2);
  return closing > 0 ? (cloth1 * cloth1 + cloth2 * cloth2) / closing : FOREVER;
}

/** The part of the last step for which its contacts stayed what they were; 1 if all of it. */
export function lasting(i: Impact): number {
  if (i.nose === 'sliding' && i.cloth === 'sliding') return 1;
  return Math.min(lastingNose(i), lastingCloth(i));
}

function lastingNose(i: Impact): number {
  if (i.nose === 'sliding') return 1;
  if (i.nose === 'stuck') return holding(i, 'nose');
  const { nose1, nose2 } = slipAt(i, next);
  return leaving(hypotenuse(nose1, nose2));
}

function lastingCloth(i: Impact): number {
  if (i.cloth === 'sliding') return 1;
  if (i.cloth === 'stuck') return holding(i, 'cloth');
  const { cloth1, cloth2 } = slipAt(i, next);
  return leaving(hypotenuse(cloth1, cloth2));
}

/** The part of the last step for which friction holds a contact. */
function holding(i: Impact, contact: Which): number {
  const need = needToHold(i, contact, next);
  if (need <= OVERDRAWN) return 1;
  const before = needToHold(i, contact, now);
  const crossing = (1 + OVERDRAWN - 2 * before) / (2 * (need - before));
  return Math.min(0.9, Math.max(0.05, crossing));
}

/** A leaving contact is followed only until its slip has a direction of its own. */
function leaving(size: number): number {
  return size > 2.5 * SMALL ? Math.max(0.05, (2 * SMALL) / size) : 1;
}
