/**
 * Downhill to the least of a cost: Marquardt's way between Newton's step and the steepest descent
 * (Levenberg 1944; Marquardt 1963, J. SIAM 11:431).
 */

import { dot, inverse, type Matrix, type Vector } from './small-matrix.ts';

export interface Slope {
  readonly gradient: Vector;
  /** Positive: for least squares JᵀJ, which needs no second derivatives. */
  readonly curvature: Matrix;
}

export interface Hill {
  /** Null where nothing can be worked out; a step is never taken there. */
  readonly cost: (at: Vector) => number | null;
  readonly slope: (at: Vector) => Slope;
  /** The nearest place that is allowed. */
  readonly within?: (at: Vector) => Vector;
}

export interface Descended {
  readonly at: Vector;
  readonly cost: number;
  readonly iterations: number;
  /** Did it end because nothing was left to gain. */
  readonly settled: boolean;
}

const MOST = 200;
/** Part of the cost below which a gain is none. */
const GAIN = 1e-12;
const STIFFEST = 1e12;

/** @returns null if there is no cost at the start */
export function descend(
  { cost, slope, within = (at) => at }: Hill,
  start: Vector,
): Descended | null {
  let at = within(start);
  const first = cost(at);
  if (first === null) return null;
  let best = first;
  let stiff = 1e-3;
  for (let iterations = 1; iterations <= MOST; iterations++) {
    const here = slope(at);
    for (;;) {
      const next = within(stepFrom(at, here, stiff) ?? at);
      const there = cost(next);
      if (there !== null && there <= best) {
        const gained = best - there;
        const moved = at.some((value, n) => value !== next[n]);
        at = next;
        best = there;
        stiff = Math.max(1e-9, stiff / 10);
        if (!moved || gained <= GAIN * Math.abs(best))
          return { at, cost: best, iterations, settled: true };
        break;
      }
      stiff *= 10;
      if (stiff > STIFFEST) return { at, cost: best, iterations, settled: true };
    }
  }
  return { at, cost: best, iterations: MOST, settled: false };
}

/** Each direction is held back in proportion to its own curvature, so units do not matter. */
function stepFrom(at: Vector, { gradient, curvature }: Slope, stiff: number): Vector | null {
  const held = curvature.map((row, r) =>
    row.map((value, c) => (r === c ? value * (1 + stiff) : value)),
  );
  const way = inverse(held);
  return way && at.map((value, n) => value - dot(way[n] ?? [], gradient));
}
