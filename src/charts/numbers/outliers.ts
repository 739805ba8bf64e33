/**
 * Finds numbers of a column that do not fit the others, after a typo or a badly struck ball. A number
 * is compared with its neighbors by how far each is from its computed number, so a table that plays
 * long or short as a whole has no outliers.
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
  /** The number that would fit the others, diamonds through the sight. */
  readonly expected: number;
}

/** With fewer numbers one cannot tell which of them is wrong. */
const FEWEST = 4;
/** Converts a median absolute deviation (MAD) to a standard deviation (Rousseeuw & Croux 1993). */
const MAD_TO_DEVIATION = 1.4826;
/** Three deviations, the usual bound (common practice). */
const DEVIATIONS = 3;

/**
 * Repeatedly compares one number with the rest: the number without which the rest is smoothest. It is
 * an outlier if it is off by more than the tolerance, and by more than three standard deviations of
 * what the rest are off. A step in the numbers is no outlier: its edges fit one side.
 * @param column at one speed, by start; differences are compared if all have a computed number
 * @param tolerance diamonds
 */
export function outliers(column: readonly ColumnNumber[], tolerance: number): readonly Outlier[] {
  const differ = column.every(({ computed }) => computed !== null);
  let knots: readonly Knot[] = column.map(({ start, number, computed }) => ({
    x: start,
    y: differ ? number - (computed ?? 0) : number,
  }));
  const removed: number[] = [];
  while (knots.length >= FEWEST) {
    const worst = roughest(knots);
    const rest = without(knots, worst);
    const bound = Math.max(DEVIATIONS * spread(rest.map((_, k) => offBy(rest, k))), tolerance);
    if (Math.abs(offBy(knots, worst)) <= bound) break;
    removed.push(knots[worst]?.x ?? 0);
    knots = rest;
  }
  const fitting = knots;
  return column
    .filter(({ start }) => removed.includes(start))
    .map(({ start, computed }) => ({
      start,
      expected: onCurve(fitting, start) + (differ ? (computed ?? 0) : 0),
    }));
}

/** The index of the number without which the rest is smoothest; of equals, the one furthest off. */
function roughest(knots: readonly Knot[]): number {
  const scores = knots.map((_, k) => {
    const rest = without(knots, k);
    return rest.reduce((sum, _, n) => sum + Math.abs(offBy(rest, n)), 0);
  });
  const least = Math.min(...scores);
  // Sums of the same parts in another order differ in their last places.
  const best = scores.flatMap((score, k) => (score <= least + 1e-9 ? [k] : []));
  return best.reduce((one, k) =>
    Math.abs(offBy(knots, k)) > Math.abs(offBy(knots, one)) ? k : one,
  );
}

/**
 * How far a number is from what its neighbors predict: along the two before, along the two after, and
 * between the nearest two. The smallest of these; 0 if they disagree about the side.
 */
function offBy(knots: readonly Knot[], k: number): number {
  const [b2, b1, here, a1, a2] = [-2, -1, 0, 1, 2].map((by) => knots[k + by]);
  if (!here) throw new RangeError(`no number ${k} among ${knots.length}`);
  const offs = [
    ...(b1 ? [b2 && a1 ? along(b2, b1, here.x) : b1.y] : []),
    ...(a1 ? [a2 && b1 ? along(a2, a1, here.x) : a1.y] : []),
    ...(b1 && a1 ? [along(b1, a1, here.x)] : []),
    ...(!b1 && a1 && a2 ? [along(a2, a1, here.x)] : []),
    ...(!a1 && b1 && b2 ? [along(b2, b1, here.x)] : []),
  ].map((y) => here.y - y);
  if (!(offs.every((off) => off > 0) || offs.every((off) => off < 0))) return 0;
  return offs.reduce((least, off) => (Math.abs(off) < Math.abs(least) ? off : least));
}

/** The straight line through two points. */
function along(a: Knot, b: Knot, x: number): number {
  return a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
}

/** The curve through the numbers that fit; beyond its ends, the nearest number. */
function onCurve(knots: readonly Knot[], x: number): number {
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
