import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { estimate, mostLikely } from '../../src/shots/fit.ts';
import {
  disagreement,
  information,
  type Observation,
  pull,
  scaleOf,
  weightOf,
} from '../../src/shots/noise.ts';
import { t95 } from '../../src/shots/student-t.ts';

const at = (middle: number, half = 0, noise = 0.1): Observation => ({ middle, half, noise });
const plain = (seen: readonly Observation[]) => seen.map((one) => ({ seen: one, times: 1 }));

describe('t', () => {
  // The 95 % column of the printed tables (e.g. NIST/SEMATECH handbook 1.3.6.7.2), from memory.
  it.each([
    [1, 6.314],
    [2, 2.92],
    [3, 2.353],
    [4, 2.132],
    [5, 2.015],
    [8, 1.86],
    [10, 1.812],
    [20, 1.725],
    [30, 1.697],
    [120, 1.658],
  ])('with %d degrees of freedom is %d', (freedom, t) => {
    expect(Math.abs(t95(freedom) - t)).toBeLessThan(0.002);
  });

  it('falls to the normal distribution’s 1.6449', () => {
    expect(t95(1e9)).toBeCloseTo(1.6449, 4);
    expect(() => t95(0)).toThrow('0 degrees');
  });
});

describe('the information of a shot', () => {
  // The logistic density is sech²(x/2τ)/4τ with τ = c/2 · noise; integrated by Simpson's rule.
  it('is the likelihood of an interval under logistic errors', () => {
    const unit = (1.205 / 2) * 0.1;
    const density = (x: number) => 1 / (4 * unit * Math.cosh(x / (2 * unit)) ** 2);
    const mass = (from: number, to: number) => {
      const n = 400;
      const h = (to - from) / n;
      const sum = Array.from({ length: n + 1 }, (_, k) => {
        const weight = k === 0 || k === n ? 1 : k % 2 === 0 ? 2 : 4;
        return weight * density(from + k * h);
      }).reduce((a, b) => a + b, 0);
      return (sum * h) / 3;
    };
    const seen = at(0.2, 0.15);
    const base = disagreement(seen, 0.2, 1) + Math.log(mass(-0.15, 0.15));
    for (const value of [-0.1, 0, 0.1, 0.3, 0.45]) {
      const likelihood = -Math.log(mass(0.05 - value, 0.35 - value));
      expect(disagreement(seen, value, 1) - base).toBeCloseTo(likelihood, 6);
    }
  });

  it('has the pull and the curvature of its likelihood', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 0.4, noNaN: true }),
        fc.double({ min: 1, max: 5, noNaN: true }),
        (value, half, scale) => {
          const seen = at(0.1, half);
          const h = 1e-4;
          const cost = (x: number) => disagreement(seen, x, scale);
          const slope = (cost(value + h) - cost(value - h)) / (2 * h);
          const bend = (pull(seen, value + h, scale) - pull(seen, value - h, scale)) / (2 * h);
          expect(pull(seen, value, scale)).toBeCloseTo(-slope, 4);
          expect(information(seen, value, scale)).toBeCloseTo(-bend, 2);
        },
      ),
    );
  });

  // Holland & Welsch 1977: w(z) = tanh(z/c)/(z/c), c = 1.205 (from memory).
  it('has the logistic weight', () => {
    for (const z of [0.3, 1, 2, 6]) {
      const weight = Math.tanh(z / 1.205) / (z / 1.205);
      expect(weightOf(at(0.1 * z), 0, 1)).toBeCloseTo(weight, 9);
      expect(weightOf(at(-0.2 * z), 0, 2)).toBeCloseTo(weight, 9);
    }
    expect(weightOf(at(0), 0, 1)).toBe(1);
    expect(weightOf(at(5, 0.2), 0, 1)).toBeLessThan(0.1);
  });
});

describe('an estimate', () => {
  // Iterated least squares with those weights, as in the textbook (Huber 1981, 7.8).
  it('is the M-estimate of location', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 }),
        (values) => {
          let place = values.reduce((a, b) => a + b, 0) / values.length;
          for (let round = 0; round < 4000; round++) {
            const weights = values.map((value) => {
              const z = (value - place) / 0.1 / 1.205;
              return z === 0 ? 1 : Math.tanh(z) / z;
            });
            const sum = weights.reduce((a, b) => a + b, 0);
            place = values.reduce((a, value, n) => a + (weights[n] ?? 0) * value, 0) / sum;
          }
          const ours = mostLikely(plain(values.map((value) => at(value))), 1);
          // Two far groups of shots leave a flat region in between, where the iteration creeps.
          const off = (x: number) =>
            values.reduce((a, value) => a + Math.tanh((value - x) / 0.1205), 0);
          expect(Math.abs(off(ours))).toBeLessThanOrEqual(Math.abs(off(place)) + 1e-9);
        },
      ),
      { numRuns: 30 },
    );
  });

  // With noise much larger than the disagreements all weights are 1: ordinary least squares,
  // b = Σxy/Σx² and its se σ/√Σx², with the logistic's σ = π/√3 · c/2 · noise for one shot.
  it('is least squares if nothing is far off', () => {
    const x = [0.5, 1, 1.5, 2, 3];
    const y = [0.011, 0.018, 0.033, 0.041, 0.058];
    const terms = x.map((times, n) => ({ seen: at(y[n] ?? 0, 0, 10), times }));
    const xx = x.reduce((sum, one) => sum + one * one, 0);
    const slope = x.reduce((sum, one, n) => sum + one * (y[n] ?? 0), 0) / xx;
    expect(mostLikely(terms, 1)).toBeCloseTo(slope, 6);
    const [one] = plain([at(0.3)]);
    if (!one) throw new Error('one term');
    const deviation = (Math.PI / Math.sqrt(3)) * (1.205 / 2) * 0.1;
    expect(estimate([one], 1).standardError).toBeCloseTo(deviation, 4);
    expect(estimate([one], 1).value).toBeCloseTo(0.3, 9);
  });

  // If its window is wide compared with its error, a made shot is uniform over it: sd = width/√12.
  it('of made shots alone is uniform over the overlap of their windows', () => {
    const made = plain([at(0, 0.3, 0.002), at(0.2, 0.3, 0.002)]);
    const { value, standardError } = estimate(made, 1);
    expect(value).toBeCloseTo(0.1, 3);
    expect(standardError).toBeCloseTo(0.4 / Math.sqrt(12), 3);
  });
});

describe('the scale', () => {
  // 1.4826 × the median size of the errors, × n/(n − p) (Huber 1981, 5.1; 1.4826 = 1/0.6745).
  it('is the median deviation of the misses', () => {
    const values = [-0.9, -0.35, -0.3, 0.05, 0.4, 0.5, 0.6];
    const seen = values.map((value) => at(value));
    expect(
      scaleOf(
        seen,
        values.map(() => 0),
        1,
      ),
    ).toBeCloseTo((4 / 0.6745) * (7 / 6), 6);
  });

  it('is never below 1, and ignores one wild shot', () => {
    const seen = Array.from({ length: 9 }, (_, n) => at(n / 1000));
    expect(
      scaleOf(
        [...seen, at(50)],
        Array.from({ length: 10 }, () => 0),
        1,
      ),
    ).toBe(1);
  });

  // Logistic errors of scale s seen through windows of ±1.5 s, with evenly spaced quantiles, so that the
  // share inside is exact; the rest are misses. The scale has to be within a tenth.
  it('is recovered although most shots were made', () => {
    const unit = 3 * (1.205 / 2) * 0.1;
    const errors = Array.from({ length: 199 }, (_, n) => unit * Math.log((n + 1) / (199 - n)));
    const seen = errors.map((error) =>
      Math.abs(error) < 1.5 * unit ? at(0, 1.5 * unit) : at(error),
    );
    const inside = seen.filter(({ half }) => half > 0).length / seen.length;
    expect(inside).toBeGreaterThan(0.6);
    // The median size of a logistic error is ln 3 units; the scale is that of a normal distribution.
    const expected = (Math.log(3) * unit) / 0.1 / 0.6745;
    const found = scaleOf(
      seen,
      seen.map(() => 0),
      1,
    );
    expect(Math.abs(found / expected - 1)).toBeLessThan(0.1);
  });
});
