/**
 * Decides, between two steps of the integration, whether a contact of a ball against a cushion
 * changes between sliding, rest and leaving rest. For the frame and the symbols see cushion.ts.
 * Slips are fractions of the speed into the cushion.
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
 * If a slip would vanish within this much impulse and friction holds the contact easily, the
 * contact comes to rest at once. The harder it is to hold, the less impulse is allowed. The error
 * is of second order, unless the ball leaves the cushion at that very moment.
 */
const SOON = 1e-4;
/** A slip larger than this is not brought to rest. */
const SLOW = 1e-3;
/** A contact with a slip this small comes to rest whenever friction can hold it. */
const AT_REST = 1e-5;
/**
 * If a slip that is dying out is this small and friction cannot hold the contact, the slip
 * reverses.
 */
export const GONE = 1e-7;
/** If a slip at the nose is this small and points along its friction, only its size is followed. */
const SMALL = 5e-3;
/** A slip points along its friction if the sine of the angle between them is below this. */
const ON_COURSE = 0.01;
/** A contact that is leaving rest counts as sliding once its slip exceeds this many times SMALL. */
const GROWN = 1.5;
/**
 * If the slip of a contact that is leaving rest exceeds this many times SMALL in a step, the step
 * is shortened so that it ends at twice SMALL.
 */
const OVERGROWN = 2.5;
/**
 * A step is accepted if, at its end, a contact at rest needs no more than this multiple of the
 * available friction.
 */
const OVERDRAWN = 1.005;
/** Returned instead of a step's length if the contact has changed. */
const CHANGED = -1;
/** Two contacts settle after a few changes. More changes than this come from rounding. */
const MAX_CHANGES = 12;
const FOREVER = Number.POSITIVE_INFINITY;
/** A step covers at most this share of the way to the point where a slip vanishes. */
const NEARLY_THERE = 0.98;

/**
 * Decides how each contact continues from `now`, and updates the rates at `now` if a contact
 * changes.
 * @returns the longest step that ends before a slip vanishes
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

/** Returns how long a step may be before the slip at the nose vanishes, or CHANGED. */
function settleNose(impact: Impact): number {
  // While the nose slides, the rate of the normal impulse equals the slip (see `rates`).
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

/** Returns how long a step may be before the slip at the cloth vanishes, or CHANGED. */
function settleCloth(impact: Impact): number {
  if (impact.cloth === 'stuck') return settleStuck(impact, 'cloth');
  const size = slipSize(impact, 'cloth', now);
  if (impact.cloth === 'leaving') return settleLeaving(impact, 'cloth', size);
  if (!(size > impact.rounding)) return FOREVER;
  const left = lengthLeft(impact, 'cloth');
  // A small slip turns quickly, so a step must not be much longer than the impulse that turns it.
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
 * Returns the part of a leaving contact's slip that points along its friction, and how fast that
 * part decreases. The little slip across the friction remains from when the contact slid. Nothing
 * removes it, so it is ignored.
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
 * @param left the length of a step after which the slip would vanish
 * @param limit the longest step if the slip continues
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

/** Brings a contact to rest by adding the impulse that removes its slip. */
function stop(impact: Impact, contact: ContactName, y: Impulses): void {
  const slip = slipAt(impact, y);
  if (contact === 'nose') stopNose(impact, slip, y);
  else {
    y[2] = y[2] + slip.cloth1 / (1 + K);
    y[3] = y[3] + slip.cloth2 / (1 + K);
  }
  impact[contact] = 'stuck';
}

/**
 * Brings the nose to rest. The added impulse also presses the ball onto the cloth, so the friction
 * of the cloth adds an impulse too.
 */
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

/** Lets a contact that friction cannot hold begin to slip, starting from zero slip. */
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

/**
 * Returns the length of a step after which a slip would vanish at its present rate; FOREVER if the
 * slip is not decreasing.
 */
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

/**
 * Returns the share of the last step over which neither contact changed; 1 if neither changed at
 * all.
 */
export function shareHeld(impact: Impact): number {
  if (impact.nose === 'sliding' && impact.cloth === 'sliding') return 1;
  return Math.min(shareHeldBy(impact, 'nose'), shareHeldBy(impact, 'cloth'));
}

function shareHeldBy(impact: Impact, contact: ContactName): number {
  if (impact[contact] === 'sliding') return 1;
  if (impact[contact] === 'stuck') return shareAtRest(impact, contact);
  // A leaving contact is followed only until its slip is large enough to have a direction of its
  // own.
  const size = slipSize(impact, contact, next);
  return size > OVERGROWN * SMALL ? Math.max(0.05, (2 * SMALL) / size) : 1;
}

/** Returns the share of the last step over which friction held a contact at rest. */
function shareAtRest(impact: Impact, contact: ContactName): number {
  const need = needToHold(impact, contact, next);
  if (need <= OVERDRAWN) return 1;
  const before = needToHold(impact, contact, now);
  const crossing = (1 + OVERDRAWN - 2 * before) / (2 * (need - before));
  return Math.min(0.9, Math.max(0.05, crossing));
}
