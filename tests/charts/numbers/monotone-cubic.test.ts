/** Laws of the monotone cubic, and values by hand from the formulas of Fritsch & Carlson 1980. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { monotoneCubic } from '../../../src/charts/index.ts';
import type { Knot } from '../../../src/charts/numbers/monotone-cubic.ts';

const CLOSE = 1e-9;

describe('by hand', () => {
  // Three points of x²: the three-point rule gives the parabola's own slopes 0, 2 and 4. In chords (1
  // and 3) they are 0 and 2, and 2/3 and 4/3, inside the circle, so the parabola is unchanged.
  it('is the parabola through three points that are not too steep', () => {
    const curve = monotoneCubic(knots([0, 0], [1, 1], [2, 4]));
    for (const x of [0.1, 0.5, 0.75, 1.3, 1.9]) expect(curve(x)).toBeCloseTo(x * x, 12);
  });

  // (0, 0), (1, 0.1), (2, 2): chords 0.1 and 1.9; slopes −0.8, 1.0, 2.8 by the three-point rule. The
  // first is against its chord, so 0. The first interval then has 0 and 10 chords, shrunk to 3: 0.3.
  // Halfway a cubic is (y1 + y2)/2 + h (m1 − m2)/8: 0.05 − 0.0375 and 1.05 − 2.5/8.
  it('shrinks a slope to three chords', () => {
    const curve = monotoneCubic(knots([0, 0], [1, 0.1], [2, 2]));
    expect(curve(0.5)).toBeCloseTo(0.0125, 12);
    expect(curve(1.5)).toBeCloseTo(0.7375, 12);
  });

  // Uneven steps: (0, 0), (1, 1), (3, 2): chords 1 and 0.5, the middle slope (2·1 + 1·0.5)/3 = 5/6,
  // the ends (4·1 − 1·0.5)/3 = 7/6 and (5·0.5 − 2·1)/3 = 1/6; in chords all within the circle.
  it('weights each chord by the other step', () => {
    const curve = monotoneCubic(knots([0, 0], [1, 1], [3, 2]));
    expect(curve(0.5)).toBeCloseTo(0.5 + (7 / 6 - 5 / 6) / 8, 12);
    expect(curve(2)).toBeCloseTo(1.5 + (2 * (5 / 6 - 1 / 6)) / 8, 12);
  });

  it('is flat at a turning point', () => {
    const curve = monotoneCubic(knots([0, 0], [1, 1], [2, 0]));
    expect((curve(1) ?? 0) - (curve(1 - 1e-5) ?? 0)).toBeLessThan(1e-9);
  });
});

describe('ends', () => {
  it('are the ends of the curve', () => {
    const curve = monotoneCubic(knots([1, 5], [2, 6]));
    expect([0.999, 1, 2, 2.001].map(curve)).toEqual([null, 5, 6, null]);
    expect(curve(Number.NaN)).toBeNull();
  });

  it('can be one point, with only its own value, or none', () => {
    expect([1, 1.5].map(monotoneCubic(knots([1, 5])))).toEqual([5, null]);
    expect(monotoneCubic([])(1)).toBeNull();
  });

  it('need points in order, each once, and finite', () => {
    expect(() => monotoneCubic(knots([2, 0], [1, 0]))).toThrow('x 1 after 2');
    expect(() => monotoneCubic(knots([1, 0], [1, 1]))).toThrow(RangeError);
    expect(() => monotoneCubic(knots([1, Number.NaN]))).toThrow(RangeError);
  });
});

describe('the curve', () => {
  it('passes through its points', () => {
    fc.assert(
      fc.property(anyKnots(1), (points) => {
        const curve = monotoneCubic(points);
        for (const { x, y } of points) expect(curve(x)).toBe(y);
      }),
    );
  });

  it('is straight through points on a line, and through any two points', () => {
    fc.assert(
      fc.property(anyKnots(2), real(-5, 5), real(-5, 5), part, (points, slope, level, at) => {
        const line = (x: number) => level + slope * x;
        const curve = monotoneCubic(points.map(({ x }) => ({ x, y: line(x) })));
        const x = within(points, at);
        expect(Math.abs((curve(x) ?? Number.NaN) - line(x))).toBeLessThan(CLOSE);
        const [a, b] = points as [Knot, Knot];
        const z = within([a, b], at);
        const two = a.y + ((b.y - a.y) * (z - a.x)) / (b.x - a.x);
        expect(Math.abs((monotoneCubic([a, b])(z) ?? Number.NaN) - two)).toBeLessThan(CLOSE);
      }),
    );
  });

  it('rises where its points rise', () => {
    fc.assert(
      fc.property(anyKnots(2), part, part, (points, one, other) => {
        const ys = points.map(({ y }) => y).sort((a, b) => a - b);
        const rising = points.map(({ x }, k) => ({ x, y: ys[k] ?? 0 }));
        const curve = monotoneCubic(rising);
        const [low, high] = [one, other].map((at) => within(points, at)).sort((a, b) => a - b);
        const [a, b] = [curve(low ?? 0), curve(high ?? 0)];
        expect((b ?? Number.NaN) - (a ?? Number.NaN)).toBeGreaterThanOrEqual(-CLOSE);
      }),
      { numRuns: 500 },
    );
  });

  // The circle ensures this; a cubic with steeper ends would overshoot.
  it('stays within the values of the two points around it', () => {
    fc.assert(
      fc.property(anyKnots(2), part, (points, at) => {
        const x = within(points, at);
        const next = Math.max(
          1,
          points.findIndex((point) => x <= point.x),
        );
        const [a, b] = points.slice(next - 1, next + 1) as [Knot, Knot];
        const y = monotoneCubic(points)(x) ?? Number.NaN;
        expect(y).toBeGreaterThanOrEqual(Math.min(a.y, b.y));
        expect(y).toBeLessThanOrEqual(Math.max(a.y, b.y));
      }),
      { numRuns: 500 },
    );
  });

  // The four-point rule gives the end slope of a cubic exactly from four of its values, so comparing
  // the sides adds no error.
  it('has the same slope on both sides of a point', () => {
    fc.assert(
      fc.property(anyKnots(3), (points) => {
        const curve = monotoneCubic(points);
        points.slice(1, -1).forEach(({ x }, k) => {
          const [before, after] = [points[k], points[k + 2]] as [Knot, Knot];
          const left = slopeAt(curve, x, (before.x - x) / 4);
          const right = slopeAt(curve, x, (after.x - x) / 4);
          expect(Math.abs(left - right)).toBeLessThan(1e-6);
        });
      }),
    );
  });

  it('is the same from the other end of the rail, and upside down', () => {
    fc.assert(
      fc.property(anyKnots(1), part, (points, at) => {
        const x = within(points, at);
        const here = monotoneCubic(points)(x) ?? Number.NaN;
        const back = points.map((point) => ({ x: -point.x, y: point.y })).reverse();
        expect(Math.abs((monotoneCubic(back)(-x) ?? Number.NaN) - here)).toBeLessThan(CLOSE);
        const down = points.map((point) => ({ x: point.x, y: -point.y }));
        expect(Math.abs((monotoneCubic(down)(x) ?? Number.NaN) + here)).toBeLessThan(CLOSE);
      }),
    );
  });
});

/** Slope of a cubic at x from its values there and one, two and three steps on; exact. */
function slopeAt(curve: (x: number) => number | null, x: number, h: number): number {
  const [a, b, c, d] = [0, 1, 2, 3].map((n) => curve(x + n * h) ?? Number.NaN) as [
    number,
    number,
    number,
    number,
  ];
  return (-11 * a + 18 * b - 9 * c + 2 * d) / (6 * h);
}

function knots(...points: readonly (readonly [number, number])[]): readonly Knot[] {
  return points.map(([x, y]) => ({ x, y }));
}

function within(points: readonly Knot[], at: number): number {
  const [first, last] = [points[0]?.x ?? 0, points.at(-1)?.x ?? 0];
  return Math.min(last, first + at * (last - first));
}

function real(min: number, max: number) {
  return fc.double({ min, max, noNaN: true });
}

const part = real(0, 1);

/** Points at least a quarter of a diamond apart, with numbers of a rail. */
function anyKnots(least: number): fc.Arbitrary<readonly Knot[]> {
  return fc
    .array(fc.tuple(real(0.25, 2), real(0, 8)), { minLength: least, maxLength: 9 })
    .map((steps) => {
      let x = 0;
      return steps.map(([by, y]) => {
        x += by;
        return { x, y };
      });
    });
}
