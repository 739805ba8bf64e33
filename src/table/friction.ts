/**
 * Coulomb friction at the two contacts of a ball against a cushion: the nose and the cloth. For the
 * frame, the symbols and the equations see cushion.ts.
 */

import { hypotenuse } from './hypotenuse.ts';
import {
  type ContactName,
  type Impact,
  type Impulses,
  K,
  NORMAL,
  type Slip,
  slipAt,
  speedInto,
  WORK,
} from './impact.ts';

/**
 * Iteration stops when friction changes by less than this, which is far below the error of a step.
 */
const AGREED = 1e-10;
const MAX_ROUNDS = 60;
/** The most rounds of `resolveByTurns`. */
const MAX_TURNS = 40;

/** A contact that needs less than this share of the available friction comes to rest at once. */
export const LOOSE = 0.3;

/** A contact that needs this many times the available friction slides off at once. */
export const OVERPOWERED = 1.25;

/** The result of `resolve`. Every call overwrites and returns the same object. */
interface Friction {
  /**
   * Friction at the nose (a1, a2) and at the cloth (b1, b2), as shares of the available friction.
   * Each pair is inside the unit disc.
   */
  a1: number;
  a2: number;
  b1: number;
  b2: number;
  /** Reaction of the cloth, per unit of normal impulse. */
  reaction: number;
  /** The friction needed to hold each contact at rest, as a share of the available friction. */
  noseNeed: number;
  clothNeed: number;
}

const friction: Friction = {
  a1: 0,
  a2: 0,
  b1: 0,
  b2: 0,
  reaction: 0,
  noseNeed: 0,
  clothNeed: 0,
};

/**
 * Writes the rates of the impulses and of the work into `out`. They are per unit of normal impulse,
 * except while the nose slides: then they are per unit of ∫ dp / |slip at the nose|. In that
 * variable a slip that is dying out decays like e⁻ˣ and turns no faster at its end, so steps need
 * not shrink with it.
 */
export function rates(impact: Impact, y: Impulses, out: Impulses): void {
  const { nose, cloth, mu, nu, c } = impact;
  if (nose === 'sliding' && cloth === 'sliding' && slidingRates(impact, y, out)) return;
  const slip = slipAt(impact, y);
  const pace =
    nose === 'sliding' ? Math.max(impact.rounding, hypotenuse(slip.nose1, slip.nose2)) : 1;
  const f = resolve(impact, slip);
  const onCloth = pace * nu * f.reaction;
  out[0] = pace * mu * f.a1;
  out[1] = pace * mu * f.a2;
  out[2] = onCloth * f.b1;
  out[3] = onCloth * f.b2;
  out[NORMAL] = pace;
  out[WORK] = pace * c * speedInto(impact, y);
}

/**
 * Does the same as `rates` for two sliding contacts. It is written out because nearly all
 * evaluations are of this kind.
 * @returns false if a slip is so small that it is only rounding
 */
function slidingRates(impact: Impact, y: Impulses, out: Impulses): boolean {
  const { s, c, mu, nu, rounding } = impact;
  const a1 = y[0];
  const a2 = y[1];
  const b1 = y[2];
  const b2 = y[3];
  const p = y[NORMAL];
  const nose1 = impact.nose1 - (1 + K) * a1 + (K * s - 1) * b1;
  const nose2 = impact.nose2 + s * c * p - (s * s + K) * a2 + (s - K) * b2;
  const cloth1 = impact.cloth1 - (1 - K * s) * a1 - (1 + K) * b1;
  const cloth2 = impact.cloth2 - c * p + (s - K) * a2 - (1 + K) * b2;
  const nose = hypotenuse(nose1, nose2);
  const cloth = hypotenuse(cloth1, cloth2);
  if (!(nose > rounding && cloth > rounding)) return false;
  const onCloth = (nu * Math.max(0, s * nose + c * mu * nose2)) / cloth;
  out[0] = mu * nose1;
  out[1] = mu * nose2;
  out[2] = onCloth * cloth1;
  out[3] = onCloth * cloth2;
  out[NORMAL] = nose;
  out[WORK] = c * nose * (1 - c * p + s * a2 - b2);
  return true;
}

/**
 * Returns the friction needed to hold a contact at rest, as a share of the available friction. The
 * contact may have any slip at present.
 */
export function needToHold(impact: Impact, contact: ContactName, y: Impulses): number {
  const before = impact[contact];
  impact[contact] = 'stuck';
  const { noseNeed, clothNeed } = resolve(impact, slipAt(impact, y));
  impact[contact] = before;
  return contact === 'nose' ? noseNeed : clothNeed;
}

/**
 * Returns the sine of the angle between a small slip at the nose and the friction toward which it
 * is turning.
 */
export function offCourse(impact: Impact, y: Impulses): number {
  const { nose } = impact;
  const { nose1, nose2 } = slipAt(impact, y);
  impact.nose = 'leaving';
  const f = resolve(impact, slipAt(impact, y));
  impact.nose = nose;
  if (!(f.noseNeed > LOOSE)) return 1;
  const along = nose1 * f.a1 + nose2 * f.a2;
  return along > 0 ? Math.abs(nose1 * f.a2 - nose2 * f.a1) / along : 1;
}

/**
 * Computes the friction at both contacts and the friction needed to hold each at rest. Every call
 * overwrites and returns the same object.
 */
function resolve(impact: Impact, slip: Slip): Friction {
  const size = hypotenuse(slip.nose1, slip.nose2);
  if (!(impact.nose === 'sliding' && size > impact.rounding)) return resolveFromRest(impact, slip);
  friction.a1 = slip.nose1 / size;
  friction.a2 = slip.nose2 / size;
  resolveCloth(impact, slip);
  return friction;
}

/**
 * Computes the friction at both contacts when the nose does not slip. Each then depends on the
 * other.
 */
function resolveFromRest(impact: Impact, slip: Slip): Friction {
  const size = hypotenuse(slip.cloth1, slip.cloth2);
  const clothSlides = impact.cloth === 'sliding' && size > impact.rounding;
  if (!clothSlides || impact.mu === 0) return resolveByTurns(impact, slip);
  friction.b1 = slip.cloth1 / size;
  friction.b2 = slip.cloth2 / size;
  let growth = 0;
  let slope = holdNoseOverSlidingCloth(impact, growth);
  const need = friction.noseNeed;
  // The slip grows (λ > 0, see `growthOf`) or shrinks along the friction. Newton's method works on
  // 1/|a|, which is nearly linear in λ.
  const slips = need > 1 || (impact.nose === 'leaving' && need > LOOSE);
  for (let n = 0; slips && n < MAX_ROUNDS && Math.abs(friction.noseNeed - 1) > AGREED; n++) {
    growth += ((friction.noseNeed - 1) * friction.noseNeed) / -slope;
    slope = holdNoseOverSlidingCloth(impact, growth);
  }
  friction.noseNeed = need;
  return friction;
}

/**
 * Computes the nose's friction over a cloth that slides in a known direction. For a given growth λ
 * this is a linear problem.
 * @returns the slope of the friction's size with respect to λ
 */
function holdNoseOverSlidingCloth({ s, c, mu, nu }: Impact, growth: number): number {
  const { b1, b2 } = friction;
  const m1 = 1 + K + growth;
  const m2 = s * s + K + growth - nu * c * (s - K) * b2;
  const x2 = (s * (c + nu * (s - K) * b2)) / m2;
  const reaction = s + c * x2;
  const x1 = (nu * reaction * (K * s - 1) * b1) / m1;
  const slope2 = -x2 / m2;
  const slope1 = (-x1 + nu * c * slope2 * (K * s - 1) * b1) / m1;
  const size = hypotenuse(x1, x2);
  friction.reaction = reaction;
  friction.a1 = x1 / mu;
  friction.a2 = x2 / mu;
  friction.noseNeed = size / mu;
  friction.clothNeed = 0;
  return (x1 * slope1 + x2 * slope2) / (size * mu);
}

/**
 * Computes the friction at two contacts that cannot be solved together: solves them in turn until
 * they agree.
 */
function resolveByTurns(impact: Impact, slip: Slip): Friction {
  friction.a1 = 0;
  friction.a2 = 0;
  for (let n = 0; n < MAX_TURNS; n++) {
    resolveCloth(impact, slip);
    const { a1, a2 } = friction;
    holdNose(impact);
    if (Math.abs(friction.a1 - a1) + Math.abs(friction.a2 - a2) < AGREED) break;
  }
  resolveCloth(impact, slip);
  return friction;
}

/** Computes the friction at the cloth from the present friction at the nose. */
function resolveCloth({ s, c, mu, nu, cloth, rounding }: Impact, slip: Slip): void {
  friction.reaction = Math.max(0, s + mu * c * friction.a2);
  const size = hypotenuse(slip.cloth1, slip.cloth2);
  if (cloth === 'sliding' && size > rounding) {
    friction.b1 = slip.cloth1 / size;
    friction.b2 = slip.cloth2 / size;
    return;
  }
  const d1 = -mu * friction.a1 * (1 - K * s);
  const d2 = -c + mu * friction.a2 * (s - K);
  const most = nu * friction.reaction * (1 + K);
  const drive = hypotenuse(d1, d2);
  friction.clothNeed = most > 0 ? drive / most : Number.POSITIVE_INFINITY;
  const by = Math.max(drive, most);
  friction.b1 = by > 0 ? d1 / by : 0;
  friction.b2 = by > 0 ? d2 / by : 0;
}

/**
 * Computes the friction at a nose without slip. It either holds the nose or points in the direction
 * in which the nose begins to slip.
 */
function holdNose({ s, c, mu, nu }: Impact): void {
  if (mu === 0) {
    friction.noseNeed = Number.POSITIVE_INFINITY;
    return;
  }
  const onCloth = nu * friction.reaction;
  const d1 = onCloth * (K * s - 1) * friction.b1;
  const d2 = s * c + onCloth * (s - K) * friction.b2;
  const m1 = mu * (1 + K);
  const m2 = mu * (s * s + K);
  friction.noseNeed = hypotenuse(d1 / m1, d2 / m2);
  const growth = friction.noseNeed <= 1 ? 0 : growthOf(d1, d2, m1, m2);
  friction.a1 = d1 / (m1 + growth);
  friction.a2 = d2 / (m2 + growth);
}

/**
 * Returns the λ > 0 for which |D/(m + λ)| = 1. The slip then grows along the friction. Newton's
 * method approaches it from below.
 */
function growthOf(d1: number, d2: number, m1: number, m2: number): number {
  let growth = 0;
  for (let n = 0; n < MAX_ROUNDS; n++) {
    const q1 = (d1 / (m1 + growth)) ** 2;
    const q2 = (d2 / (m2 + growth)) ** 2;
    const change = (q1 + q2 - 1) / (2 * (q1 / (m1 + growth) + q2 / (m2 + growth)));
    growth += change;
    if (Math.abs(change) < AGREED) break;
  }
  return growth;
}
