/**
 * The state of a ball against a cushion during an impact. For the frame, the symbols and the
 * equations see cushion.ts.
 */

/** m R² / I of a solid ball. */
export const K = 5 / 2;

/**
 * The state of an impact, or the rates of that state. Its numbers are, in order: the friction
 * impulses of the nose along e1 and e2, those of the cloth along x and y, the normal impulse, and
 * the work done.
 */
export type Impulses = Float64Array & Record<0 | 1 | 2 | 3 | 4 | 5, number>;
export const SIZE = 6;
export const NORMAL = 4;
export const WORK = 5;

export function impulses(): Impulses {
  return new Float64Array(SIZE) as Impulses;
}

/** A slip below this fraction of the largest slip at the first touch is only rounding. */
export const ROUNDING = 1e-13;

/**
 * `sliding`: friction acts along the slip. `stuck`: there is no slip. `leaving`: the slip is too
 * small to have a direction of its own. It points along the friction. It grows if friction has just
 * failed to hold the contact, or shrinks if friction is about to hold it.
 */
export type Contact = 'sliding' | 'stuck' | 'leaving';
export type ContactName = 'nose' | 'cloth';

/** An impact, scaled so that the speed into the cushion is 1. */
export interface Impact {
  readonly mu: number;
  readonly nu: number;
  readonly s: number;
  readonly c: number;
  /** A slip this small is only rounding. */
  readonly rounding: number;
  /** The slips at zero impulse. They are shifted when a contact starts to slip from rest. */
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

const slip: Slip = { nose1: 0, nose2: 0, cloth1: 0, cloth2: 0 };

export function speedInto({ s, c }: Impact, y: Impulses): number {
  return 1 - c * y[NORMAL] + s * y[1] - y[3];
}

/**
 * Returns the slips; a stuck contact has none. Every call overwrites and returns the same object.
 */
export function slipAt(impact: Impact, y: Impulses): Slip {
  const { s, c, nose, cloth } = impact;
  const a1 = y[0];
  const a2 = y[1];
  const b1 = y[2];
  const b2 = y[3];
  const p = y[NORMAL];
  slip.nose1 = nose === 'stuck' ? 0 : impact.nose1 - (1 + K) * a1 + (K * s - 1) * b1;
  slip.nose2 = nose === 'stuck' ? 0 : impact.nose2 + s * c * p - (s * s + K) * a2 + (s - K) * b2;
  slip.cloth1 = cloth === 'stuck' ? 0 : impact.cloth1 - (1 - K * s) * a1 - (1 + K) * b1;
  slip.cloth2 = cloth === 'stuck' ? 0 : impact.cloth2 - c * p + (s - K) * a2 - (1 + K) * b2;
  return slip;
}

/**
 * Returns the rates of the slips for the given rates of the impulses. Every call overwrites the
 * object that `slipAt` returned.
 */
export function slipRate({ s, c }: Impact, rate: Impulses): Slip {
  const a1 = rate[0];
  const a2 = rate[1];
  const b1 = rate[2];
  const b2 = rate[3];
  const p = rate[NORMAL];
  slip.nose1 = -(1 + K) * a1 + (K * s - 1) * b1;
  slip.nose2 = s * c * p - (s * s + K) * a2 + (s - K) * b2;
  slip.cloth1 = -(1 - K * s) * a1 - (1 + K) * b1;
  slip.cloth2 = -c * p + (s - K) * a2 - (1 + K) * b2;
  return slip;
}
