/**
 * What is said of the corrections that could be fitted.
 *
 * One is put forward only if each of its amounts is beyond its two-sided 90 % interval, and judged as
 * it would be said, rounded: by AICc, with the scale of the errors that of the best fit, so that
 * −2 log likelihood is twice the disagreement (shot-noise.ts). Of those within 2 of the best, between
 * which there is "substantial support" for either (Burnham & Anderson 2002, 2.6; from memory), the one
 * that is easiest to carry is said.
 */

import { type Decimal, plus, roundTo, toDecimal, toNumber } from '../charts/index.ts';
import type { TableShot } from './arrival.ts';
import {
  type AmountOf,
  type Block,
  expectedOf,
  type Fit,
  KINDS,
  type NumberGroup,
} from './correction-fit.ts';
import type { Estimate } from './fit.ts';
import { beyond, disagreement } from './noise.ts';
import type { Reading } from './reading.ts';
import { t95 } from './student-t.ts';

/** Numbers are through the sight: add to each of the group, or take each so many times. */
export type Correction =
  | { readonly kind: 'offset'; readonly group: NumberGroup; readonly add: Decimal }
  | { readonly kind: 'factor'; readonly times: Decimal };

/**
 * Why there is nothing to say. `all made`: as the printed numbers would have been too. `too small`:
 * surely less than what is said at all. `too large`: more than tables differ, so something is amiss.
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

/** An amount as fitted, unrounded: diamonds, or by how much a factor is more than 1. */
export interface Amount extends Estimate {
  readonly of: AmountOf;
  /** 90 %, two-sided. */
  readonly interval: readonly [number, number];
}

/** Fewer than this do not tell their own spread. */
const FEWEST = 3;
/** What is said is rounded to this: diamonds, or parts of a number. */
const SAID = toDecimal(0.05);
/**
 * More than this is no table's doing but another line, speed or way of counting: diamonds, and what a
 * number is taken times. Common practice, no source.
 */
const MOST = 0.5;
const MOST_TIMES = [0.8, 1.25] as const;
/** Rounding of a sum of tenths is no difference. */
const HAIR = 1e-9;
/** AICc within which two corrections explain the shots about as well. */
const AS_GOOD = 2;
export interface Choice {
  /** What is said, or shown as what would be. */
  readonly fit: Fit;
  readonly why: NoCorrection | null;
}

export function choice(
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
  const best = easiest(
    readings,
    fits,
    sure.filter((fit) => saidOf(fit).length > 0),
  );
  if (best) return { fit: best, why: best.blocks.some(tooLarge) ? 'too large' : null };
  const small = intervalsOf(readings, plain).every(
    ([low, high]) => low >= -toNumber(SAID) && high <= toNumber(SAID),
  );
  return nothing(small ? 'too small' : 'not significant');
}

/** Of those that explain the shots about as well as the best, the one that is easiest to carry. */
function easiest(
  readings: readonly Reading[],
  fits: readonly Fit[],
  sayable: readonly Fit[],
): Fit | undefined {
  const scale = Math.min(...fits.map((fit) => fit.scale));
  const ranked = sayable
    .map((fit) => ({ fit, score: scoreOf(readings, fit, scale) }))
    .sort((a, b) => a.score - b.score);
  const least = ranked[0]?.score ?? 0;
  return ranked
    .filter(({ score }) => score <= least + AS_GOOD)
    .sort((a, b) => KINDS.indexOf(a.fit.kind) - KINDS.indexOf(b.fit.kind))[0]?.fit;
}

/** Made, and with the printed number, or its window holds that one too. */
function madeAsPrinted({ shot, seen }: Reading, asPrinted: (shot: TableShot) => boolean): boolean {
  return shot.miss === null && (asPrinted(shot) || beyond(seen, 0) === 0);
}

function intervalsOf(readings: readonly Reading[], { blocks }: Fit) {
  return blocks.map((block) => amountOf(block, readings.length - blocks.length).interval);
}

function tooLarge({ of, value }: Block): boolean {
  const said = toNumber(roundTo(value, SAID));
  if (of !== 'factor') return Math.abs(said) > MOST + HAIR;
  const [least, most] = MOST_TIMES;
  return 1 + said < least - HAIR || 1 + said > most + HAIR;
}

/** AICc of what would be said. */
function scoreOf(readings: readonly Reading[], fit: Fit, scale: number): number {
  const said = fit.blocks.map(({ of, value }) => ({ of, value: toNumber(roundTo(value, SAID)) }));
  const far = readings.reduce(
    (sum, reading) => sum + disagreement(reading.seen, expectedOf(reading, said), scale),
    0,
  );
  const k = fit.blocks.length;
  return 2 * far + 2 * k + (2 * k * (k + 1)) / (readings.length - k - 1);
}

export function amountOf({ of, value, standardError }: Block, freedom: number): Amount {
  const far = freedom >= 1 ? t95(freedom) * standardError : Number.POSITIVE_INFINITY;
  return { of, value, standardError, interval: [value - far, value + far] };
}

export function saidOf({ blocks }: Fit): readonly Correction[] {
  return blocks.flatMap(({ of, value }): readonly Correction[] => {
    const add = roundTo(value, SAID);
    if (add === 0) return [];
    if (of === 'factor') return [{ kind: 'factor', times: plus(toDecimal(1), add) }];
    return [{ kind: 'offset', group: of, add }];
  });
}
