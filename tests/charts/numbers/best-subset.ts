/** Anchors by brute force, to check the dynamic programming. */

import { type Decimal, toDecimal } from '../../../src/charts/index.ts';
import type { AnchorEntry } from '../../../src/charts/numbers/anchor-plan.ts';

/** An error as a fraction of whole ten-thousandths; products stay below 2^53. */
interface Fraction {
  readonly top: number;
  readonly bottom: number;
}

function isLess(a: Fraction, b: Fraction): boolean {
  return a.top * b.bottom < b.top * a.bottom;
}

/**
 * The best of all subsets with both ends: fewest, then smallest worst error, then leftmost. Errors are
 * exact fractions by cross-multiplication, not computed by the program's own rule.
 */
export function bestSubset(entries: readonly AnchorEntry[], bound: Decimal): readonly number[] {
  const last = entries.length - 1;
  let best: { readonly chosen: readonly number[]; readonly worst: Fraction } | null = null;
  for (let mask = 0; mask < 2 ** Math.max(0, last - 1); mask += 1) {
    const chosen = entries
      .map((_, k) => k)
      .filter((k) => k === 0 || k === last || (mask >> (k - 1)) % 2 === 1);
    const worst = worstFraction(entries, chosen);
    if (isLess({ top: bound, bottom: 1 }, worst)) continue;
    const order = best && compare({ chosen, worst }, best);
    if (order === null || order < 0) best = { chosen, worst };
  }
  return best?.chosen ?? [];
}

function compare(
  a: { readonly chosen: readonly number[]; readonly worst: Fraction },
  b: { readonly chosen: readonly number[]; readonly worst: Fraction },
): number {
  if (a.chosen.length !== b.chosen.length) return a.chosen.length - b.chosen.length;
  if (isLess(a.worst, b.worst)) return -1;
  if (isLess(b.worst, a.worst)) return 1;
  const k = a.chosen.findIndex((index, place) => index !== b.chosen[place]);
  return (a.chosen[k] ?? 0) - (b.chosen[k] ?? 0);
}

/** The largest error of the other entries, over all speeds. */
export function worstFraction(
  entries: readonly AnchorEntry[],
  chosen: readonly number[],
): Fraction {
  let worst: Fraction = { top: 0, bottom: 1 };
  for (const [at, entry] of entries.entries()) {
    if (chosen.includes(at)) continue;
    const left = entries[chosen.findLast((k) => k < at) ?? -1];
    const right = entries[chosen.find((k) => k > at) ?? -1];
    if (!left || !right) throw new Error(`${at} not between anchors`);
    for (const [speed, { exact }] of entry.numbers.entries()) {
      const before = (entry.start - left.start) * (right.numbers[speed]?.printed ?? Number.NaN);
      const after = (right.start - entry.start) * (left.numbers[speed]?.printed ?? Number.NaN);
      const bottom = right.start - left.start;
      const error = { top: Math.abs(before + after - toDecimal(exact) * bottom), bottom };
      if (isLess(worst, error)) worst = error;
    }
  }
  return worst;
}
