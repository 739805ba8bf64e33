/**
 * Finds numbers of a column that do not fit the others, for example because of a typo or a badly
 * struck ball. What is compared between neighbors is how far each number is from its computed
 * number. So a table that plays long or short as a whole has no outliers.
 */

import { type Knot, monotoneCubic } from './monotone-cubic.ts';

export interface ColumnNumber {
  /** Start diamond. */
  readonly start: number;
  /** The number, in diamonds through the sight. */
  readonly number: number;
  /** The computed number; null if there is none. */
  readonly computed: number | null;
}

export interface Outlier {
  readonly start: number;
  /** The number that would fit the others, in diamonds through the sight. */
  readonly expected: number;
}

/** With fewer numbers than this, nobody can tell which of them is wrong. */
const FEWEST = 4;
/** Converts a median absolute deviation (MAD) to a standard deviation (Rousseeuw & Croux 1993). */
const MAD_TO_DEVIATION = 1.4826;
/** An outlier is off by more than this many standard deviations (three is common practice). */
const DEVIATIONS = 3;

/**
 * Returns the outliers of a column. In each round it picks the number without which the rest is
 * smoothest, and compares it with the rest. It is an outlier if it is off by more than the
 * tolerance and by more than three standard deviations of how far the rest are off. A step in the
 * numbers is not an outlier, because each number at its edge fits one side.
 * @param column the numbers at one speed, by start; if all have a computed number, the differences
 *   from it are compared
 * @param tolerance in diamonds
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

/**
 * Returns the index of the number without which the rest is smoothest. If several are equal, it is
 * the one that is furthest off.
 */
function roughest(knots: readonly Knot[]): number {
  const scores = knots.map((_, k) => {
    const rest = without(knots, k);
    return rest.reduce((sum, _, n) => sum + Math.abs(offBy(rest, n)), 0);
  });
  const least = Math.min(...scores);
  // Sums of the same parts in a different order may differ in their last digits.
  const best = scores.flatMap((score, k) => (score <= least + 1e-9 ? [k] : []));
  return best.reduce((one, k) =>
    Math.abs(offBy(knots, k)) > Math.abs(offBy(knots, one)) ? k : one,
  );
}

/**
 * Returns how far a number is from what its neighbors predict. There are three predictions: along
 * the two before, along the two after, and between the nearest two. The smallest difference counts;
 * it is 0 if the predictions are on different sides.
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

/** Returns the y at x on the straight line through two points. */
function along(a: Knot, b: Knot, x: number): number {
  return a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
}

/**
 * Returns the value of the curve through the numbers that fit; beyond its ends, the nearest number.
 */
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
