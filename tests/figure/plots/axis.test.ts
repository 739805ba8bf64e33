import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { along, dayTicks, type Span, tenths, wholeTicks } from '../../../src/figure/plots/axis.ts';

const span: Span = { from: 100, to: 128, start: 40, end: 320 };

describe('a scale', () => {
  it('spaces values evenly and puts those beyond it at its ends', () => {
    expect([100, 114, 128].map((value) => along(span, value))).toEqual([40, 180, 320]);
    expect([0, 999].map((value) => along(span, value))).toEqual([40, 320]);
  });

  it('may run downward', () => {
    expect(along({ from: 0, to: 1, start: 200, end: 0 }, 0.25)).toBe(150);
  });

  it('of no length puts every value in its middle', () => {
    expect(along({ from: 7, to: 7, start: 0, end: 10 }, 7)).toBe(5);
  });
});

describe('ticks of whole numbers', () => {
  it.each([
    [0, [0, 1]],
    [3, [0, 1, 2, 3]],
    [7, [0, 2, 4, 6, 8]],
    [60, [0, 20, 40, 60]],
    [87, [0, 20, 40, 60, 80, 100]],
    [420, [0, 100, 200, 300, 400, 500]],
  ])('up to %d', (greatest, ticks) => {
    expect(wholeTicks(greatest, 5)).toEqual(ticks);
  });

  it('cover every value in no more than the allowed steps', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        fc.integer({ min: 2, max: 8 }),
        (greatest, most) => {
          const ticks = wholeTicks(greatest, most);
          expect(ticks.length - 1).toBeLessThanOrEqual(most);
          expect(ticks.at(-1)).toBeGreaterThanOrEqual(greatest);
          expect(ticks.every(Number.isInteger)).toBe(true);
        },
      ),
      { seed: 1 },
    );
  });
});

describe('ticks of a part of one', () => {
  it.each([
    [1, [0.5, 0.6, 0.7, 0.8, 0.9, 1]],
    [0.62, [0.5, 0.6, 0.7, 0.8, 0.9, 1]],
    [0.41, [0.4, 0.6, 0.8, 1]],
    [0.35, [0.2, 0.4, 0.6, 0.8, 1]],
    [0, [0, 0.2, 0.4, 0.6, 0.8, 1]],
  ])('from %d', (least, ticks) => {
    expect(tenths(least)).toEqual(ticks);
  });
});

describe('days under a scale', () => {
  it('are weeks from the first day, where there is room', () => {
    expect(dayTicks(span, [], 50)).toEqual([100, 107, 114, 121, 128]);
    expect(dayTicks(span, [], 100)).toEqual([100, 114, 128]);
  });

  it('are the wanted days first; others without room beside them are left out', () => {
    expect(dayTicks(span, [100, 112], 55)).toEqual([100, 112, 121, 128]);
    expect(dayTicks(span, [112, 400], 55)).toEqual([100, 112, 121, 128]);
  });
});
