import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockFace } from '../../../src/quiz/rehearsal/clock-face.ts';
import { CLOCKS } from '../../../src/scheduler/index.ts';

describe('the face of a shot clock', () => {
  // By hand: 30 s are 30 000 ms, so 7500 ms are a quarter of them, and 12 345 ms 41.15 per cent.
  it.each([
    [30_000, 30, { seconds: 30, percent: 100, last: false, announced: null }],
    [12_345, 30, { seconds: 13, percent: 41.15, last: false, announced: null }],
    [7_500, 30, { seconds: 8, percent: 25, last: false, announced: 10 }],
    [0, 45, { seconds: 0, percent: 0, last: true, announced: 10 }],
  ])('%d ms left of %d s', (left, whole, face) => {
    const { percent, ...rest } = face;
    expect(clockFace(left, whole)).toMatchObject(rest);
    expect(clockFace(left, whole).percent).toBeCloseTo(percent, 9);
  });

  // Announced at 10 s and marked for the last 5 s: our own choice, no source. Begun seconds count.
  it.each([
    [10_001, { seconds: 11, announced: null }],
    [10_000, { seconds: 10, announced: 10, last: false }],
    [5_001, { seconds: 6, last: false }],
    [5_000, { seconds: 5, last: true }],
    [1, { seconds: 1 }],
  ])('at %d ms marks and announces the last seconds', (left, face) => {
    expect(clockFace(left, 25)).toMatchObject(face);
  });

  it('only empties, and stays within its bar', () => {
    fc.assert(
      fc.property(fc.constantFrom(...CLOCKS), fc.nat(45_000), fc.nat(45_000), (whole, a, b) => {
        const [less, more] = [a, b].map((ms) => Math.min(ms, whole * 1000)).sort((x, y) => x - y);
        const [low, high] = [clockFace(less ?? 0, whole), clockFace(more ?? 0, whole)];
        expect(low.percent).toBeLessThanOrEqual(high.percent);
        expect(low.percent).toBeGreaterThanOrEqual(0);
        expect(high.percent).toBeLessThanOrEqual(100);
      }),
    );
  });
});
