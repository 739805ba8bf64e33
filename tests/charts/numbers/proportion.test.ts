import { describe, expect, it } from 'vitest';
import { interpolate, toDecimal } from '../../../src/charts/index.ts';

describe('the proportional rule', () => {
  const anchors = [
    { start: toDecimal(2), printed: toDecimal(1) },
    { start: toDecimal(4), printed: toDecimal(2) },
    { start: toDecimal(7), printed: toDecimal(1.7) },
  ];

  // By hand from x1 + (x2 − x1)(t − t1)/(t2 − t1).
  it.each([
    [1.9, null],
    [2, 1],
    [2.5, 1.25],
    [3.5, 1.75],
    [4, 2],
    [5, 1.9],
    [6.5, 1.75],
    [7, 1.7],
    [7.1, null],
  ])('at %d gives %d', (start, expected) => {
    expect(interpolate(anchors, toDecimal(start))).toBe(expected);
  });

  it('needs two anchors, except at an anchor', () => {
    expect(interpolate(anchors.slice(0, 1), toDecimal(2))).toBe(1);
    expect(interpolate(anchors.slice(0, 1), toDecimal(2.5))).toBeNull();
    expect(interpolate([], toDecimal(2))).toBeNull();
  });

  it('refuses anchors out of order', () => {
    expect(() => interpolate(anchors.toReversed(), toDecimal(2))).toThrow('start 4 after 7');
  });
});
