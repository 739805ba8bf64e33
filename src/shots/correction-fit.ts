/**
 * Fits corrections to test shots: an amount to add to all numbers or to those of a group, or a
 * factor.
 */

import { type PatternId, patternOf } from '../charts/index.ts';
import { isLongRail } from '../table/index.ts';
import { type Estimate, estimate, mostLikely, type Term } from './fit.ts';
import { scaleOf } from './noise.ts';
import type { Reading } from './reading.ts';

/** A group of numbers: all, or those with a short or a long rail as their first cushion. */
export type NumberGroup = 'all' | 'short-rail' | 'long-rail';

/** What an amount applies to. */
export type AmountOf = NumberGroup | 'factor';

/** The kinds of corrections, from the easiest to apply in the head to the hardest. */
export const KINDS = ['all', 'one group', 'factor', 'both groups'] as const;
type Kind = (typeof KINDS)[number];

/** A group with fewer shots than this is not fitted by itself. */
const FEWEST_OF_GROUP = 2;
/**
 * If two numbers are at least this far apart, in diamonds, a factor can be told from an amount to
 * add. Common practice, no source.
 */
const APART = 0.5;
const ROUNDS = 8;

export interface FittedAmount extends Estimate {
  readonly of: AmountOf;
}

export interface Fit {
  readonly kind: Kind;
  readonly amounts: readonly FittedAmount[];
  readonly scale: number;
}

/**
 * Returns every fit that the shots allow, the plainest first. There is none for a group without
 * shots.
 */
export function fitsOf(readings: readonly Reading[]): readonly Fit[] {
  if (readings.length === 0) return [];
  const group = groupOf(readings[0] as Reading);
  const factor = separateFactor(readings) ? [fitOf('factor', readings, ['factor'])] : [];
  if (readings.every((reading) => groupOf(reading) === group)) {
    return [fitOf('one group', readings, [group]), ...factor];
  }
  const full = (['short-rail', 'long-rail'] as const).filter(
    (one) => readings.filter((reading) => groupOf(reading) === one).length >= FEWEST_OF_GROUP,
  );
  return [
    fitOf('all', readings, ['all']),
    ...full.map((one) => fitOf('one group', readings, [one])),
    ...factor,
    ...(full.length === 2 ? [fitOf('both groups', readings, full)] : []),
  ];
}

/** Returns whether the numbers differ enough to tell a factor from an amount to add. */
function separateFactor(readings: readonly Reading[]): boolean {
  return readings.some(({ shot: a }) =>
    readings.some(
      ({ shot: b }) =>
        (a.pattern !== b.pattern || a.start !== b.start) && Math.abs(a.aim - b.aim) >= APART,
    ),
  );
}

/**
 * Fits the given amounts. The scale needs the amounts, and the amounts need the scale, so this
 * alternates until neither moves.
 */
function fitOf(kind: Kind, readings: readonly Reading[], of: readonly AmountOf[]): Fit {
  const seen = readings.map((reading) => reading.seen);
  const parts = of.map((one) => ({ of: one, terms: termsOf(readings, one) }));
  let scale = 1;
  for (let round = 0; round < ROUNDS; round++) {
    const values = parts.map((part) => ({ of: part.of, value: mostLikely(part.terms, scale) }));
    const expected = readings.map((reading) => expectedOf(reading, values));
    scale = scaleOf(seen, expected, parts.length);
  }
  return {
    kind,
    amounts: parts.map((part) => ({ of: part.of, ...estimate(part.terms, scale) })),
    scale,
  };
}

function termsOf(readings: readonly Reading[], of: AmountOf): readonly Term[] {
  return readings
    .filter((reading) => of === 'all' || of === 'factor' || groupOf(reading) === of)
    .map((reading) => ({ seen: reading.seen, times: timesOf(reading, of) }));
}

/**
 * Returns by how much the amount is multiplied for a reading. A factor counts from 1, so that 0
 * means no correction for all kinds.
 */
function timesOf({ shot, seen }: Reading, of: AmountOf): number {
  return of === 'factor' ? shot.aim - seen.middle : 1;
}

/** Returns the correction that a shot should ask for if the amounts were right. */
export function expectedOf(
  reading: Reading,
  amounts: readonly { readonly of: AmountOf; readonly value: number }[],
): number {
  return amounts.reduce((sum, { of, value }) => {
    const applies = of === 'all' || of === 'factor' || of === groupOf(reading);
    return applies ? sum + timesOf(reading, of) * value : sum;
  }, 0);
}

function groupOf({ shot }: Reading): 'short-rail' | 'long-rail' {
  return groupOfPattern(shot.pattern);
}

/** Returns the group of a pattern's numbers, which depends on its first cushion. */
export function groupOfPattern(pattern: PatternId): 'short-rail' | 'long-rail' {
  return isLongRail(patternOf(pattern).cushions[0]) ? 'long-rail' : 'short-rail';
}
