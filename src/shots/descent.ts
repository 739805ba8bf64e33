/**
 * Minimizes a cost by Marquardt's steps, which are between Newton's step and steepest descent
 * (Levenberg 1944; Marquardt 1963, J. SIAM 11:431).
 */

import { dot, inverse, type Matrix, type Vector } from './small-matrix.ts';

export interface Derivatives {
  readonly gradient: Vector;
  /** A positive matrix. For least squares it is JᵀJ, which needs no second derivatives. */
  readonly curvature: Matrix;
}

export interface Cost {
  /** Returns the cost at a place; null if there is none. No step goes to such a place. */
  readonly value: (at: Vector) => number | null;
  readonly derivatives: (at: Vector) => Derivatives;
  /** Returns the nearest allowed place. */
  readonly within?: (at: Vector) => Vector;
}

export interface Minimum {
  readonly at: Vector;
  readonly cost: number;
  readonly iterations: number;
  /** Whether the descent ended because there was nothing left to gain. */
  readonly converged: boolean;
}

const MOST_ITERATIONS = 200;
/** A gain smaller than this part of the cost counts as none. */
const GAIN = 1e-12;
const FIRST_DAMPING = 1e-3;
const LEAST_DAMPING = 1e-9;
const MOST_DAMPING = 1e12;

/**
 * Returns the minimum of a cost, reached from a start.
 * @returns null if there is no cost at the start
 */
export function descend(cost: Cost, start: Vector): Minimum | null {
  let at = cost.within?.(start) ?? start;
  const first = cost.value(at);
  if (first === null) return null;
  let best = first;
  let damping = FIRST_DAMPING;
  for (let iterations = 1; iterations <= MOST_ITERATIONS; iterations++) {
    const step = stepDown(cost, at, best, damping);
    if (!step) return { at, cost: best, iterations, converged: true };
    const gained = best - step.cost;
    const moved = at.some((value, n) => value !== step.at[n]);
    at = step.at;
    best = step.cost;
    damping = Math.max(LEAST_DAMPING, step.damping / 10);
    if (!moved || gained <= GAIN * Math.abs(best))
      return { at, cost: best, iterations, converged: true };
  }
  return { at, cost: best, iterations: MOST_ITERATIONS, converged: false };
}

/**
 * Returns the first step that does not raise the cost, with more and more damping; null if there is
 * none.
 */
function stepDown({ value, derivatives, within }: Cost, from: Vector, best: number, least: number) {
  const here = derivatives(from);
  for (let damping = least; damping <= MOST_DAMPING; damping *= 10) {
    const free = dampedStep(from, here, damping) ?? from;
    const at = within?.(free) ?? free;
    const cost = value(at);
    if (cost !== null && cost <= best) return { at, cost, damping };
  }
  return null;
}

/**
 * Returns the place after a damped step; null if there is no such step. Each direction is damped in
 * proportion to its own curvature, so units do not matter.
 */
function dampedStep(
  at: Vector,
  { gradient, curvature }: Derivatives,
  damping: number,
): Vector | null {
  const damped = curvature.map((row, r) =>
    row.map((value, c) => (r === c ? value * (1 + damping) : value)),
  );
  const inverted = inverse(damped);
  return inverted && at.map((value, n) => value - dot(inverted[n] ?? [], gradient));
}
