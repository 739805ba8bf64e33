/**
 * Tests whether errors lean to one side more than by chance, with Wilcoxon's signed-rank test
 * (Wilcoxon 1945).
 */

export interface SignedRank {
  /** The number of nonzero errors. Wilcoxon's test leaves out zeros. */
  readonly count: number;
  /**
   * The two-sided p-value: how likely a lean of this size or more is if both signs are equally likely.
   * 1 if there are no errors.
   */
  readonly p: number;
  /** The least p-value that errors of these sizes could have, which is when all are on one side. */
  readonly leastP: number;
}

/**
 * How many errors get an exact p-value. For more errors, the normal approximation is within 0.007 of
 * the exact p. Where p is under 0.08, the approximation is never below it, because the true
 * distribution has thinner tails.
 */
const EXACT = 25;

/** Errors are rounded to this unit, in diamonds. Numbers are stored in ten-thousandths. */
const GRAIN = 1e-4;

/** @param errors the signed errors, in diamonds */
export function signedRank(errors: readonly number[]): SignedRank {
  const grains = errors.map((error) => Math.round(error / GRAIN)).filter((one) => one !== 0);
  const count = grains.length;
  if (count === 0) return { count, p: 1, leastP: 1 };
  const ranks = doubledRanks(grains.map(Math.abs));
  const above = grains.reduce((sum, one, n) => (one > 0 ? sum + (ranks[n] as number) : sum), 0);
  const all = ranks.reduce((sum, rank) => sum + rank, 0);
  const small = Math.min(above, all - above);
  const twoSided = count <= EXACT ? exactP : normalP;
  return { count, p: twoSided(ranks, small), leastP: twoSided(ranks, 0) };
}

/**
 * Returns twice the rank of each size, counted from the smallest. Equal sizes share their mean rank;
 * doubling keeps it a whole number.
 */
function doubledRanks(sizes: readonly number[]): readonly number[] {
  const order = [...sizes].sort((a, b) => a - b);
  const first = new Map<number, number>();
  const last = new Map<number, number>();
  for (const [n, size] of order.entries()) {
    if (!first.has(size)) first.set(size, n + 1);
    last.set(size, n + 1);
  }
  return sizes.map((size) => (first.get(size) ?? 0) + (last.get(size) ?? 0));
}

/**
 * Returns the exact p-value: the share of all 2ⁿ choices of signs for which the ranks of the lesser
 * side add up to at most `small`. It counts them one rank at a time.
 */
function exactP(ranks: readonly number[], small: number): number {
  const counts = new Float64Array(small + 1);
  counts[0] = 1;
  for (const rank of ranks)
    for (let sum = small; sum >= rank; sum--)
      counts[sum] = (counts[sum] as number) + (counts[sum - rank] as number);
  const within = counts.reduce((sum, one) => sum + one, 0);
  return Math.min(1, (2 * within) / 2 ** ranks.length);
}

/**
 * Returns the approximate p-value. The variance is computed from these ranks, so it is right for ties,
 * too. The continuity correction is half a rank.
 */
function normalP(ranks: readonly number[], small: number): number {
  const mean = ranks.reduce((sum, rank) => sum + rank, 0) / 2;
  const variance = ranks.reduce((sum, rank) => sum + rank * rank, 0) / 4;
  const off = Math.max(0, mean - small - 1);
  return Math.min(1, 2 * normalTail(off / Math.sqrt(variance)));
}

/**
 * Returns the share of a standard normal distribution beyond z ≥ 0, within 1e-7 (Abramowitz & Stegun
 * 26.2.17). The coefficients are cited from memory; the tests check them against a series.
 */
export function normalTail(z: number): number {
  const t = 1 / (1 + 0.2316419 * z);
  const series =
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * series;
}

/**
 * Returns the median of the means of all pairs of errors, including each error paired with itself
 * (Hodges & Lehmann 1963). Null if there are no errors.
 */
export function typicalError(errors: readonly number[]): number | null {
  const counts = new Map<number, number>();
  for (const error of errors) {
    const grain = Math.round(error / GRAIN);
    counts.set(grain, (counts.get(grain) ?? 0) + 1);
  }
  const values = [...counts].sort(([a], [b]) => a - b);
  const sums = new Map<number, number>();
  for (const [n, [a, many]] of values.entries())
    for (const [b, others] of values.slice(n)) {
      const pairs = a === b ? (many * (many + 1)) / 2 : many * others;
      sums.set(a + b, (sums.get(a + b) ?? 0) + pairs);
    }
  const doubled = medianOf(sums);
  return doubled === null ? null : (doubled * GRAIN) / 2;
}

/** @param counts how often each value occurs */
function medianOf(counts: ReadonlyMap<number, number>): number | null {
  const values = [...counts].sort(([a], [b]) => a - b);
  const all = values.reduce((sum, [, count]) => sum + count, 0);
  if (all === 0) return null;
  const nth = (n: number): number => {
    let passed = 0;
    for (const [value, count] of values) {
      passed += count;
      if (passed > n) return value;
    }
    return Number.NaN;
  };
  return (nth(Math.floor((all - 1) / 2)) + nth(Math.floor(all / 2))) / 2;
}
