/**
 * Numbers of a column that do not fit the others: a digit typed wrong, a ball struck badly. A number
 * is held against what its neighbours say, by how far each is from its computed number; so a table
 * that plays long or short as a whole flags nothing.
 */

import { type Knot, monotoneCubic } from './monotone-cubic.ts';

export interface ColumnNumber {
  /** Start diamond. */
  readonly start: number;
  /** Diamonds through the sight. */
  readonly number: number;
  /** Null if nothing is computed. */
  readonly computed: number | null;
}

export interface Outlier {
  readonly start: number;
  /** What it should be about, by the others: diamonds through the sight. */
  readonly about: number;
}

/** Of fewer one cannot say which of them is wrong. */
const FEWEST = 4;
/** Makes the median of absolute deviations a standard deviation (Rousseeuw & Croux 1993). */
const MAD_TO_DEVIATION = 1.4826;
/** Three deviations, the usual bound (common practice). */
const DEVIATIONS = 3;

/**
 * One at a time, the number without which the others are smoothest is held against them; it is an
 * outlier if it is further off than three deviations of what the others are off each other, and than
 * the tolerance. A step from one level to another is none: its edges fit one side.
 * @param column at one speed, by their starts; differences are taken if all have a computed number
 * @param tolerance diamonds
 */
export function outliers(column: readonly ColumnNumber[], tolerance: number): readonly Outlier[] {
  const differ = column.every(({ computed }) => computed !== null);
  let knots: readonly Knot[] = column.map(({ start, number, computed }) => ({
    x: start,
    y: differ ? number - (computed ?? 0) : number,
  }));
  const found: number[] = [];
  while (knots.length >= FEWEST) {
    const worst = roughest(knots);
    const rest = without(knots, worst);
    const bound = Math.max(DEVIATIONS * spread(rest.map((_, k) => offBy(rest, k))), tolerance);
    if (Math.abs(offBy(knots, worst)) <= bound) break;
    found.push(knots[worst]?.x ?? 0);
    knots = rest;
  }
  const fitting = knots;
  return column
    .filter(({ start }) => found.includes(start))
    .map(({ start, computed }) => ({
      start,
      about: expected(fitting, start) + (differ ? (computed ?? 0) : 0),
    }));
}

/** The place of the number without which the others are smoothest; of equals, the one furthest off. */
function roughest(knots: readonly Knot[]): number {
  const scores = knots.map((_, k) => {
    const rest = without(knots, k);
    return rest.reduce((sum, _, n) => sum + Math.abs(offBy(rest, n)), 0);
  });
  const least = Math.min(...scores);
  // Sums of equal parts in another order differ in their last places.
  const best = scores.flatMap((score, k) => (score <= least + 1e-9 ? [k] : []));
  return best.reduce((one, k) =>
    Math.abs(offBy(knots, k)) > Math.abs(offBy(knots, one)) ? k : one,
  );
}

/**
 * How far a number lies from what the ones beside it say: on along those before, back along those
 * after, and between the two; the smallest of these, and nothing if they disagree about the side.
 */
function offBy(knots: readonly Knot[], k: number): number {
  const [b2, b1, here, a1, a2] = [-2, -1, 0, 1, 2].map((by) => knots[k + by]);
  if (!here) throw new RangeError(`no number ${k} among ${knots.length}`);
  const says = [
    ...(b1 ? [b2 && a1 ? along(b2, b1, here.x) : b1.y] : []),
    ...(a1 ? [a2 && b1 ? along(a2, a1, here.x) : a1.y] : []),
    ...(b1 && a1 ? [along(b1, a1, here.x)] : []),
    ...(!b1 && a1 && a2 ? [along(a2, a1, here.x)] : []),
    ...(!a1 && b1 && b2 ? [along(b2, b1, here.x)] : []),
  ].map((y) => here.y - y);
  if (!(says.every((off) => off > 0) || says.every((off) => off < 0))) return 0;
  return says.reduce((least, off) => (Math.abs(off) < Math.abs(least) ? off : least));
}

/** The straight line through two of them. */
function along(a: Knot, b: Knot, x: number): number {
  return a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
}

/** The curve through the numbers that fit; beyond them the nearest one's. */
function expected(knots: readonly Knot[], x: number): number {
  const [first, last] = [knots[0], knots[knots.length - 1]];
  if (!first || !last) throw new RangeError('no number fits the others');
  return monotoneCubic(knots)(x) ?? (x < first.x ? first.y : last.y);
}

function without(knots: readonly Knot[], k: number): readonly Knot[] {
  return knots.filter((_, n) => n !== k);
}

function spread(values: readonly number[]): number {
  const middle = median(values);
  return MAD_TO_DEVIATION * median(values.map((value) => Math.abs(value - middle)));
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  const [low, high] = [sorted[Math.ceil(half) - 1] ?? 0, sorted[Math.floor(half)] ?? 0];
  return (low + high) / 2;
}
