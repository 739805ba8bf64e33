/** Numbers that do not fit their column, and the suggested order. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Candidate,
  computeChart,
  HARBOUR_LANE,
  PATTERNS,
  suggestOrder,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { type ColumnNumber, outliers } from '../../../src/charts/numbers/outliers.ts';
import { SPEEDS } from '../../../src/table/index.ts';

const TOLERANCE = 0.1;

/** Columns of the demo chart that are long enough: six numbers or more. */
const columns = PATTERNS.flatMap(({ id }) =>
  SPEEDS.map((speed) =>
    computeChart(HARBOUR_LANE)
      .lines.filter(({ pattern }) => pattern === id)
      .map(({ start, numbers }) => ({ start: toNumber(start), computed: numbers[speed].exact })),
  ),
).filter((column) => column.length >= 6);

/** Typed to 0.05, with an offset and a slope of the table: no number is off by more than 0.026. */
function typed(column: (typeof columns)[number], lean: number, slope: number): ColumnNumber[] {
  return column.map(({ start, computed }) => ({
    start,
    computed,
    number: Math.round((computed + lean + slope * start) * 20) / 20,
  }));
}

const column = fc.constantFrom(...columns);
const lean = fc.double({ min: -0.5, max: 0.5, noNaN: true });
const slope = fc.double({ min: -0.04, max: 0.04, noNaN: true });

describe('outliers', () => {
  it('do not exist if a table plays long or short as a whole', () => {
    fc.assert(
      fc.property(column, lean, slope, (one, by, more) => {
        expect(outliers(typed(one, by, more), TOLERANCE)).toEqual([]);
      }),
    );
  });

  it('are a single wrong digit, wherever it is, and nothing else', () => {
    const wrong = fc.constantFrom(-1, -0.5, 0.3, 0.5, 1, 3);
    fc.assert(
      fc.property(column, lean, slope, fc.nat(100), wrong, (one, by, more, at, error) => {
        const numbers = typed(one, by, more);
        const place = at % numbers.length;
        const bad = numbers[place] as ColumnNumber;
        const mistyped = numbers.map((number, n) =>
          n === place ? { ...number, number: number.number + error } : number,
        );
        const found = outliers(mistyped, TOLERANCE);
        expect(found.map(({ start }) => start)).toEqual([bad.start]);
        // The others predict the right number, up to their rounding and the slope at an end.
        expect(Math.abs((found[0]?.expected ?? Number.NaN) - bad.number)).toBeLessThan(TOLERANCE);
      }),
    );
  });

  it('do not exist among fewer than four numbers', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 8, noNaN: true }), { maxLength: 3 }), (all) => {
        const few = all.map((number, start) => ({ start, number, computed: null }));
        expect(outliers(few, TOLERANCE)).toEqual([]);
      }),
    );
  });

  it('are found among four', () => {
    for (const place of [0, 1, 2, 3]) {
      const four = [0, 0, 0, 0].map((_, n) => ({
        start: n,
        computed: 1,
        number: n === place ? 2 : 1,
      }));
      expect(outliers(four, TOLERANCE)).toEqual([{ start: place, expected: 1 }]);
    }
  });

  it('are found among the numbers themselves if nothing is computed', () => {
    // 3.1 instead of 1.3 in a column that rises evenly.
    const numbers = [0.5, 0.9, 3.1, 1.7, 2.1, 2.5].map((number, start) => ({
      start,
      number,
      computed: null,
    }));
    const [found, ...more] = outliers(numbers, TOLERANCE);
    expect(more).toEqual([]);
    expect(found?.start).toBe(2);
    expect(found?.expected).toBeCloseTo(1.3, 6);
  });

  it('do not exist at a step, as when half of a column is corrected', () => {
    const numbers = [0, 0, 0, 0.5, 0.5, 0.5].map((by, start) => ({
      start,
      number: start + by,
      computed: start,
    }));
    expect(outliers(numbers, TOLERANCE)).toEqual([]);
  });

  it('can be two, each found by the others', () => {
    const numbers = [0, 0, 0.8, 0, 0, 0, -0.6, 0].map((by, start) => ({
      start,
      number: start / 2 + by,
      computed: start / 2,
    }));
    const found = outliers(numbers, TOLERANCE);
    expect(found.map(({ start }) => start)).toEqual([2, 6]);
    expect(found.map(({ expected }) => expected)).toEqual([1, 3]);
  });
});

describe('the suggested order', () => {
  const candidates = fc.array(
    fc.record({
      pattern: fc.constantFrom(...PATTERNS.map(({ id }) => id)),
      start: fc.integer({ min: 0, max: 80_000 }).map((units) => toDecimal(units / 10_000)),
      width: fc.constantFrom(0, 0.05, 0.1, 0.2),
      use: fc.constantFrom(1, 2, 3),
    }),
    { maxLength: 40 },
  );

  it('has every line once, the most valuable first', () => {
    fc.assert(
      fc.property(candidates, (all) => {
        const order = suggestOrder(all);
        expect(order.map(plain).sort()).toEqual(all.map(plain).sort());
        order.slice(1).forEach((next, n) => {
          const before = order[n] as Candidate;
          expect(next.width * next.use).toBeLessThanOrEqual(before.width * before.use);
        });
      }),
    );
  });

  it('keeps equals in the given order', () => {
    fc.assert(
      fc.property(candidates, (all) => {
        const alike = all.map((one) => ({ ...one, width: 0.1, use: 2 }));
        expect(suggestOrder(alike).map(plain)).toEqual(alike.map(plain));
      }),
    );
  });

  it('puts as many first as last, at most a third', () => {
    fc.assert(
      fc.property(candidates, (all) => {
        const order = suggestOrder(all).map(({ priority }) => priority);
        const count = (wanted: string) => order.filter((one) => one === wanted).length;
        expect(count('first')).toBe(count('last'));
        expect(count('first')).toBe(Math.floor(all.length / 3));
        expect(order).toEqual([
          ...order.filter((one) => one === 'first'),
          ...order.filter((one) => one === 'in turn'),
          ...order.filter((one) => one === 'last'),
        ]);
      }),
    );
  });
});

function plain({ pattern, start, width, use }: Candidate): string {
  return JSON.stringify([pattern, start, width, use]);
}
