import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  normalTail,
  signedRank,
  typicalError,
} from '../../../src/scheduler/insight/signed-rank.ts';

/** Errors in steps of a tenth, with ties and zeros, as they are in logs. */
const errorsArb = (most: number) =>
  fc.array(
    fc.integer({ min: -4, max: 4 }).map((tenths) => tenths / 10),
    { maxLength: most },
  );

describe('Wilcoxon’s signed ranks', () => {
  it('agree with trying all signs', () => {
    fc.assert(
      fc.property(errorsArb(11), (errors) => {
        const { p, leastP, count } = signedRank(errors);
        const own = errors.filter((error) => error !== 0);
        expect(count).toBe(own.length);
        expect(p).toBeCloseTo(bruteP(own), 10);
        expect(leastP).toBeCloseTo(bruteP(own.map(Math.abs)), 10);
      }),
      { numRuns: 60 },
    );
  });

  /**
   * The largest sum of ranks on the lesser side that is beyond chance at 5 %, two-sided: the usual
   * printed table (McCornack 1965, J. Am. Stat. Assoc. 60: 864), from memory.
   */
  it.each([
    [6, 0],
    [7, 2],
    [8, 3],
    [9, 5],
    [10, 8],
    [11, 10],
    [12, 13],
    [13, 17],
    [14, 21],
    [15, 25],
    [20, 52],
    [25, 89],
  ])('of %d errors are significant up to a sum of %d', (count, critical) => {
    expect(signedRank(withLesserSum(count, critical)).p).toBeLessThanOrEqual(0.05);
    expect(signedRank(withLesserSum(count, critical + 1)).p).toBeGreaterThan(0.05);
  });

  // The exact distribution for more errors than the code does exactly: adds up counts in a map.
  it.each([26, 30, 40])('of %d errors are close to the exact ones', (count) => {
    const parts = partsOf(count);
    for (let sum = 0; 4 * sum < count * (count + 1); sum++) {
      const { p } = signedRank(withLesserSum(count, sum));
      const exact = exactP(parts, sum);
      expect(Math.abs(p - exact)).toBeLessThan(0.007);
      if (exact < 0.08) expect(p).toBeGreaterThanOrEqual(exact);
    }
  });

  it('depend neither on the unit nor on the side that is called high', () => {
    fc.assert(
      fc.property(errorsArb(40), (errors) => {
        const { p } = signedRank(errors);
        expect(signedRank(errors.map((error) => -error)).p).toBe(p);
        expect(signedRank(errors.map((error) => 5 * error)).p).toBe(p);
        expect(signedRank([...errors].reverse()).p).toBe(p);
        expect(p).toBeGreaterThan(0);
        expect(p).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('of no errors show nothing', () => {
    expect(signedRank([])).toEqual({ count: 0, p: 1, leastP: 1 });
    expect(signedRank([0, 0, 0])).toEqual({ count: 0, p: 1, leastP: 1 });
  });
});

describe('the normal distribution', () => {
  // Printed tables of its upper tail.
  it.each([
    [0, 0.5],
    [1, 0.1586553],
    [1.6448536, 0.05],
    [1.959964, 0.025],
    [2.5758293, 0.005],
    [3.0902323, 0.001],
  ])('beyond %d has a part of %d', (z, part) => {
    expect(Math.abs(normalTail(z) - part)).toBeLessThan(1e-7);
  });
});

describe('the typical error', () => {
  it('is the median of the means of all pairs', () => {
    fc.assert(
      fc.property(errorsArb(14), (errors) => {
        const means = errors.flatMap((a, n) => errors.slice(n).map((b) => (a + b) / 2));
        means.sort((a, b) => a - b);
        const [low, high] = [(means.length - 1) / 2, means.length / 2].map(
          (at) => means[Math.floor(at)],
        );
        const typical = typicalError(errors);
        if (errors.length === 0) expect(typical).toBeNull();
        else expect(typical).toBeCloseTo(((low ?? 0) + (high ?? 0)) / 2, 9);
      }),
    );
  });

  it('is not changed by one wild error', () => {
    expect(typicalError([0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 9])).toBeCloseTo(0.1, 9);
  });
});

/** Two-sided p by trying every sign of every error; ranks by counting smaller errors. */
function bruteP(errors: readonly number[]): number {
  const n = errors.length;
  const sizes = errors.map((error) => Math.round(Math.abs(error) * 10));
  const ranks = sizes.map(
    (size) =>
      sizes.filter((other) => other < size).length +
      (sizes.filter((other) => other === size).length + 1) / 2,
  );
  const all = ranks.reduce((sum, rank) => sum + rank, 0);
  const off = (plus: number) => Math.abs(plus - all / 2);
  const seen = off(ranks.reduce((sum, rank, k) => sum + ((errors[k] ?? 0) > 0 ? rank : 0), 0));
  let asFar = 0;
  for (let signs = 0; signs < 2 ** n; signs++) {
    const plus = ranks.reduce((sum, rank, k) => sum + ((signs >> k) & 1) * rank, 0);
    if (off(plus) >= seen - 1e-9) asFar += 1;
  }
  return asFar / 2 ** n;
}

/** Errors 1 … n whose positive ranks add up to a sum, the largest ranks first. */
function withLesserSum(count: number, sum: number): readonly number[] {
  let left = sum;
  const errors: number[] = [];
  for (let rank = count; rank > 0; rank--) {
    const fits = rank <= left;
    if (fits) left -= rank;
    errors.push(fits ? rank : -rank);
  }
  return errors;
}

/** Two-sided p of ranks 1 … n without ties. */
function exactP(parts: ReadonlyMap<number, number>, sum: number): number {
  let within = 0;
  for (const [reached, part] of parts) if (reached <= sum) within += part;
  return Math.min(1, 2 * within);
}

/** The part of all signs by the sum of ranks 1 … n that they give. */
function partsOf(count: number): ReadonlyMap<number, number> {
  let parts = new Map([[0, 1]]);
  for (let rank = 1; rank <= count; rank++) {
    const next = new Map<number, number>();
    for (const [reached, part] of parts)
      for (const to of [reached, reached + rank]) next.set(to, (next.get(to) ?? 0) + part / 2);
    parts = next;
  }
  return parts;
}
