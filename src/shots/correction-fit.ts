/** What can be fitted to test shots: an amount to add to all numbers or to a group's, or a factor. */

import type { PatternId } from '../charts/index.ts';
import { patternOf } from '../charts/index.ts';
import { isLongRail } from '../table/index.ts';
import { type Estimate, estimate, mostLikely, type Term } from './fit.ts';
import { scaleOf } from './noise.ts';
import type { Reading } from './reading.ts';

/** By the rail of the first cushion: the foot rail's numbers, the long rail's, or all. */
export type NumberGroup = 'all' | 'short-rail' | 'long-rail';

/** What an amount is of. */
export type AmountOf = NumberGroup | 'factor';

/** What can be fitted, from the easiest to carry in the head to the hardest. */
export const KINDS = ['all', 'one group', 'factor', 'both groups'] as const;
type Kind = (typeof KINDS)[number];

/** A group with fewer shots is not fitted by itself. */
const FEWEST_OF_GROUP = 2;
/** Diamonds between two numbers that tell a factor from an amount. Common practice, no source. */
const APART = 0.5;
const ROUNDS = 8;

/** An amount and the shots that tell it. */
export interface Block extends Estimate {
  readonly of: AmountOf;
}

export interface Fit {
  readonly kind: Kind;
  readonly blocks: readonly Block[];
  readonly scale: number;
}

/** All that can be fitted to the shots, the plainest first; of numbers that nobody tried, nothing. */
export function fitsOf(readings: readonly Reading[]): readonly Fit[] {
  if (readings.length === 0) return [];
  const group = groupOf(readings[0] as Reading);
  const factor = tellFactor(readings) ? [fitOf('factor', readings, ['factor'])] : [];
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

/** From one number, or from like ones, a factor cannot be told from an amount to add. */
function tellFactor(readings: readonly Reading[]): boolean {
  return readings.some(({ shot: a }) =>
    readings.some(
      ({ shot: b }) =>
        (a.pattern !== b.pattern || a.start !== b.start) && Math.abs(a.aim - b.aim) >= APART,
    ),
  );
}

/** The scale needs the amounts and the amounts the scale: in turn, until neither moves. */
function fitOf(kind: Kind, readings: readonly Reading[], of: readonly AmountOf[]): Fit {
  const seen = readings.map((reading) => reading.seen);
  const blocks = of.map((one) => ({ of: one, terms: termsOf(readings, one) }));
  let scale = 1;
  for (let round = 0; round < ROUNDS; round++) {
    const values = blocks.map((block) => ({
      of: block.of,
      value: mostLikely(block.terms, scale),
    }));
    const expected = readings.map((reading) => expectedOf(reading, values));
    scale = scaleOf(seen, expected, blocks.length);
  }
  return {
    kind,
    blocks: blocks.map((block) => ({ of: block.of, ...estimate(block.terms, scale) })),
    scale,
  };
}

function termsOf(readings: readonly Reading[], of: AmountOf): readonly Term[] {
  return readings
    .filter((reading) => of === 'all' || of === 'factor' || groupOf(reading) === of)
    .map((reading) => ({ seen: reading.seen, times: timesOf(reading, of) }));
}

/** A factor is told as what it is more than 1, so that nothing to correct is 0 for all. */
function timesOf({ shot, seen }: Reading, of: AmountOf): number {
  return of === 'factor' ? shot.aim - seen.middle : 1;
}

/** What a shot should ask for, by the amounts. */
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

/** The group of a pattern's numbers: by its first cushion. */
export function groupOfPattern(pattern: PatternId): 'short-rail' | 'long-rail' {
  return isLongRail(patternOf(pattern).cushions[0]) ? 'long-rail' : 'short-rail';
}
