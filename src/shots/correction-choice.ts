/**
 * Chooses among the corrections that can be fitted.
 *
 * A correction is a candidate only if the two-sided 90 % interval of each of its amounts excludes
 * 0. Each candidate is judged with rounded amounts, as the player hears it, by its AICc with the
 * error scale of the best fit. All candidates within 2 of the best have "substantial support"
 * (Burnham & Anderson 2002, 2.6; from memory). Of these, the one that is easiest to apply in the
 * head wins.
 */

import { type Decimal, plus, roundTo, toDecimal, toNumber } from '../charts/index.ts';
import {
  type AmountOf,
  expectedOf,
  type Fit,
  type FittedAmount,
  KINDS,
  type NumberGroup,
} from './correction-fit.ts';
import type { Estimate } from './fit.ts';
import { aicc, beyond, disagreement } from './noise.ts';
import type { Reading } from './reading.ts';
import type { TableShot } from './shot.ts';
import { t95 } from './student-t.ts';

/**
 * A correction of numbers through the sight: an amount to add to each number of a group, or a
 * factor for all numbers.
 */
export type Correction =
  | { readonly kind: 'offset'; readonly group: NumberGroup; readonly add: Decimal }
  | { readonly kind: 'factor'; readonly times: Decimal };

/**
 * Why there is no correction. `all made`: the printed numbers would also have made all shots. `too
 * small`: it is certainly below the smallest correction. `too large`: tables do not differ by that
 * much, so something else is wrong.
 */
export const NO_CORRECTION = [
  'no shots',
  'too few shots',
  'all made',
  'not significant',
  'too small',
  'too large',
] as const;
export type NoCorrection = (typeof NO_CORRECTION)[number];

/** A fitted amount, unrounded: in diamonds, or a factor minus 1. */
export interface Amount extends Estimate {
  readonly of: AmountOf;
  /** The two-sided 90 % interval. */
  readonly interval: readonly [number, number];
}

/** With fewer shots than this, their spread cannot be seen. */
const FEWEST = 3;
/** Corrections are rounded to this: in diamonds for an amount, without unit for a factor. */
export const CORRECTION_STEP = toDecimal(0.05);
/**
 * A larger correction does not come from the table but from a different line, speed or way of
 * counting. MOST is in diamonds; MOST_TIMES bounds factors. Common practice, no source.
 */
const MOST = 0.5;
const MOST_TIMES = [0.8, 1.25] as const;
/** Rounding errors in sums of tenths are less than this. */
const HAIR = 1e-9;
/** Corrections with an AICc within this of the best explain the shots about equally well. */
const AS_GOOD = 2;

export interface Choice {
  /** The fit of the correction, or else the fit to show instead. */
  readonly fit: Fit;
  readonly why: NoCorrection | null;
}

/**
 * Chooses a fit.
 * @param plain the plainest fit, shown if there is no correction
 * @param asPrinted returns whether a shot was aimed at the printed number
 */
export function chooseFit(
  readings: readonly Reading[],
  fits: readonly Fit[],
  plain: Fit,
  asPrinted: (shot: TableShot) => boolean,
): Choice {
  const nothing = (why: NoCorrection): Choice => ({ fit: plain, why });
  if (readings.length < FEWEST) return nothing('too few shots');
  if (readings.every((one) => madeAsPrinted(one, asPrinted))) return nothing('all made');
  const sure = fits.filter((fit) =>
    intervalsOf(readings, fit).every(([low, high]) => low > 0 || high < 0),
  );
  const candidates = sure.filter((fit) => correctionsOf(fit).length > 0);
  const best = easiest(readings, fits, candidates);
  if (best) return { fit: best, why: best.amounts.some(tooLarge) ? 'too large' : null };
  const step = toNumber(CORRECTION_STEP);
  const small = intervalsOf(readings, plain).every(([low, high]) => low >= -step && high <= step);
  return nothing(small ? 'too small' : 'not significant');
}

/** Returns the easiest of those candidates that explain the shots about as well as the best one. */
function easiest(
  readings: readonly Reading[],
  fits: readonly Fit[],
  candidates: readonly Fit[],
): Fit | undefined {
  const scale = Math.min(...fits.map((fit) => fit.scale));
  const ranked = candidates
    .map((fit) => ({ fit, score: scoreOf(readings, fit, scale) }))
    .sort((a, b) => a.score - b.score);
  const least = ranked[0]?.score ?? 0;
  return ranked
    .filter(({ score }) => score <= least + AS_GOOD)
    .sort((a, b) => KINDS.indexOf(a.fit.kind) - KINDS.indexOf(b.fit.kind))[0]?.fit;
}

/**
 * Returns whether the shot was made with the printed number, or was made and its make window
 * contains that number.
 */
function madeAsPrinted({ shot, seen }: Reading, asPrinted: (shot: TableShot) => boolean): boolean {
  return shot.miss === null && (asPrinted(shot) || beyond(seen, 0) === 0);
}

function intervalsOf(readings: readonly Reading[], { amounts }: Fit) {
  return amounts.map((one) => amountOf(one, readings.length - amounts.length).interval);
}

function tooLarge({ of, value }: FittedAmount): boolean {
  const rounded = toNumber(roundTo(value, CORRECTION_STEP));
  if (of !== 'factor') return Math.abs(rounded) > MOST + HAIR;
  const [least, most] = MOST_TIMES;
  return 1 + rounded < least - HAIR || 1 + rounded > most + HAIR;
}

/** Returns the AICc of the rounded correction. */
function scoreOf(readings: readonly Reading[], { amounts }: Fit, scale: number): number {
  const rounded = amounts.map(({ of, value }) => ({
    of,
    value: toNumber(roundTo(value, CORRECTION_STEP)),
  }));
  const sum = readings.reduce(
    (far, reading) => far + disagreement(reading.seen, expectedOf(reading, rounded), scale),
    0,
  );
  return aicc(sum, amounts.length, readings.length);
}

export function amountOf({ of, value, standardError }: FittedAmount, freedom: number): Amount {
  const far = freedom >= 1 ? t95(freedom) * standardError : Number.POSITIVE_INFINITY;
  return { of, value, standardError, interval: [value - far, value + far] };
}

/** Returns a fit's corrections, rounded, without those that round to 0. */
export function correctionsOf({ amounts }: Fit): readonly Correction[] {
  return amounts.flatMap(({ of, value }): readonly Correction[] => {
    const add = roundTo(value, CORRECTION_STEP);
    if (add === 0) return [];
    if (of === 'factor') return [{ kind: 'factor', times: plus(toDecimal(1), add) }];
    return [{ kind: 'offset', group: of, add }];
  });
}
