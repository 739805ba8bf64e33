/**
 * When the contacts of a ball against a cushion change between sliding, rest and leaving rest: decided
 * between steps. Frame and symbols: cushion.ts. Slips are fractions of the speed into the cushion.
 */

import { LOOSE, needToHold, OVERPOWERED, offCourse, rates } from './friction.ts';
import { hypotenuse } from './hypotenuse.ts';
import {
  type ContactName,
  type Impact,
  type Impulses,
  K,
  NORMAL,
  type Slip,
  slipAt,
  slipRate,
} from './impact.ts';
import { next, now, ratesNow } from './impulse-step.ts';

/**
 * A slip that closes within this much impulse comes to rest at once if friction holds it easily; the
 * harder the hold, the less impulse. The error is of second order, unless the ball leaves just then.
 */
const SOON = 1e-4;
/** A larger slip is not brought to rest. */
const SLOW = 1e-3;
/** A slip this small comes to rest whenever friction can hold it. */
const AT_REST = 1e-5;
/** A slip that is dying out and is this small reverses if friction cannot hold the contact. */
export const GONE = 1e-7;
/** A slip at the nose this small that lies along its friction is followed in size only. */
const SMALL = 5e-3;
/** Sine of the angle within which it counts as lying along. */
const ON_COURSE = 0.01;
/** A leaving contact slides once its slip exceeds this many times SMALL. */
const GROWN = 1.5;
/** A step in which a leaving slip exceeds this many times SMALL is shortened to end at twice. */
const OVERGROWN = 2.5;
/** A contact at rest is let go within this multiple of the available friction. */
const OVERDRAWN = 1.005;
/** Instead of a length of step: the contact has changed. */
const CHANGED = -1;
/** Two contacts settle after a few changes; more come from rounding. */
const MAX_CHANGES = 12;
const FOREVER = Number.POSITIVE_INFINITY;
/** A step covers this share of the distance to a vanishing slip. */
const NEARLY_THERE = 0.98;

/**
 * Decides how each contact continues from `now` and updates the rates there if one changes.
 * @returns the longest step that does not run through a vanishing slip
 */
export function settle(impact: Impact): number {
  for (let round = 0; round < MAX_CHANGES; round++) {
    const nose = settleNose(impact);
    const cloth = settleCloth(impact);
    if (nose !== CHANGED && cloth !== CHANGED) return NEARLY_THERE * Math.min(nose, cloth);
    rates(impact, now, ratesNow);
  }
  return FOREVER;
}

/** Length of step until the slip at the nose vanishes, or CHANGED. */
function settleNose(impact: Impact): number {
  // While the nose slides, the rate of the normal impulse is the slip itself (`rates`).
  if (impact.nose === 'sliding' && ratesNow[NORMAL] > SMALL) return FOREVER;
  if (impact.nose === 'stuck') return settleStuck(impact, 'nose');
  const size = slipSize(impact, 'nose', now);
  if (impact.nose === 'leaving') return settleLeaving(impact, 'nose', size);
  if (size > AT_REST && offCourse(impact, now) < ON_COURSE) {
    impact.nose = 'leaving';
    return CHANGED;
  }
  const left = lengthLeft(impact, 'nose');
  if (!(size > impact.rounding) || size > SLOW || left === FOREVER) return FOREVER;
  return settleClosing(impact, 'nose', size, left, FOREVER);
}

/** The same for the cloth. */
function settleCloth(impact: Impact): number {
  if (impact.cloth === 'stuck') return settleStuck(impact, 'cloth');
  const size = slipSize(impact, 'cloth', now);
  if (impact.cloth === 'leaving') return settleLeaving(impact, 'cloth', size);
  if (!(size > impact.rounding)) return FOREVER;
  const left = lengthLeft(impact, 'cloth');
  // A small slip turns quickly: a step is not much longer than the impulse that turns it.
  const limit = Math.min(left, (10 * size) / ratesNow[NORMAL]);
  if (size > SLOW || left === FOREVER) return limit;
  return settleClosing(impact, 'cloth', size, left, limit);
}

function settleStuck(impact: Impact, contact: ContactName): number {
  const need = needToHold(impact, contact, now);
  return need <= 1 ? FOREVER : stopOrTurn(impact, contact, need);
}

function settleLeaving(impact: Impact, contact: ContactName, size: number): number {
  if (size > GROWN * SMALL) {
    impact[contact] = 'sliding';
    return CHANGED;
  }
  const need = needToHold(impact, contact, now);
  if (need > 1) return FOREVER;
  const { along, closing } = slipAlongFriction(impact, contact);
  const closes = need > LOOSE && along > AT_REST && closing > 0;
  return closes ? along / closing : stopOrTurn(impact, contact, need);
}

/**
 * The slip of a leaving contact along the friction on it, and how fast it closes. The little slip
 * across remains from when the contact slid; nothing removes it, so it is ignored.
 */
function slipAlongFriction(
  impact: Impact,
  contact: ContactName,
): { along: number; closing: number } {
  const n = contact === 'nose' ? 0 : 2;
  const size = hypotenuse(ratesNow[n], ratesNow[n + 1] as number);
  const f1 = ratesNow[n] / size;
  const f2 = (ratesNow[n + 1] as number) / size;
  const part = (slip: Slip) =>
    contact === 'nose' ? f1 * slip.nose1 + f2 * slip.nose2 : f1 * slip.cloth1 + f2 * slip.cloth2;
  const along = part(slipAt(impact, now));
  return { along, closing: -part(slipRate(impact, ratesNow)) };
}

/**
 * Decides whether a small slip that is dying out continues, stops or reverses.
 * @param left length of step until it would vanish
 * @param limit length of step if it continues
 */
function settleClosing(
  impact: Impact,
  contact: ContactName,
  size: number,
  left: number,
  limit: number,
): number {
  const need = needToHold(impact, contact, now);
  const least = need > OVERPOWERED ? GONE : AT_REST;
  const soon = need < 1 && left * ratesNow[NORMAL] < SOON * (1 - need);
  return size > least && !soon ? limit : stopOrTurn(impact, contact, need);
}

function stopOrTurn(impact: Impact, contact: ContactName, need: number): number {
  if (need <= OVERPOWERED) stop(impact, contact, now);
  if (need > 1) letGo(impact, contact, need, now);
  return CHANGED;
}

/** Brings a contact to rest by the impulse that removes its slip. */
function stop(impact: Impact, contact: ContactName, y: Impulses): void {
  const slip = slipAt(impact, y);
  if (contact === 'nose') stopNose(impact, slip, y);
  else {
    y[2] = y[2] + slip.cloth1 / (1 + K);
    y[3] = y[3] + slip.cloth2 / (1 + K);
  }
  impact[contact] = 'stuck';
}

/** The jump also presses the ball on the cloth, whose friction answers. */
function stopNose({ s, c, nu, rounding }: Impact, slip: Slip, y: Impulses): void {
  const size = hypotenuse(slip.cloth1, slip.cloth2);
  const onCloth = size > rounding ? (nu * c) / size : 0;
  const b1 = onCloth * slip.cloth1;
  const b2 = onCloth * slip.cloth2;
  const j2 = slip.nose2 / (s * s + K - (s - K) * b2);
  const j1 = (slip.nose1 + (K * s - 1) * b1 * j2) / (1 + K);
  y[0] = y[0] + j1;
  y[1] = y[1] + j2;
  y[2] = y[2] + b1 * j2;
  y[3] = y[3] + b2 * j2;
}

/** Lets a contact that friction cannot hold slip, starting from no slip. */
function letGo(impact: Impact, contact: ContactName, need: number, y: Impulses): void {
  impact[contact] = contact === 'cloth' && need > OVERPOWERED ? 'sliding' : 'leaving';
  const slip = slipAt(impact, y);
  if (contact === 'nose') {
    impact.nose1 -= slip.nose1;
    impact.nose2 -= slip.nose2;
  } else {
    impact.cloth1 -= slip.cloth1;
    impact.cloth2 -= slip.cloth2;
  }
}

/** Length of step after which a slip would vanish at its present rate; FOREVER if it is not closing. */
function lengthLeft(impact: Impact, contact: ContactName): number {
  const { nose1, nose2, cloth1, cloth2 } = slipAt(impact, now);
  const rate = slipRate(impact, ratesNow);
  const nose = contact === 'nose';
  const square = nose ? nose1 * nose1 + nose2 * nose2 : cloth1 * cloth1 + cloth2 * cloth2;
  const closing = nose
    ? -(nose1 * rate.nose1 + nose2 * rate.nose2)
    : -(cloth1 * rate.cloth1 + cloth2 * rate.cloth2);
  return closing > 0 ? square / closing : FOREVER;
}

function slipSize(impact: Impact, contact: ContactName, y: Impulses): number {
  const slip = slipAt(impact, y);
  return contact === 'nose'
    ? hypotenuse(slip.nose1, slip.nose2)
    : hypotenuse(slip.cloth1, slip.cloth2);
}

/** The share of the last step over which both contacts stayed as they were; 1 if all of it. */
export function shareHeld(impact: Impact): number {
  if (impact.nose === 'sliding' && impact.cloth === 'sliding') return 1;
  return Math.min(shareHeldBy(impact, 'nose'), shareHeldBy(impact, 'cloth'));
}

function shareHeldBy(impact: Impact, contact: ContactName): number {
  if (impact[contact] === 'sliding') return 1;
  if (impact[contact] === 'stuck') return shareAtRest(impact, contact);
  // A leaving contact is followed only until its slip has a direction of its own.
  const size = slipSize(impact, contact, next);
  return size > OVERGROWN * SMALL ? Math.max(0.05, (2 * SMALL) / size) : 1;
}

/** The share of the last step over which friction held a contact. */
function shareAtRest(impact: Impact, contact: ContactName): number {
  const need = needToHold(impact, contact, next);
  if (need <= OVERDRAWN) return 1;
  const before = needToHold(impact, contact, now);
  const crossing = (1 + OVERDRAWN - 2 * before) / (2 * (need - before));
  return Math.min(0.9, Math.max(0.05, crossing));
}
